// Package cutlist is the list of pieces that a saw works from, as data: which
// pieces are of one pipe, which fittings they need, and which stock lengths they
// come out of. It keeps nothing and says nothing; package store keeps a list,
// package wording words it.
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
// # Caveats
//
// Spare fittings, a spoiled cut and crushed ends are not reckoned with.
package cutlist
