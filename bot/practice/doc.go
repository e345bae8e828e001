// Package practice drills an apprentice in the figuring that dogleg does: it
// makes a problem, marks the reply, recognizes the usual slips, keeps the score
// and says which kind to repeat when, and holds an exam.
//
//	Training.Drill ──▶ Problem ──▶ the apprentice's paper ──▶ Training.Reply ──▶ Outcome
//	                      │                                        │
//	               figure.Solve finds it sound             Mark, by the sheet
//
// # A sound problem
//
// Pipe, fittings and takeoffs are real ones of the catalog; the takeoff is
// given with the problem, so that nothing has to be looked up. A problem is
// posed only if package figure can build it, with fittings that clear; if the
// same figure comes out of the few lines of arithmetic that an apprentice
// writes, the [Problem.Figure] of this package, which shares no code with
// figure; and if no usual slip comes near the right answer or near another
// slip, so that a reply can be told for what it is.
//
// # Marking
//
// A reply is right within a sixteenth of an inch, of the exact figure or of its
// nearest mark on the tape. That leaves room for three-decimal multipliers and
// for full precision. An apprentice whose exam key prints two decimals says so
// with the handbook setting; then figures by 1.41 are right, and exact ones
// too.
//
// # The schedule
//
// Kinds of problem are repeated by the five compartments of Sebastian Leitner,
// So lernt man lernen, Herder 1972: a right answer moves a kind one compartment
// on, a wrong one back to the first. The book leaves the pace to the learner;
// here a compartment waits 1, 2, 4, 8 or 16 problems, doubling as is common
// practice.
//
// # Caveats
//
// Randomness and the clock come in from outside: the same training, source and
// time make the same problems.
//
// A slip is a guess at how a wrong figure came about. Somebody may come to the
// same figure in another way.
//
// Nothing here is a code question, and no exam board has seen it. It trains
// arithmetic; the license is earned with much more.
package practice
