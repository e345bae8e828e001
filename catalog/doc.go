// Package catalog knows pipe and fittings: which systems there are, their
// sizes and outside diameters, how deep a pipe goes into a fitting, and the
// takeoff of each bend, every number with the source it came from.
//
// A [System] is one way of making a line: PVC DWV, threaded steel, no-hub cast
// iron. What people say of a pipe is a [Pipe], usually with half of it left
// out; [Match] says which systems that can be, the likeliest first. From there
// everything is asked of the system, by the trade's name of the [Size]:
//
//	for _, s := range catalog.Match(catalog.Pipe{Material: catalog.Steel, Size: "4"}) {
//		t, ok := s.Takeoff(catalog.BendOf(geometry.EighthBend), "4")
//		…
//	}
//
// # Takeoff
//
// Takeoff always is the length from the center of the fitting to where the end
// of the pipe comes to rest, so that a cut is the travel less a takeoff and a
// gap at each end. What that is on the fitting differs:
//
//   - solvent cement, solder, socket weld: from the center to the stop in the
//     socket. The gap that a socket weld needs is apart, in [System.Gap];
//   - threaded: from the center to the end of the fitting, less the thread
//     makeup. The tables hold the center to end; the makeup is taken off here;
//   - butt weld: from the center to the face. The root gap is apart;
//   - no-hub: from the center to the plain end. The stop in the sleeve is
//     apart;
//   - hub and spigot: the two ends differ. [System.Takeoff] is the hub's end,
//     where a spigot seats; [System.SpigotTakeoff] is the spigot's, which goes
//     into the next hub.
//
// # Where the numbers come from
//
// The tables are the files in data, for reading as much as for the program:
// lengths carry their unit, and each row says which standard it follows, where
// the number was found, and how well it is known (its [Evidence]). data/sources.csv
// lists every source, with its license, and how much of it was read.
//
// Where no table has a bend, it may still be figured, and then says that it is
// [Derived]:
//
//   - by pattern: where the quarter and eighth bends of a size are in the
//     table, they give the radius and the straight end of its other bends;
//   - roughly: a bend on a centerline radius of one outside diameter, half a
//     diameter more or less. That is for a first idea of the length, until the
//     fitting is measured.
//
// Where a standard gives one fitting the length of another, a tee that of a 90, it
// is taken from there: the columns as and as_source of data/fittings.csv. It is
// [Derived], and so no definite cut. Of wyes, sanitary tees, combinations, long 90s,
// street drain bends, unions and all of PEX no length is known well enough to write
// down; they are asked for.
//
// # Hangers and cement
//
// data/hangers.csv has the greatest spacing of supports by the codes whose tables
// are recalled, data/cement.csv how many joints a quart of cement makes by common
// practice.
//
// # Caveats
//
// No standard's table of fittings was read itself. Pipe diameters are solid:
// several open tables agree on each. Of the takeoffs, only the butt-weld 90s
// and tees were found in print or in open data. Those of metric PVC were seen
// second-hand, in machine-written summaries of the standard; all others are
// recalled. Both are marked so. [Evidence.Sure] tells them apart, and nothing
// that is not sure may be printed as a cut without "about".
//
// For the fittings that plumbers use most, no standard could give an exact
// takeoff in any case. ASME B16.22 says of wrought copper fittings that laying
// lengths cannot be established; ASTM D2466 and D2467 give only least lengths
// for pressure plastic; the DWV pattern of ASTM D3311 allows 1/16 in and has a
// shorter pattern beside it. A fitting in the hand, measured, is better than any
// row of these tables.
//
// A size that is missing here is not therefore missing from the trade: sizes
// were left out where nothing certain enough was known (cast iron over 8 in
// without a hub, steel under 1/2 in), and so were copper drainage fittings,
// threaded drainage fittings, forged threaded fittings and metric soil pipe.
//
// Everything is loaded once, on first use, and never changes. [Check] says
// whether the tables are sound; the tests call it, so that a shipped program
// has nothing to complain of.
package catalog
