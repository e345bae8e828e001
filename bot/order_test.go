package bot

import (
	"slices"
	"testing"

	"dogleg/bot/cutlist"
	"dogleg/parser"
)

// Every row of orders.csv takes what can be read and does what can be done.
func TestOrdersAreKnown(t *testing.T) {
	takings := []taking{nothing, aState, numbers, oneAnd, aStock, aName, aSearch, oneOnly}
	acts := []act{findJobs, reuseJob, renameJob, removeJob, removeWhat}
	for _, o := range openings() {
		if !slices.Contains(takings, o.takes) {
			t.Errorf("%s takes %q", o.words, o.takes)
		}
		met := slices.Contains([]phrase{forgetTheirs, tellWhy, tellMore}, o.phrase)
		if o.language == "" || !met && !slices.Contains(acts, o.act) && !cutlist.IsAct(string(o.act)) {
			t.Errorf("%s does %q, %q in %q", o.words, o.act, o.phrase, o.language)
		}
	}
}

// What asks for a figure is no search for a job, wherever the word stands.
func TestAnAskIsNoSearch(t *testing.T) {
	ask := parser.Statement{Ask: &parser.Ask{Kind: parser.Offset}}
	change := parser.Statement{Ask: &parser.Ask{Kind: parser.Offset, FollowUp: true}}
	for _, c := range []struct {
		text  string
		read  parser.Statement
		order bool
	}{
		{"job and the drain goes over 9-7/16, inch and a half pvc, 45s", ask, false},
		{"job 12: 3 in pvc 45s set 10", ask, false},
		{"sticks 7 inches past my pipe center, want an inch of air, 45s", ask, false},
		{"sticks 10 ft hacksaw", parser.Statement{}, true},
		{"jobs 2 pvc", change, true},
		{"jobs laundry", parser.Statement{}, true},
		{"drop 2", ask, true},
	} {
		if _, ok := orderIn(c.text, func() []parser.Statement { return []parser.Statement{c.read} }); ok != c.order {
			t.Errorf("%q is an order: %v", c.text, ok)
		}
	}
}
