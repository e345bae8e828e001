package hearing

import "strings"

// What is said of a note before or instead of an answer.
const (
	heard  = "Heard: "
	whichA = "Not sure I heard that right. Which was it? Send the line, or say it again."
	keepIt = "From a voice note nothing is kept before you say so. If this is it, send the line:"
	isIt   = "Not sure I heard that right. If this is it, send the line; else say it again."
	noneA  = "I couldn't make a request of that. Say it again, a little slower, or type it: 12 set 45s 1-1/2 pvc"
)

// Echo is the line that a reply to a note begins with.
func (v Verdict) Echo() string { return heard + v.Heard }

// Question is what to say where the verdict isn't sure: each reading stands on
// a line of its own, so that it can be copied and sent.
func (v Verdict) Question() string {
	switch {
	case v.Keeps:
		return keepIt + "\n" + v.Heard
	case len(v.Readings) == 0:
		return noneA
	case len(v.Readings) == 1:
		return isIt + "\n" + v.Readings[0]
	}
	return whichA + "\n" + strings.Join(v.Readings, "\n")
}
