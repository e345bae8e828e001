package telegram

import "strings"

// saying is something that is said without asking the conversation, in both
// languages: what the sender's Telegram speaks decides.
type saying struct{ english, spanish string }

// in is a saying in the language of a code such as es-MX.
func (s saying) in(code string) string {
	if strings.HasPrefix(code, "es") {
		return s.spanish
	}
	return s.english
}

// What is said without asking the conversation.
var (
	cantListen = saying{
		"I can't listen to recordings here. Type it the way you'd say it: 12 set 45s 1-1/2 pvc",
		"Aquí no puedo oír grabaciones. Escríbelo como lo dirías: desvío 12 codos de 45 2 pvc",
	}
	cantSee = saying{
		"I only read words. Type what the tape says: 12 set 45s 1-1/2 pvc",
		"Solo leo palabras. Escribe lo que da la cinta: desvío 12 codos de 45 2 pvc",
	}
	wentWrong = saying{
		"Something went wrong here, and nothing was figured. Try it once more in other words.",
		"Algo falló aquí, y no se calculó nada. Inténtalo otra vez con otras palabras.",
	}
	tooManyMessages = saying{
		"That's more than I can answer at once. What comes now I don't read: give it a minute, then send again what's missing.",
		"Son más mensajes de los que puedo contestar. Lo que llegue ahora no lo leo; espera un minuto y manda otra vez lo que falte.",
	}
)

// What is said of a note without hearing it.
var (
	tooLongNote = saying{
		"That's too long for me: up to a minute, please, one thing at a time.",
		"Es muy larga para mí: hasta un minuto, por favor, una cosa a la vez.",
	}
	slowNote = saying{
		"There are %d notes ahead of yours, so it takes a little. Typing is quicker.",
		"Hay %d notas antes que la tuya, así que tarda un poco. Escribir es más rápido.",
	}
	manyNotes = saying{
		"You have %d notes waiting already. Let me hear those first, then send this one again.",
		"Ya tienes %d notas en espera. Déjame oír esas primero, y luego manda esta otra vez.",
	}
	lostNote = saying{
		"I couldn't get at that recording. Send it once more, or type it.",
		"No pude abrir esa grabación. Mándala otra vez, o escríbelo.",
	}
)

// What is said to those who press what isn't theirs, what is left over, or too
// much.
var (
	notTheirs      = saying{"Only the one who asked can press this.", "Solo quien preguntó puede apretar esto."}
	deadButton     = saying{"That button does nothing any more.", "Ese botón ya no hace nada."}
	tooManyPresses = saying{"Too many at once. Give it a minute.", "Son muchos a la vez. Espera un minuto."}
)
