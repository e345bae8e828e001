package telegram

import (
	"errors"
	"strings"
)

// verdict is what follows from how a call went.
type verdict int

const (
	delivered     verdict = iota // done, or as good as done
	later                        // too many: wait as long as told
	again                        // nobody knows what happened: wait and repeat
	moved                        // the chat has another number
	unanswered                   // the question is gone: not as a reply
	threadless                   // the topic is gone, or never was one: without
	plainly                      // the formatting is not liked: without
	anew                         // what should be edited is gone: as a new message
	undeliverable                // this message can't be sent, now or ever
	hopeless                     // no message can: the token is wrong
)

// said are refusals known by their words, since their code is 400 like any.
var said = []struct {
	words string
	verdict
}{
	{"message is not modified", delivered},
	{"message thread not found", threadless},
	{"message to be replied not found", unanswered},
	{"replied message not found", unanswered},
	{"reply message not found", unanswered},
	{"message to reply not found", unanswered},
	{"can't parse entities", plainly},
	{"message to edit not found", anew},
	{"message can't be edited", anew},
	{"there is no text in the message to edit", anew}, // it is a picture
}

// verdictOn says what follows from an error. Whatever is not a refusal in the
// server's own form (a broken connection, a gateway's page, half a response)
// will pass, and so will a refusal without a code, which is no such form.
func verdictOn(err error) verdict {
	var r *refusal
	switch {
	case err == nil:
		return delivered
	case !errors.As(err, &r) || r.Code == 0 && r.RetryAfter == 0 && r.MovedTo == 0:
		return again
	case r.RetryAfter > 0 || r.Code == 429:
		return later
	case r.MovedTo != 0:
		return moved
	case r.Code == 401 || r.Code == 404:
		return hopeless
	case r.Code >= 500 || r.Code == 409:
		return again
	}
	for _, s := range said {
		if strings.Contains(r.Description, s.words) {
			return s.verdict
		}
	}
	return undeliverable
}
