package wire

import (
	"errors"
	"strings"
)

// Verdict is what follows from how a call went.
type Verdict int

const (
	Delivered     Verdict = iota // done, or as good as done
	Later                        // too many: wait as long as told
	Again                        // nobody knows what happened: wait and repeat
	Moved                        // the chat has another number
	Unanswered                   // the question is gone: not as a reply
	Threadless                   // the topic is gone, or never was one: without
	Plainly                      // the formatting is not liked: without
	Anew                         // what should be edited is gone: as a new message
	Undeliverable                // this message can't be sent, now or ever
	Hopeless                     // no message can: the token is wrong
)

// said are refusals known by their words, since their code is 400 like any.
var said = []struct {
	words string
	Verdict
}{
	{"message is not modified", Delivered},
	{"message thread not found", Threadless},
	{"message to be replied not found", Unanswered},
	{"replied message not found", Unanswered},
	{"reply message not found", Unanswered},
	{"message to reply not found", Unanswered},
	{"can't parse entities", Plainly},
	{"message to edit not found", Anew},
	{"message can't be edited", Anew},
	{"there is no text in the message to edit", Anew}, // it is a picture
}

// VerdictOn says what follows from an error. Whatever is not a refusal in the
// server's own form (a broken connection, a gateway's page, half a response)
// will pass, and so will a refusal without a code, which is no such form.
func VerdictOn(err error) Verdict {
	var r *Refusal
	switch {
	case err == nil:
		return Delivered
	case !errors.As(err, &r) || r.Code == 0 && r.RetryAfter == 0 && r.MovedTo == 0:
		return Again
	case r.RetryAfter > 0 || r.Code == 429:
		return Later
	case r.MovedTo != 0:
		return Moved
	case r.Code == 401 || r.Code == 404:
		return Hopeless
	case r.Code >= 500 || r.Code == 409:
		return Again
	}
	for _, s := range said {
		if strings.Contains(r.Description, s.words) {
			return s.Verdict
		}
	}
	return Undeliverable
}
