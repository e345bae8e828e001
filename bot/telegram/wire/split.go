package wire

import (
	"strings"
	"unicode/utf16"
)

// LongestPart is where an answer is split, in UTF-16 units: the server takes
// 4096 after formatting, and a little room is left.
const LongestPart = 4000

// LongestCaption is the longest text under a file, in UTF-16 units.
const LongestCaption = 1024

// Split cuts a text into parts of at most so many UTF-16 units each: at the
// ends of lines, and only where a line alone is longer, at a space or, where
// there is none, between two characters. A text of white space has no parts.
func Split(text string, longest int) []string {
	var parts []string
	for rest := strings.TrimSpace(text); rest != ""; {
		end := cut(rest, longest)
		if part := strings.TrimSpace(rest[:end]); part != "" {
			parts = append(parts, part)
		}
		rest = strings.TrimLeft(rest[end:], " \n")
	}
	return parts
}

// cut finds the byte where the first part of a text ends.
func cut(text string, longest int) int {
	fits := Fitting(text, longest)
	if fits == len(text) {
		return fits
	}
	head := text[:fits]
	for _, border := range []byte{'\n', ' '} {
		if text[fits] == border {
			return fits
		}
		if end := strings.LastIndexByte(head, border); end > 0 {
			return end
		}
	}
	return fits
}

// Fitting is how many bytes of a text have at most so many UTF-16 units.
func Fitting(text string, longest int) int {
	units := 0
	for at, r := range text {
		units += utf16.RuneLen(r)
		if units > longest {
			return at
		}
	}
	return len(text)
}

// Escaper is the one place where text becomes HTML. Telegram knows no other
// characters that need it.
var Escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// Formatted sets the first of several lines in bold: the number, to be read at
// arm's length. Lines that begin with four spaces are a drawing, and keep their
// columns.
func Formatted(text string) string {
	first, rest, several := strings.Cut(text, "\n")
	if !several {
		return Escaper.Replace(text)
	}
	return "<b>" + Escaper.Replace(first) + "</b>\n" + drawn(Escaper.Replace(rest))
}

// drawn sets each run of lines that begin with four spaces as a block of
// letters of one width.
func drawn(text string) string {
	lines := strings.Split(text, "\n")
	indented := func(i int) bool { return i >= 0 && i < len(lines) && strings.HasPrefix(lines[i], "    ") }
	marked := make([]string, len(lines))
	for i, line := range lines {
		if indented(i) && !indented(i-1) {
			marked[i] = "<pre>"
		}
		marked[i] += line
		if indented(i) && !indented(i+1) {
			marked[i] += "</pre>"
		}
	}
	return strings.Join(marked, "\n")
}
