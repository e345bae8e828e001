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
//   - An answer is at most five lines of 38 letters ([Reply]). What else there
//     is, [Whole] says where it is asked for.
//   - The first line is the one number and stands alone. Only a warning that
//     two measurements contradict each other, or that the pipe itself hurts,
//     comes before it.
//   - Then where the standing pipes end, what was understood, since a misheard
//     eighth is a wasted fitting, the takeoff and how sure it is, and what else
//     the pipe may be where that makes another cut.
//   - One caution, in few words; two where both are grave, which are never left
//     out. One of every day is told once a day, and in full on request. That the
//     local code, the inspector and the license decide is said once a
//     conversation.
//   - A refusal says what is wrong, what would work and, where there is room,
//     what was read. Where
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
