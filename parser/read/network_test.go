package read

import (
	"math"
	"math/rand/v2"
	"testing"
)

// learning is a network whose views see something, and a message that it has seen.
func learning(t *testing.T) (*network, *message) {
	t.Helper()
	n := newNetwork()
	chance := rand.New(rand.NewPCG(1, 1))
	for as := range viewCount {
		for i := range viewed(n.dense, as) {
			viewed(n.dense, as)[i] = chance.Float32() - 0.5
		}
	}
	m, ok := prepare("the offset upstairs is 12, 45s in 2 pvc", Said{})
	if !ok {
		t.Fatal("no message")
	}
	return n, m
}

// The slope that is passed back is how the score changes when a weight does, as it is
// found by changing it a little.
func TestSlopeIsThatOfTheScore(t *testing.T) {
	n, m := learning(t)
	views := []view{{viewNumber + 2*int(set), 6, 7}, {viewEnd + 3*4*int(offset), 1, len(m.items) + 1}}
	score := func() float64 { return n.look(m, 0).score(views) }
	c := n.look(m, 0)
	g := c.newSlope()
	c.want(g, views, 1)
	c.back(g)
	embed := make([]float32, len(n.embed))
	for k, r := range g.rows {
		add(vector(embed, int(r)), vector(g.embed, k))
	}
	for name, of := range map[string]struct{ w, slope []float32 }{"dense": {n.dense, g.dense}, "signs": {n.embed, embed}} {
		found := 0
		for i := 0; i < len(of.w) && found < 200; i += 37 {
			if of.slope[i] == 0 {
				continue
			}
			found++
			const little = 1e-2
			w := of.w[i]
			of.w[i] = w + little
			up := score()
			of.w[i] = w - little
			down := score()
			of.w[i] = w
			// Between the two an item's number may pass below nothing.
			if got, want := float64(of.slope[i]), (up-down)/(2*little); math.Abs(got-want) > 0.02+0.1*math.Abs(want) {
				t.Errorf("%s %d: slope %g, and the score changes by %g", name, i, got, want)
			}
		}
		if found < 20 {
			t.Errorf("%s: only %d weights matter", name, found)
		}
	}
}

// What is saved is read back, each vector to a 254th of its largest number.
func TestModelIsReadBack(t *testing.T) {
	m := NewModel()
	m.net, _ = learning(t)
	m.w[5], m.w[9] = 0.5, -9
	got, err := m.Rounded()
	if err != nil {
		t.Fatal(err)
	}
	if got.w[5] != 0.5 || got.w[9] != -127*grain || got.w[7] != 0 {
		t.Errorf("features: %g, %g, %g", got.w[5], got.w[9], got.w[7])
	}
	for i, w := range m.net.dense {
		if math.Abs(float64(w-got.net.dense[i])) > 0.5/254+1e-6 {
			t.Fatalf("number %d of the network: %g, was %g", i, got.net.dense[i], w)
		}
	}
}
