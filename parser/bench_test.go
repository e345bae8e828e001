package parser_test

import (
	"strings"
	"testing"

	"dogleg/parser"
)

func BenchmarkParseSimple(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		parser.Parse("12 set 45s 1-1/2 pvc")
	}
}

func BenchmarkParseWorst(b *testing.B) {
	for name, text := range worst() {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				parser.Parse(text)
			}
		})
	}
}

// worst lists the messages of 4 KB that are hardest to read.
func worst() map[string]string {
	fill := func(s string) string { return strings.Repeat(s, 4096/len(s)) }
	return map[string]string{
		"brackets": fill("("), "digits": fill("9"), "numbers": fill("1 "), "fractions": fill("1/2 "),
		"sets": fill("set 9 45s 2 pvc "), "and": fill("9 and "), "words": fill("floomp "), "lines": fill("9 set\n"),
		"long words": fill("abcdefghijklmnopqrstuvwxy "), "quotes": fill("5' 2\" "), "dashes": fill("- "), "number words": fill("forty "),
		"typos": fill("travle "), "semicolons": fill("set 9 45s 2 pvc;"), "sums": fill("1+"), "degrees": fill("45° "),
		"and asks": fill("9 set 45s 2 pvc and "), "commas": fill("set 9, 45s, "),
	}
}
