// Package sketch draws an answer: a picture to scale, for a phone that is held
// at arm's length in the sun.
//
// # How an answer becomes a picture
//
//	Answer ──Draw──▶ Drawing ──layout──▶ page ──▶ PNG, SVG
//
// A [Drawing] is data. It holds views, one under the other, and each view holds
// pipes, fittings, lines, dimensions and labels at their places in real inches.
// What is right or wrong about a picture is decided there, and is tested there.
// The layout then finds the scale of each view, and a place for every label
// where it hides no other; a page is lines, areas and words in points, which
// the two writers put down as they are. So the PNG and the SVG are one picture.
//
// Where the pieces were walked ([dogleg/geometry/walk]) the picture is of that
// walk, which landed; nothing is worked out anew. Words are those of package
// wording, so that a figure reads in the picture as it does in the reply.
//
// # How it is drawn
//
//   - To scale, both ways alike, and the centerlines with everything that is
//     dimensioned between them exactly so. Only a graded line is drawn steeper
//     than it is, since a quarter inch per foot can't be seen, and what a dry fit
//     is off by larger; they say by how much. A box in perspective has run and
//     rise to scale, and the roll shorter.
//   - What a fitting takes is dimensioned at both ends, on one line with the cut:
//     the cut is worth no more than these.
//   - The piece to cut is black and solid, the pipes that stand are white, the
//     fittings gray and cut open, so that the ends of the pipe show in the hubs.
//     Red is for what is cut: the piece's dimension, and the mark on the tape.
//   - A strip of tape shows the mark that the words name, in the divisions of the
//     user's own tape or in millimeters, with the marks beside it counted. An
//     arrow head points to the side on which heavy and light lie. The end of the
//     tape is drawn too, broken off where it is far, with what it is hooked on.
//   - What rests on a takeoff that nobody has checked is hatched: the fitting,
//     and on the tape how far the mark may be out.
//   - No words lie on others, nor on the line of a dimension, which they would
//     seem to be of; nor past one from their own, where there is room.
//   - No line is thinner, and no figure smaller, than can be read at 360 points
//     across, a small phone held upright. The paper is white and opaque to its
//     edge, which nothing touches, so a dark chat shows a card.
//
// # Caveats
//
// A pipe or a fitting that would come out as a hairline at this scale is drawn
// as wide as can be seen; its length stays to scale. Fittings are sketched from
// their takeoff and the depth the pipe goes in, and show no maker's pattern.
//
// Which way an offset steps is not known here: the picture steps up and to the
// right. A rolling offset is seen square onto the step, so that its lengths are
// true; how it lies, and how far it is turned, are views of their own.
//
// Not every answer has a picture: [ErrNothingToDraw] says so.
package sketch
