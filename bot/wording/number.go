package wording

import (
	"strings"

	"dogleg/parser"
)

// mostSpelled is the largest number put into words; a larger one is left in
// figures for the voice to make of it what it can.
const mostSpelled = 999_999

var (
	englishUnder20 = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve " +
		"thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
	englishTens = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")

	spanishUnder30 = strings.Fields("cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce " +
		"trece catorce quince dieciséis diecisiete dieciocho diecinueve veinte veintiuno veintidós veintitrés " +
		"veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve")
	spanishTens     = strings.Fields("- - veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa")
	spanishHundreds = strings.Fields("- ciento doscientos trescientos cuatrocientos quinientos seiscientos " +
		"setecientos ochocientos novecientos")
)

// Cardinal spells a number from 0 to 999,999: "three hundred forty-five",
// "trescientos cuarenta y cinco".
func Cardinal(n int, l parser.Language) string {
	if l == parser.Spanish {
		return spanish(n)
	}
	return english(n)
}

func english(n int) string {
	switch {
	case n < 20:
		return englishUnder20[n]
	case n < 100:
		return joinIf(englishTens[n/10], "-", n%10, english)
	case n < 1000:
		return joinIf(englishUnder20[n/100]+" hundred", " ", n%100, english)
	}
	return joinIf(english(n/1000)+" thousand", " ", n%1000, english)
}

func spanish(n int) string {
	switch {
	case n < 30:
		return spanishUnder30[n]
	case n < 100:
		return joinIf(spanishTens[n/10], " y ", n%10, spanish)
	case n == 100:
		return "cien"
	case n < 1000:
		return joinIf(spanishHundreds[n/100], " ", n%100, spanish)
	case n < 2000:
		return joinIf("mil", " ", n%1000, spanish)
	}
	return joinIf(apocope(spanish(n/1000))+" mil", " ", n%1000, spanish)
}

// apocope shortens uno before a noun: veintiún mil, treinta y un mil.
func apocope(words string) string {
	switch {
	case strings.HasSuffix(words, "veintiuno"):
		return strings.TrimSuffix(words, "uno") + "ún"
	case strings.HasSuffix(words, "uno"):
		return strings.TrimSuffix(words, "o")
	}
	return words
}

// joinIf adds the rest of a number where there is one.
func joinIf(head, with string, rest int, spell func(int) string) string {
	if rest == 0 {
		return head
	}
	return head + with + spell(rest)
}
