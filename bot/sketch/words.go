package sketch

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/parser"
)

// word is a word that only pictures need, in every language.
type word struct{ english, spanish string }

// The words. Names of figures are package wording's.
var (
	wordSet          = word{"set", "desvío"}
	wordRun          = word{"run", "avance"}
	wordTravel       = word{"travel", "diagonal"}
	wordFaces        = word{"face to face", "cara a cara"}
	wordThroat       = word{"throat", "garganta"}
	wordSide         = word{"side", "lado"}
	wordBack         = word{"back", "espalda"}
	wordAllRound     = word{"all the way around", "toda la vuelta"}
	wordAlong        = word{"looking along the line", "mirando a lo largo de la línea"}
	wordSquare       = word{"seen square onto the step", "visto de frente al desvío"}
	wordPerspective  = word{"in perspective", "en perspectiva"}
	wordNow          = word{"as it stands now", "como está ahora"}
	wordFace         = word{"its face", "su cara"}
	wordPipeEnd      = word{"pipe's end", "punta del tubo"}
	wordDryFit       = word{"as it fits now", "como queda ahora"}
	wordHigh         = word{"high", "de más"}
	wordLow          = word{"low", "de menos"}
	wordLarger       = word{"off by more in the picture than it is, times", "la diferencia dibujada más grande, por"}
	wordHighEnd      = word{"high end", "punta alta"}
	wordLowEnd       = word{"low end", "punta baja"}
	wordFlow         = word{"flow", "flujo"}
	wordFeet         = word{"ft", "pies"}
	wordNotToScale   = word{"Not to scale: measure yours.", "Sin escala: mide la tuya."}
	wordOneIn        = word{"1 in", "1 en"}
	wordEachEnd      = word{"at each end", "en cada punta"}
	wordKeep         = word{"keep", "queda"}
	wordStop         = word{"stop the pipe", "el tubo termina"}
	wordBefore       = word{"before it", "antes"}
	wordSteeper      = word{"fall drawn steeper than it is, times", "caída dibujada más empinada, por"}
	wordUnsure       = word{"hatched: not checked, measure the fitting", "rayado: sin comprobar, mida la conexión"}
	wordUnmeasured   = word{"fitting not measured:", "conexión sin medir:"}
	wordMirrored     = word{"the other half is the same, mirrored", "la otra mitad es igual, al revés"}
	wordTooMany      = word{"lines drawn", "líneas dibujadas"}
	wordPerFoot      = word{"in per ft", "pulg por pie"}
	wordCheckPrinter = word{"print at 100 %, and lay a tape on this ruler: it must agree. Keep what is under the red line.", "imprime al 100 % y pon la cinta en esta regla: debe coincidir. Quédate con lo de abajo de la raya roja."}
)

// sketcher draws one answer in one user's way of reading.
type sketcher struct {
	answer  *figure.Answer
	options wording.Options
}

func (s sketcher) say(w word) string {
	if s.options.Language == parser.Spanish {
		return w.spanish
	}
	return w.english
}

// label is what the reply says of a figured length; false where the answer has
// none.
func (s sketcher) label(r parser.Role) (string, bool) {
	for _, l := range s.answer.Lengths {
		if l.Role == r {
			return withoutFeet(wording.Label(s.answer, l, s.options)), true
		}
	}
	return "", false
}

// given is what is said of a length that was given, and is as sure as the tape
// that it was measured with.
func (s sketcher) given(r parser.Role, l geometry.Length) string {
	return withoutFeet(wording.Given(r, l, s.options))
}

// takesOff is what is said of a takeoff: that it is about so only where nobody measured it.
func takesOff(t catalog.Takeoff, s sketcher) string {
	if t.Evidence == catalog.Own || t.Evidence == catalog.Said {
		return s.given(parser.TakeoffOf, t.Length)
	}
	return s.known(parser.TakeoffOf, t.Length)
}

// known is what is said of a length that comes from a table.
func (s sketcher) known(r parser.Role, l geometry.Length) string {
	return withoutFeet(wording.Label(s.answer, figure.Length{Role: r, Length: l}, s.options))
}

// inFeet is what wording adds to a long length: the same in feet. The heading
// and the tape have it, and a dimension has no room for it.
var inFeet = regexp.MustCompile(` \(\d+' [^)]*"\)`)

func withoutFeet(text string) string { return inFeet.ReplaceAllString(text, "") }

// tape is a length as it reads on the user's tape.
func (s sketcher) tape(l geometry.Length) string { return withoutFeet(wording.Tape(l, s.options)) }

// mark is the nearest mark on it alone, for where many stand side by side.
func (s sketcher) mark(l geometry.Length) string {
	if s.options.Metric {
		return l.Metric(0)
	}
	return l.Tape(s.options.Division).String()
}

// length is a figured length, or else the first given for a role.
func (s sketcher) length(r parser.Role) (geometry.Length, bool) {
	if l, ok := s.answer.Length(r); ok {
		return l, true
	}
	return s.answer.Ask.Length(r)
}

// degrees writes an angle: the trade's by name, others to a tenth.
func degrees(a geometry.Angle) string {
	for _, bend := range geometry.Bends() {
		if math.Abs((a - bend).Degrees()) < 1e-6 {
			return catalog.AngleName(bend) + "°"
		}
	}
	return strings.TrimSuffix(strconv.FormatFloat(a.Degrees(), 'f', 1, 64), ".0") + "°"
}

// wholeDegrees writes an angle as it is set by a level.
func wholeDegrees(a geometry.Angle) string { return strconv.Itoa(int(math.Round(a.Degrees()))) + "°" }
