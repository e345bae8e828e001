package cutlist

import (
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/wording"
)

// materialText says what the open pieces take.
func materialText(needs []Material, o wording.Options) string {
	lines := []string{materialTitle(needs, o)}
	for _, m := range needs {
		lines = append(append(lines, stickHeading(m.Buy, o)), materialLines(m, o)...)
	}
	lines = append(lines, joiningLines(needs, o)...)
	return strings.Join(append(lines, materialFoot(needs, o)...), "\n")
}

// materialTitle says of how many pieces it is.
func materialTitle(needs []Material, o wording.Options) string {
	pieces := 0
	for _, m := range needs {
		pieces += len(m.Pieces) - m.Splices
	}
	return counted(pieces, "material of one", "material", o, "open", strconv.Itoa(pieces))
}

// counted is one sentence for one thing and another for more of them.
func counted(number int, one, more string, o wording.Options, pairs ...string) string {
	if number == 1 {
		return Say(o, one, pairs...)
	}
	return Say(o, more, append(pairs, "number", strconv.Itoa(number))...)
}

// materialLines are what one pipe takes beside its sticks.
func materialLines(m Material, o wording.Options) []string {
	var lines, fittings []string
	for _, c := range m.Fittings {
		fittings = append(fittings, fittingCount(c, o))
	}
	if len(fittings) > 0 {
		lines = append(lines, strings.Join(fittings, ", "))
	}
	if m.Splices > 0 && m.Couples() {
		lines = append(lines, counted(m.Splices, "one coupling", "couplings", o))
	}
	if joint, ok := sentences().Said("joint "+string(m.System.Joint), o); ok && m.Joints > 0 {
		lines = append(lines, counted(m.Joints, "one joint", "joints", o, "joint", joint))
	}
	if m.Hangers == 0 {
		return append(lines, Say(o, "no hangers"))
	}
	return append(lines, Say(o, "hangers", "number", strconv.Itoa(m.Hangers), "spacing", stockLength(m.Hanger.Spacing, ofPieces(m.Pieces, o))))
}

// joiningLines are what the joints are made with: cement for each plastic, solder.
func joiningLines(needs []Material, o wording.Options) []string {
	var lines []string
	for _, c := range Cements(needs) {
		key := "cement"
		if c.Primer {
			key = "cement and primer"
		}
		lines = append(lines, Say(o, key, "plastic", strings.ToUpper(string(c.Of)), "can", canWords(c.Quarts, o), "primer", canWords(c.Quarts/2, o)))
	}
	for _, m := range needs {
		if m.Wire > 0 {
			of := ofPieces(m.Pieces, o)
			lines = append(lines, Say(of, "solder", "length", wording.RoundedUp(m.Wire, of)))
		}
	}
	return lines
}

// canWords names the can, or the quarts, that hold so much.
func canWords(quarts float64, o wording.Options) string {
	switch can(quarts) {
	case 0.125:
		return Say(o, "can 1/8")
	case 0.25:
		return Say(o, "can 1/4")
	case 0.5:
		return Say(o, "can 1/2")
	case 1:
		return Say(o, "can 1")
	}
	return Say(o, "quarts", "number", wording.Decimals(can(quarts), 0))
}

// materialFoot says what the numbers rest on.
func materialFoot(needs []Material, o wording.Options) []string {
	var lines, tables []string
	fittings, wire := false, false
	for _, m := range needs {
		if m.Hangers > 0 && !slices.Contains(tables, m.Hanger.Table) {
			tables = append(tables, m.Hanger.Table)
		}
		fittings, wire = fittings || len(m.Fittings) > 0, wire || m.Wire > 0
	}
	if fittings {
		lines = append(lines, Say(o, "shared fittings"))
	}
	if len(tables) > 0 {
		lines = append(lines, Say(o, "hangers by", "tables", wording.And(tables, o)))
	}
	if len(Cements(needs)) > 0 {
		lines = append(lines, Say(o, "cement by"))
	}
	if wire {
		lines = append(lines, Say(o, "solder by"))
	}
	return lines
}
