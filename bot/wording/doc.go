// Package wording turns an answer, or a refusal, into words: the chat reply,
// the steps of the figuring, the line for the ear, the JSON record, and the
// sentences of the conversation itself. It figures nothing. A number that it
// prints was made by package figure, and meets the tape here, once.
//
// # The rules of speech
//
// A plumber reads this at arm's length, in the sun, with one glove off; or
// doesn't read it at all and hears it. So:
//
//   - The first line is the one number and stands alone. Only a warning that
//     two measurements contradict each other comes before it, for then the
//     number is worth nothing.
//   - The second line says what was understood, since a misheard eighth is a
//     wasted fitting. What was read otherwise than written, and which of two
//     readings was taken, follows it.
//   - Then the other figures, the takeoff and where it comes from, how the
//     ends can be built, what was assumed. Each is one line.
//   - At most two cautions, the most pressing; the rest are given on request.
//     That lengths are figured, and that the local code, the inspector and the
//     license decide, is said once a conversation.
//   - A refusal says what was read, what is wrong and what would work. Where
//     one fact is missing it asks that one question.
//   - Terse and warm, in the words of the trade. No exclamation marks, no
//     apologies, no filler.
//
// # About
//
// A figure that rests on a takeoff nobody has checked is printed with "about"
// before it, never bare, and never with heavy or light: a hair means nothing
// beside an eighth. The wording looks at the evidence of the takeoffs itself
// and does not trust a flag alone.
//
// # Caveats
//
// The Spanish is our own rendering, with the words that crews in the United
// States use; no native fitter has proofread it. Names of pipe systems and of
// standards stay in English, as they are printed on the pipe and on the cover.
//
// Cautions are in our own words. What stands behind each is named beside it in
// cautions.csv, and where nothing citable was found it says common practice.
package wording
