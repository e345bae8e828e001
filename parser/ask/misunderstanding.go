package ask

import "fmt"

// Trouble is why words were not understood.
type Trouble string

// The troubles. Each is worded elsewhere; here they are only told apart.
const (
	NothingRead   Trouble = "nothing read"    // no word or figure of the trade
	UnknownWord   Trouble = "unknown word"    // Subject is the word, Near what it may be
	OneSide       Trouble = "one side"        // Subject is the side of one pipe that was measured from, the other's is not said
	NoSuchSize    Trouble = "no such size"    // Subject is the size, Near the sizes around it
	NoSuchAngle   Trouble = "no such angle"   // not more than 0° and at most 90°
	BadNumber     Trouble = "bad number"      // 5/0, 12-9/8, a mile of pipe
	Unclaimed     Trouble = "unclaimed"       // a figure that no word claims and no place explains
	TwoReadings   Trouble = "two readings"    // both are real pipe: Readings holds them
	Contradiction Trouble = "contradiction"   // two values for one thing
	NotFiguring   Trouble = "not figuring"    // a shopping line, small talk with a figure in it
	TooLong       Trouble = "too long"        // more text than anyone asks with
	OneMore       Trouble = "one more needed" // Wanted is what is missing
)

// Misunderstanding is what Parse has to say of words that it could not turn
// into an ask: what it read, what is wrong, and what would work.
type Misunderstanding struct {
	Trouble  Trouble
	Text     string   // the words as written
	Subject  string   // the word or figure at fault
	Near     []string // what it may have been, or what would work
	Read     Ask      // what was understood so far
	Wanted   Role     // the one thing that would settle it, if one would
	Readings [][]Ask  // of TwoReadings, the likelier first: what each says, one or more asks
	Commands []Verb   // of TwoReadings: what it may tell to do besides, the likelier first
	Number   int      // of what Commands are done to; 0: none is said
}

// Error is for logs; people read wording.
func (m *Misunderstanding) Error() string {
	return fmt.Sprintf("parser: %s: %q in %q", m.Trouble, m.Subject, m.Text)
}
