package wording

import (
	"strings"

	"dogleg/bot/figure"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// rackLines says of each line of a rack what it is, where its center lies, how much
// sooner it bends and how long its piece is.
func (o Options) rackLines(a *figure.Answer) []string {
	var lines []string
	for _, l := range a.Lines {
		parts := []string{o.rackSize(l.Size, l.Cover)}
		if l.Number > 1 {
			parts = append(parts, o.say("rack over", "length", o.bare(l.Spacing, exactly)), o.rackStart(l.Start))
		}
		parts = append(parts, o.rackCut(l))
		lines = append(lines, o.say("rack line", "number", decimals(float64(l.Number), 0), "parts", strings.Join(spoken(parts), ", ")))
	}
	return lines
}

// rackSize is a line's size, and how thick it is covered: "2 in, 1 covered".
func (o Options) rackSize(size catalog.Size, cover geometry.Length) string {
	text := string(size)
	if size != "" && !size.Metric() {
		text += " " + o.say("in")
	}
	if cover > 0 {
		text = strings.Join(spoken([]string{text, o.say("rack cover", "length", o.stated(cover, ""))}), ", ")
	}
	return text
}

func (o Options) rackStart(start geometry.Length) string {
	switch {
	case start >= noStagger:
		return o.say("rack sooner", "length", o.bare(start, exactly))
	case start <= -noStagger:
		return o.say("rack later", "length", o.bare(-start, exactly))
	}
	return o.say("rack together")
}

// rackCut is the piece of a line; of a fitting that nobody has measured there is
// none.
func (o Options) rackCut(l figure.Line) string {
	switch {
	case l.Alone == nil:
		return ""
	case l.HasCut:
		return o.figure(l.Alone, figure.Length{Role: parser.Cut, Length: l.Cut}, o.bare)
	}
	return o.say("rack unmeasured")
}

// rack says what lies between the lines, each line, and which of them is the first.
func (o Options) rack(a *figure.Answer) []string {
	lines := o.rackLines(a)
	if a.Rack.Clear {
		space, _ := a.Ask.Length(parser.Spacing)
		lines = append(lines, o.say("rack clear", "length", o.stated(space, "")))
	}
	return append(append(lines, o.rackFirst(a)...), o.say("rack centers"))
}

// rackFirst says which line is the first, and how the rack was taken to lie.
func (o Options) rackFirst(a *figure.Answer) []string {
	lines := o.lie(a)
	if stagger, even := a.Length(parser.Stagger); even && stagger < noStagger {
		return lines
	}
	return append(lines, o.lineOne(a, "line one briefly"))
}

// rackSaid reads the lines of a rack back: "4 in, 2 in and 1-1/2 in, 1 covered".
func (o Options) rackSaid(ask parser.Ask) string {
	var sizes []string
	for _, l := range ask.Rack {
		size := l.Size
		if size == "" {
			size = ask.Pipe.Size
		}
		sizes = append(sizes, o.rackSize(size, l.Insulation))
	}
	if len(sizes) == 0 {
		return ""
	}
	return o.say("rack of", "sizes", strings.Join(sizes, "; "))
}

// rackTakeoffs says where the takeoffs of each line come from, each once.
func (o Options) rackTakeoffs(a *figure.Answer) []string {
	var lines []string
	seen := map[string]bool{}
	for _, l := range a.Lines {
		if l.Alone == nil {
			continue
		}
		for _, line := range o.takeoffs(l.Alone) {
			if !seen[line] {
				seen[line] = true
				lines = append(lines, line)
			}
		}
	}
	return lines
}
