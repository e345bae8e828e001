package bot_test

import (
	"regexp"
	"testing"
)

// spanishAsks are asks in Spanish of each kind, on both tapes.
var spanishAsks = []string{
	"desvío 12 codos de 45 2 pvc dwv", "desvío 300 mm codos de 45 110 mm pvc", "desvío 300 mm codos de 45 110 mm pvc descuento 44 mm",
	"lateral 8 subida 14 codos de 45 3 abs", "26 centro a centro codos de 90 2 abs", "desvío 14 espacio 30 2 pvc dwv",
	"desvío 12 codos de 45 2 pvc dwv, puntas a 9", "sale 6, holgura 1, codos de 45, 2 pvc dwv",
	"3 líneas separadas 8 desvío 15 codos de 45", "caída 22 pies a 1/4 por pie 3 pvc dwv", "caída 6 m a 1 en 40 110 mm pvc",
	"prueba en seco 10-3/8, debe ser 10, codos de 45", "desvío 12 codos de 45 4 sin campana", "desvío 12 codos de 45 3 campana hierro fundido",
	"desvío 12 codos de 45 4 acero soldado a tope", "desvío 12 codos de 45 1 acero roscado", "desvío 12, codos de 45, cobre de 3/4",
	"desvío 3 codos de 45 4 pvc dwv", "desvío 300 mm codos de 45 dn100 hierro fundido", "desvío 300 mm codos de 45 dn50 soldado",
}

// englishWords are words that no Spanish reply has.
var englishWords = regexp.MustCompile(`(?i)\b(?:the|and|of|is|with|for|your|yours|pipe|takeoff|travel|common|recalled|unchecked|each|set|cut|about|apart|practice|memory|from|to|or|by|steel|copper|iron|stop)\b`)

// Whatever follows an ask in Spanish is in Spanish: the reasons, the sums, the steps,
// the rules, the list, the sticks, the material, and what is on the buttons. What is
// shared is English where it reads back as nothing else.
func TestWhatFollowsIsInSpanish(t *testing.T) {
	for _, ask := range spanishAsks {
		h := juniperStreet(t)
		for _, text := range []string{
			ask, "por qué", "explica", "más", "regla 4", "dibuja", "código BS EN 12056", "código IPC", "precauciones", "añadir cocina", "lista", "tramos",
			"material", "hecha", "trabajos", "ajustes", "deshacer", "deshacer", "practicar", "pista", "saltar", "parar", "puntaje",
		} {
			r := h.as("dana", text)
			if found := englishWords.FindString(r.Text); found != "" {
				t.Errorf("%q, then %q: %q in\n%s", ask, text, found, r.Text)
			}
			for _, row := range r.Buttons {
				for _, b := range row {
					if found := englishWords.FindString(b.Label); found != "" {
						t.Errorf("%q, then %q: the button %+v", ask, text, b)
					}
				}
			}
		}
	}
}
