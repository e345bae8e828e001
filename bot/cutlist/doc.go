// Package cutlist is the list of pieces that a saw works from: what is on it, what
// is done to it, its words and its pictures. It keeps nothing itself, and knows the
// conversation only by what it needs of it ([Talk], [Memory]).
//
//   - [Piece], [Lots], [Fittings] and [Plan] are the list as data.
//   - [List] does what a message says of it: adds, checks off, drops, clears,
//     plans, exports; it follows a job that is answered anew, puts back what an
//     edited message did, and is the board that is kept up to date.
//   - sentences.csv has its sentences, words.go and tables.go what is written with
//     them, sheet.go what is drawn.
//
// # What is packed
//
// Each pipe, of one system and size, is packed by itself, since no piece of one
// comes out of another. What is packed is what leaves the stick: a piece whose
// cut is only about so is left long to be trimmed, so it takes as much more as
// it may be out ([Piece.Sawn]).
//
// # Fittings
//
// Each piece counts the fittings at its own two ends. Where one fitting joins
// two pieces of the list it is counted twice: a list knows no neighbors.
//
// # Material
//
// [MaterialOf] adds couplings where a piece is longer than a stick, joints, and
// hangers by the table of a code: as many as one straight line of all the pipe
// takes, for how the pieces lie is not known here. Cement and solder are common
// practice.
//
// # Caveats
//
// Spare fittings, a spoiled cut and crushed ends are not reckoned with.
package cutlist
