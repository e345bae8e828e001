package wording_test

import (
	"fmt"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// The stack in the Juniper Street house steps over 9-3/8, in 45s whose takeoff
// the plumber measured as 1-1/16.
func ExampleReply() {
	fmt.Println(wording.Whole(simple(), wording.Options{}))
	// Output:
	// Cut 11-1/8 in
	// Set 9-3/8, two 45s, takeoff 1-1/16
	// Ends 11-1/2 apart · travel 13-1/4 · run 9-3/8
	// Takeoff 1-1/16 each, as you said.
}

// The same with the phone in the pocket.
func ExampleSpoken() {
	fmt.Println(wording.Spoken(simple(), wording.Options{}))
	fmt.Println(wording.Spoken(simple(), wording.Options{Language: parser.Spanish}))
	// Output:
	// Cut eleven and an eighth. Set nine and three eighths, two forty-fives, takeoff one and a sixteenth
	// Corte once y un octavo. Desvío nueve y tres octavos, dos codos de cuarenta y cinco, descuento uno y un dieciseisavo
}

// Nobody on Juniper Street has said yet what pipe it is.
func ExampleRefusal() {
	fmt.Println(wording.WholeRefusal(&figure.Missing{Wanted: parser.PipeOf}, wording.Options{}))
	// Output: What pipe? Say "2 pvc".
}
