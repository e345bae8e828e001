// Package geometry figures pipe offsets: lengths, angles and the right
// triangles that they make. It knows no catalog, reads no text and does no
// input or output, so it can be lifted out and used by anyone.
//
// # The triangle
//
// Two lines of pipe run parallel and do not meet. A fitting turns the line
// through an angle, a piece of pipe carries it across on the diagonal, and a
// second fitting turns it back. The distance between the two centerlines,
// square across, is the set; how far the offset takes along the line is the
// run; the diagonal is the travel. All three go from fitting center to fitting
// center, and are the sides of a right triangle: any two of set, run, travel
// and angle give the others ([SetAngle], [SetRun] and their like).
//
// The angle is always the one the fitting turns the line through. A 45 turns
// it 45°; it is never the angle left between the two pipes.
//
// # From centers to pipe
//
// Nobody cuts a travel. The pipe stops short of each fitting's center by a
// takeoff, and where a weld or a stop keeps the ends apart, by a gap too:
// [Cut] takes them off. The standing pipes stop just as far back along the
// line, so the clear distance between them is the run and the same takeoffs
// added: [EndGap]. Those two lengths, the piece and the opening it goes into,
// are what the rest is for.
//
// [Rolling] has the set that is neither level nor plumb, [Bank] parallel
// lines, [Obstacle] what stands in the way, [Graded] the fall of a drain,
// [Elbow], [Miter] and [Saddle] the marks for odd angles, [Corner] a turn made of
// two bends, [TrimElbows] the elbows cut to
// suit a room. [TouchingSet] says when fittings collide, [DryFit] what a trial
// showed, [Throw] what a sloppy tape costs.
//
// # Exactness
//
// A [Length] is inches and an [Angle] is degrees, each a type of its own, since
// sixteenths and the bends of the trade are then exact. The exact value
// travels through every formula and is rounded once, where it meets the tape
// ([Length.Tape]): the nearest mark, half-way to the longer one. Clearances
// round to the safe side instead ([Length.TapeUp]).
//
// # Caveats
//
// Takeoffs and diameters come from the caller; this package cannot know that
// the fitting in the hand differs from the table. What it works out is no
// better than what it is given, and a small angle multiplies every slip: at
// 5⅝° a sixteenth in the set is five eighths in the cut.
//
// A cut of zero is not where fittings stop fitting. Hubs touch while there is
// still pipe in both sockets, so the limit is [TouchingSet], not [ZeroPipeSet].
//
// The two bends of an offset are taken to be alike and to turn in one plane.
// Two unlike angles leave the far line out of parallel by as much as they differ;
// what is figured of such an offset is the triangle of the first.
//
// A bend is a corner here, where the centerlines meet. A long sweep rounds
// that corner off and can come nearer to an obstacle than the corner does:
// see [Obstacle.CornerLoss].
//
// Grades are small. Length along the pipe and length along the floor are one
// and the same to a plumber; [Graded] says which is meant and [Graded.Sloped]
// gives the other.
//
// Every length over a mile is refused ([Longest]), and so is everything that
// is not a number, has the wrong sign or cannot be built: the error is always
// a [*Problem]. No length comes out negative without one, but for two, where
// less than nothing means something: the trim of [Trim] and of [DryFit.Trim],
// which is then a piece to be added. An elevation is not a length of pipe and
// may lie below its datum ([Graded.LowerInvert]).
//
// The formulas are checked by a package that shares none of them: walk lays
// the pieces end to end in space and looks where they land.
package geometry
