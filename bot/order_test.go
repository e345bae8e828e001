package bot

import (
	"slices"
	"testing"

	"dogleg/bot/cutlist"
)

// Every row of orders.csv takes what can be read and does what can be done.
func TestOrdersAreKnown(t *testing.T) {
	takings := []taking{nothing, aState, numbers, oneAnd, aStock, aName, aSearch, oneOnly}
	acts := []act{findJobs, reuseJob, renameJob, removeJob, removeWhat}
	for _, o := range openings() {
		if !slices.Contains(takings, o.takes) {
			t.Errorf("%s takes %q", o.words, o.takes)
		}
		_, met := meets[o.phrase]
		if o.language == "" || !met && !slices.Contains(acts, o.act) && !cutlist.IsAct(string(o.act)) {
			t.Errorf("%s does %q, %q in %q", o.words, o.act, o.phrase, o.language)
		}
	}
}
