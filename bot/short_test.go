package bot_test

import (
	"cmp"
	"encoding/csv"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/parser/asks"
)

// oldFiles are the collections that everybody may look into, beside those that
// parts.csv gives to learn from.
const oldFiles = "../testdata/asks/*.txt"

// TestFirstRepliesAreShort asks the 500 commonest asks of the corpus, each in a
// conversation of its own. The commonest are those that say what most others say:
// messages are of one shape where they ask for the same kind with the same facts
// given, whatever the values and words are; shapes are taken by how many messages
// they have, the most first, until there are 500 messages. Changes of an ask before
// are left out, since by themselves they ask nothing. No reply is longer than five
// lines of 38 columns; asks that call for a grave caution are among them.
func TestFirstRepliesAreShort(t *testing.T) {
	commonest := commonestAsks(t, 500)
	if len(commonest) != 500 {
		t.Fatalf("%d asks", len(commonest))
	}
	long, answered := 0, 0
	for _, m := range commonest {
		if said := parser.Parse(m.Text); len(said) != 1 || said[0].Ask == nil || !meant(t, m.Want[0], said[0].Ask) {
			continue // it is asked about, or read otherwise
		}
		answered++
		reply := new(bot.Conversation).Handle(bot.Message{Text: m.Text, When: morning}, new(bot.Forgetful))
		if n := wording.Wrapped(reply.Text); n > wording.MostRows {
			long++
			t.Errorf("%s:%d: %q is answered in %d lines:\n%s", m.File, m.Line, m.Text, n, reply.Text)
		}
	}
	t.Logf("%d of %d are longer", long, answered)
	if answered < 300 {
		t.Errorf("%d of %d are read as they are meant", answered, len(commonest))
	}
}

// meant says whether an ask is what a message was meant to ask.
func meant(t *testing.T, want asks.Expectation, got *parser.Ask) bool {
	t.Helper()
	a, err := want.Ask()
	if err != nil {
		t.Fatal(err)
	}
	return asks.Same(asks.FactsOf(a), asks.FactsOf(got)) == ""
}

func commonestAsks(t *testing.T, most int) []asks.Message {
	t.Helper()
	byShape := map[string][]asks.Message{}
	for _, m := range corpus(t) {
		if len(m.Want) == 1 && m.Want[0].Mark == "" && !strings.Contains(m.Text, "\n") {
			shape := shapeOf(m.Want[0])
			byShape[shape] = append(byShape[shape], m)
		}
	}
	shapes := slices.SortedFunc(maps.Keys(byShape), func(a, b string) int {
		return cmp.Or(cmp.Compare(len(byShape[b]), len(byShape[a])), cmp.Compare(a, b))
	})
	var all []asks.Message
	for _, s := range shapes {
		all = append(all, byShape[s]...)
	}
	return all[:min(most, len(all))]
}

// shapeOf is the kind of an ask with the names of the facts that it gives.
func shapeOf(e asks.Expectation) string {
	return e.Kind + " " + strings.Join(slices.Sorted(maps.Keys(e.Keys)), " ")
}

// corpus are the old files, and those of the people's that are there to learn from.
func corpus(t *testing.T) []asks.Message {
	t.Helper()
	all, err := asks.Read(oldFiles)
	if err != nil {
		t.Fatal(err)
	}
	const people = "../testdata/asks/people"
	parts, err := os.Open(filepath.Join(people, "parts.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer parts.Close()
	rows, err := csv.NewReader(parts).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		if row[1] != "train" {
			continue
		}
		some, err := asks.Read(filepath.Join(people, row[0]+".txt"))
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, some...)
	}
	return all
}
