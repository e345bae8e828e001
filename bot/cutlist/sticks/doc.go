// Package sticks packs the cuts of a list into stock lengths of pipe: which
// cuts come out of which stick, so that as few sticks as possible are bought.
// It is pure arithmetic on lengths and knows neither catalog nor words.
//
// # The kerf
//
// The saw takes its kerf between two cuts. The last cut of a stick needs one
// too, to part it from the rest, unless there is no rest: then the end of the
// stick is the end of the piece. So pieces fit a stick when their lengths and
// one kerf each are no more than the stick and one kerf, and a rest thinner
// than the blade is dust.
//
// # What is proven
//
// Finding the fewest sticks is the bin packing problem, which has no quick
// answer for every list. A list of a day's cuts is nearly always solved: first
// by putting the longest piece into the first stick that has room (first fit
// decreasing, at most 11/9 of the fewest and 6/9 of a stick more: Dósa, "The
// tight bound of first fit decreasing bin-packing algorithm", 2007; from
// memory), which is compared with a count that no plan can come under
// (Martello and Toth, Knapsack Problems, 1990, chapter 8; from memory); and
// where the two differ, by a search. The search gives up after a fixed number
// of steps, not after a time, so that a list has the same plan on every
// machine. [Plan.Least] says what was proven, whether it gave up or not.
//
// # Caveats
//
// Sticks are taken to be all of one length, whole and with square ends. Real
// ones are not: a crushed or chamfered end comes off first, and the stock
// length given should be what is left then. Only the number of sticks is as
// small as can be; which rests remain is how it falls.
package sticks
