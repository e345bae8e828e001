package telegram

import (
	"context"
	"encoding/json"
	"sync"
)

// Speaker reads aloud. It is joined to a voice by whoever calls [Serve].
type Speaker interface {
	// Speak returns a text read aloud, in Ogg with Opus. It ends, with an error,
	// when the context does.
	Speak(ctx context.Context, text string) ([]byte, error)
}

// What is said aloud is a letter of its own behind the answer, so that whoever
// can't be sent voice notes has the text all the same, and the text never waits
// for the voice. The outbox keeps the words; they become a recording when it is
// their turn.

// saidBefore remembers by which name the server keeps what was said: the same
// words are sent by it and not recorded again. It is forgotten with the process,
// and when it grows large.
type saidBefore struct {
	mu    sync.Mutex
	names map[string]string
	voice sync.Mutex // one recording is made at a time
}

// mostSaidBefore is how many are remembered, of some hundred bytes each.
const mostSaidBefore = 2000

func (s *saidBefore) name(words string) string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.names[words]
}

func (s *saidBefore) remember(words, name string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.names == nil || len(s.names) >= mostSaidBefore {
		s.names = map[string]string{}
	}
	s.names[words] = name
}

// deliverLetter posts a letter, recorded first if it is to be said aloud. It is
// false if the run ended first; what can't be recorded is dropped.
func (o *outbox) deliverLetter(l *letter) bool {
	if l.given {
		return true
	}
	if !o.record(l) {
		return o.sending.Err() == nil
	}
	return o.post(l)
}

// record makes a recording of what a letter is to say aloud, unless the server
// has it. It is false where that can't be done: then nothing is sent.
func (o *outbox) record(l *letter) bool {
	l.said = o.saidBefore.name(l.Aloud)
	if l.Aloud == "" || l.said != "" {
		return true
	}
	if o.Speaker == nil { // written by a run that had one
		return false
	}
	o.saidBefore.voice.Lock()
	defer o.saidBefore.voice.Unlock()
	ctx, cancel := context.WithTimeout(o.sending, o.Timing.Speak)
	defer cancel()
	content, err := o.Speaker.Speak(ctx, l.Aloud)
	if err != nil {
		o.Log.Warn("an answer was not said aloud", "chat", l.Chat, "error", err)
		return false
	}
	l.File = &File{Name: "answer.oga", Content: content}
	return true
}

// recorded remembers the name under which the server keeps what was said.
func (o *outbox) recorded(l *letter, sent json.RawMessage) {
	var message struct {
		Voice struct {
			File string `json:"file_id"`
		} `json:"voice"`
	}
	if json.Unmarshal(sent, &message) == nil && message.Voice.File != "" {
		o.saidBefore.remember(l.Aloud, message.Voice.File)
	}
}
