package parser

import (
	"fmt"
	"os"
	"testing"
)

func TestDebug(t *testing.T) {
	text := plain(os.Getenv("TEXT"))
	if text == "" {
		t.Skip()
	}
	all, _ := elements(text)
	all = adjusted(corrected(all))
	for _, e := range all {
		if e.quantity != nil {
			fmt.Printf("  Q %q %v %s plural=%v weak=%v broken=%d bad=%q\n", e.text, e.quantity.value, e.quantity.unit, e.quantity.plural, e.quantity.weak, len(e.quantity.broken), e.quantity.bad)
		} else if e.term != nil {
			fmt.Printf("  T %q %v\n", e.text, e.term.meanings)
		} else {
			fmt.Printf("  ? mark=%q word=%q\n", e.mark, e.word)
		}
	}
	best, second := read(text, all)
	for _, r := range []*reading{best, second} {
		if r == nil {
			continue
		}
		fmt.Printf("cost %.2f broken %d\n", r.cost, r.scene.broken)
		for k, l := range r.labels {
			fmt.Printf("   %q -> %s term=%d cost=%.2f angle=%v size=%q bare=%v count=%v odd=%v\n", r.scene.elements[r.at[k]].text, l.role, l.term, l.cost, l.angle, l.size, l.bare, l.count, l.odd)
		}
		fmt.Printf("   kind %q\n", r.build().Kind)
	}
}
