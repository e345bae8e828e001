// Package figure turns what was asked into what is answered: an Ask of package
// parser into an [Answer], with the cut, where the other cut goes, what it
// rests on, what could be wrong with it and what hurts.
//
//	answer, err := figure.Solve(ask, settings)
//
// It holds no formula of its own: the mathematics is in package geometry, the
// pipe in package catalog. What it decides is which of them to ask, with what,
// and whether the result may leave. It words nothing; package wording makes
// the sentences, from the data that is here.
//
// # How an ask is solved
//
// The kind of the ask has its file: offset, fit, piece, mark, parallel,
// around, fall, trim, sum, multiplier, takeoff, check. They share four things:
//
//   - measures are brought to center to center by the way the tape was laid,
//     and several of one thing are compared (measure, crosscheck);
//   - the pipe is settled, with what no word decided as an [Assumption]
//     (pipe), and the takeoff at each end is found: said, the user's own,
//     published, remembered or derived, in that order (ends);
//   - what can't be built is refused with what would work (limit), and
//     whatever is built is walked in space before it leaves (walked);
//   - the figuring is put down in steps that a pencil can follow (steps), with
//     the handbook's figures (handbook), how far a sloppy tape throws it
//     (sensitivity), and the cautions for this job (caution).
//
// # What comes back
//
// An answer, or one of two refusals. [Missing] asks for exactly one fact, the
// one that helps most: the angle, then the pipe, then the set; what can be
// figured without it comes along. [Impossible] says why something can't be
// built. Solve returns no other error, never panics on any ask, and keeps
// nothing: the same ask and settings always make the same answer.
//
// # Caveats
//
// A cut is no better than its takeoff. Where that is from memory, or only from
// geometry, the answer is Provisional, and Band says how far out it may be;
// nobody should cut to it before measuring the fitting.
//
// The limit of an offset is hubs touching, not a piece of no length: the pipe
// still fills both sockets there. Where it is not known how far a pipe goes
// in, no limit is given, and hubs may collide unseen.
//
// A hub-and-spigot bend has two unlike ends. The answer takes the piece's
// spigot to go into the first bend's hub, and the second bend's spigot into
// the piece's hub, as it comes when a drain is laid upstream; its cut is the
// laying length. Laid the other way about, the sum is the same.
//
// With a handbook's multipliers the lengths are the book's, rounded as the
// book rounds, and would not land; what is walked is the exact piece, whose
// lengths are in Exact.
//
// The grades, bends and joints that codes allow differ from place to place.
// What is noted of them here ([Authorities], [Minimum]) is a reason to ask,
// not permission.
package figure
