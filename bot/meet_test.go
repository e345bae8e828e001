package bot_test

import (
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/bot/wording"
	"dogleg/parser"
)

// First contact, in whatever words: what this does, three examples with what each
// gives, how to send a voice note.
func TestFirstContact(t *testing.T) {
	english, spanish := wording.Greeting(wording.Options{}), wording.Greeting(wording.Options{Language: parser.Spanish})
	for text, want := range map[string]string{
		"/start": english, "help": english, "/help": english, "?": english, "hi": english, "Hello.": english,
		"how do I use this?": english, "How does this work": english, "what can you do?": english, "how long do i cut it": english,
		"hola": spanish, "Ayuda": spanish, "¿cómo se usa?": spanish, "buenos días": spanish,
	} {
		got := new(bot.Conversation).Handle(bot.Message{Text: text, When: morning}, new(bot.Forgetful))
		if got.Text != want || len(got.Buttons) != 4 {
			t.Errorf("%q is answered %q with %q", text, got.Text, labels(got))
		}
	}
	start := bot.Message{Text: "/start", When: morning, Language: parser.Spanish}
	if got := new(bot.Conversation).Handle(start, new(bot.Forgetful)); got.Text != spanish {
		t.Errorf("to whom Telegram speaks Spanish: %q", got.Text)
	}
}

// A number alone is asked about: it was never meant as a sum.
func TestANumberAloneIsAskedAbout(t *testing.T) {
	h := juniperStreet(t)
	h.say("12", "12 of what? A set, a run, a piece?")
	h.say("12-5/8\"", "12-5/8 of what?")
	if asked := h.say("45", "45 of what?"); labels(asked) != "set 12 45s, 45 center to center 90s" {
		t.Errorf("buttons %s", labels(asked))
	}
	h.say(twelve)
	if asked := h.say("14", "Or the same, but 14?"); labels(asked) != "same but 14, set 14 45s" {
		t.Errorf("buttons %s", labels(asked))
	}
	h.say("same but 14", "Set 14")
	h.say("425 mm", "16-3/4 in") // with a unit it is to be turned into the other
	h.say("16-15/16 - 3", "13-15/16 in")
	h.say("12 set 45s", "What pipe?")
	h.say("12 set 2 abs", "angle")
	h.say("45", "Set 12") // in answer to a question it is the answer
}

// What is set is shown with what changes it, and each of these does.
func TestSettingsAreShown(t *testing.T) {
	for _, language := range []string{"settings", "ajustes"} {
		h := juniperStreet(t)
		before := h.say(language)
		if n := wording.Wrapped(before.Text); n > 16 {
			t.Errorf("%d rows", n)
		}
		changed := 0
		for _, row := range before.Buttons {
			for _, b := range row {
				if !strings.Contains(before.Text, ": "+b.Says) {
					t.Errorf("%q is not in %q", b.Says, before.Text)
				}
				if h.say(b.Says); h.say(language).Text != before.Text {
					changed++
				}
				h.say("undo")
				before = h.say(language)
			}
		}
		if changed < 5 { // there is no voice here, and learning is not taken back by undo
			t.Errorf("%s: %d buttons change what is set", language, changed)
		}
	}
}

// Short words are understood where they make sense.
func TestShortWords(t *testing.T) {
	h := juniperStreet(t)
	h.say("no", "Nothing was changed.")
	h.say("forget me", "Send yes")
	h.say("no", "Kept. Nothing was deleted.")
	h.say(twelve)
	h.say("why", "Takeoff 1-1/8 each, as you said.")
	h.say("more", "1. Set (as the tape gave it): 12")
	if shared := h.say("share", "set 12, 45s, takeoff 1-1/8, 2 abs"); len(shared.Buttons) != 1 || shared.Buttons[0][0].Share == "" {
		t.Errorf("share has %q", labels(shared))
	}
	h.say("done", "No piece on the list is open.")
	h.say("add laundry")
	h.say("done", "■ 1. 14-3/4 light")
	h.say("undo")
	h.say("add kitchen")
	if which := h.say("done", "Which piece is done?"); len(which.Buttons) != 2 {
		t.Errorf("done has %q", labels(which))
	}
	h.say("12 set 45s", "What pipe?")
	h.say("no", "Dropped.")
	h.say("2 abs", "Set 12") // which changes the last piece: nothing was waiting
	h.bot.Seed = 12
	h.say("practice cut")
	h.say("hint", "Travel (set to travel)")
	h.say("hint", "Cut (travel less a takeoff at each end)")
	h.say("hint", "Those were all the steps.")
	h.say("explain", "Travel (set to travel)\nCut (travel less a takeoff at each end)")
	h.say("more", "Travel (set to travel):\nSet ÷ travel is the sine of the bend")
	h.say("stop")
	h.say("exam")
	h.say("hint", "No hints in an exam.")
}

// One reading that is offered is asked about as one.
func TestOneReadingIsNotTwo(t *testing.T) {
	m := &parser.Misunderstanding{Trouble: parser.TwoReadings, Readings: [][]parser.Ask{{{Angle: 45, Measures: []parser.Measure{{Role: parser.Set, Length: 12}}}}}}
	if got, want := wording.Refusal(m, wording.Options{}), "Do you mean this?\nset 12, 45s"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// Spanish is Spanish throughout: whatever is offered can be said as it stands, and
// is answered in Spanish.
func TestSpanishThroughout(t *testing.T) {
	h := juniperStreet(t)
	h.say("hola", "Calculo tubo")
	for _, c := range [][2]string{
		{"más", "Después de una respuesta"},
		{"ajustes", "Pulgadas primero: métrico"},
		{"descuentos", "Todavía ninguno tuyo"},
		{"métrico", "milímetros primero"},
		{"pulgadas", "pulgadas primero"},
		{"treintaidosavos", "treintaidosavos"},
		{"dieciseisavos", "dieciseisavos"},
		{"manual dos", "dos decimales"},
		{"exacto", "cifras exactas"},
		{"dibuja siempre", "dibujo con cada"},
		{"dibujo si lo pido", "Dibujos solo"},
		{"deshacer", "Como antes"},
		{"hecha", "No hay piezas pendientes"},
		{"compartir", "nada que compartir"},
		{"precauciones", "Nada especial"},
		{"12", "¿12 de qué?"},
	} {
		h.say(c[0], c[1])
	}
	h.say("desvío 12 codos de 45 2 pvc dwv", "Corte cerca de 14-1/4 pulg, sobra hasta 1/2", "Puntas a cerca de 14-3/4", "Descuento 1-1/2, sin medir")
	h.say("por qué", "Primario y cemento")
	h.say("explica", "Diagonal: 12 × 1.4142 = 16.9706")
	h.say("añadir lavandería", "En la lista")
	h.say("vaciar lista", "¿Vaciar la lista, 1 pendiente y 0 hechas? Di sí o no.")
	h.say("sí", "Lista vaciada.")
	h.say("deshacer", "La lista está de vuelta.")
	h.say("llámalo baño", "baño")
	h.say("descuento 2 pvc 45 1-1/8", "Guardado")
	h.say("olvida descuento 1", "Olvidado")
}
