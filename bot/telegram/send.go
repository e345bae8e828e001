package telegram

import (
	"cmp"
	"context"
	"encoding/json"
	"math/rand/v2"
	"strings"
	"time"

	"dogleg/bot/telegram/wire"
)

// letter is one message on its way out, and the payload of its entry in the
// outbox.
type letter struct {
	Chat       int64     `json:"chat"`
	Thread     int64     `json:"thread,omitempty"`     // topic of a forum
	Question   int64     `json:"question"`             // the message that it answers
	Reply      bool      `json:"reply,omitempty"`      // show which that is
	Correction bool      `json:"correction,omitempty"` // the question was edited
	Whole      bool      `json:"whole,omitempty"`      // this is all of the answer
	Plain      bool      `json:"plain,omitempty"`      // without formatting
	Echo       bool      `json:"echo,omitempty"`       // the first line is what was heard, and the answer comes after it
	Text       string    `json:"text"`                 // plain
	User       string    `json:"user,omitempty"`       // who asked
	Pressed    bool      `json:"pressed,omitempty"`    // by a button under the question, which is ours
	Before     int64     `json:"before,omitempty"`     // of a correction: the message that answered before, if no newer is known
	Asked      *origin   `json:"asked,omitempty"`      // where it is sent if this person's own chat isn't open
	Written    time.Time `json:"written"`
	Note       *note     `json:"note,omitempty"`    // to be heard, before there is any text
	File       *File     `json:"file,omitempty"`    // the text is its caption
	Board      boardStep `json:"board,omitempty"`   // this is the cut list
	Message    int64     `json:"message,omitempty"` // that this step of the board changes

	Buttons [][]Button `json:"buttons,omitempty"`

	Aloud string `json:"aloud,omitempty"` // said, in the place of a text
	said  string // the server's name of what was said before

	About []uint64 `json:"about,omitempty"` // jobs, of what a button brought about
	More  bool     `json:"more,omitempty"`  // it goes with the letter before it, which answers

	number uint64 // of its entry
	bytes  int    // of its payload
	given  bool   // up: there is nothing to be sent
	sent   int64  // the message that it became, where that is to be known
}

// origin is where something was asked.
type origin struct {
	Chat     int64 `json:"chat"`
	Thread   int64 `json:"thread,omitempty"`
	Question int64 `json:"question"`
}

func (l letter) pack() []byte {
	payload, err := json.Marshal(l)
	if err != nil {
		panic(err) // it holds nothing that can fail
	}
	return payload
}

func unpack(e Entry) (letter, error) {
	var l letter
	err := json.Unmarshal(e.Payload, &l)
	l.number = e.Number
	l.Chat = e.Chat // which may have moved since
	return l, err
}

// late is the age from which a message shows what it answers, in a private
// chat too.
const late = time.Minute

// params makes the call that sends the letter, as an edit of a message if it
// is one.
func (l *letter) params(edits int64, now time.Time) (method string, p wire.Params) {
	p = wire.Params{}
	p.AddNonZero64("chat_id", l.Chat)
	l.addText(p)
	p.AddNonEmpty("reply_markup", l.keyboard())
	if edits != 0 {
		p.AddNonZero64("message_id", edits)
		return "editMessageText", p
	}
	l.placed(p, now)
	method, _ = l.sends()
	return method, p
}

// params makes the call that sends a letter, paid for where that is wanted.
func (o *outbox) params(l *letter, edits int64) (method string, p wire.Params) {
	method, p = l.params(edits, o.Now())
	if o.Paid && edits == 0 { // an edit can't be
		p["allow_paid_broadcast"] = "true"
	}
	return method, p
}

// sends is the method that sends the letter as a message of its own, and the
// field of its file, if it has one.
func (l *letter) sends() (method, field string) {
	switch {
	case l.Aloud != "":
		return "sendVoice", "voice"
	case l.File == nil:
		return "sendMessage", ""
	case l.File.Picture:
		return "sendPhoto", "photo"
	}
	return "sendDocument", "document"
}

// addText puts in the text, which under a file is its caption.
func (l *letter) addText(p wire.Params) {
	text, mode := wire.Formatted(l.Text), "HTML"
	switch echo, answer, several := strings.Cut(l.Text, "\n"); {
	case l.Plain:
		text, mode = l.Text, ""
	case l.Echo && several:
		text = wire.Escaper.Replace(echo) + "\n" + wire.Formatted(answer)
	}
	name := "text"
	if l.File != nil || l.Aloud != "" {
		name = "caption"
	} else {
		p["link_preview_options"] = `{"is_disabled":true}`
	}
	p.AddNonEmpty(name, text)
	if text != "" {
		p.AddNonEmpty("parse_mode", mode)
	}
}

// placed says where in the chat a message goes, and what it answers.
func (l *letter) placed(p wire.Params, now time.Time) {
	p.AddNonZero64("message_thread_id", l.Thread)
	if l.Question != 0 && (l.Reply || l.Correction || now.Sub(l.Written) > late) {
		reply := struct {
			Message int64 `json:"message_id"`
			Anyway  bool  `json:"allow_sending_without_reply"`
		}{l.Question, true}
		_ = p.AddInterface("reply_parameters", reply) // numbers can't fail
	}
}

// post sends a letter, however often it has to be tried. It is false if the
// run ended first, and then the letter stays in the outbox on the disk.
func (o *outbox) post(l *letter) bool {
	for failures := 0; ; {
		err := o.try(l)
		if o.sending.Err() != nil && err != nil {
			return false
		}
		verdict := wire.VerdictOn(err)
		if err != nil && verdict != wire.Delivered {
			o.Log.Warn("message not sent", "chat", l.Chat, "error", err)
		}
		switch verdict {
		case wire.Delivered:
			o.Health.Sent.Add(1)
			o.Delivered(o.Now().Sub(l.Written))
			o.meters.passed()
			return true
		case wire.Undeliverable:
			if l.asDocument() {
				continue
			}
			if l.Asked != nil {
				l.openly()
				continue
			}
			o.Health.Dropped.Add(1)
			return true
		case wire.Hopeless:
			o.stop(unknownToken(err))
			return false
		case wire.Later:
			if !o.holdBack(l.Chat, err, failures) {
				return false
			}
		case wire.Again:
			o.Health.Retried.Add(1)
			if !o.pause(o.sending, o.patience(err, failures)) {
				return false
			}
		case wire.Moved, wire.Unanswered, wire.Threadless, wire.Plainly, wire.Anew:
			if !o.amend(l, verdict, err) {
				o.Health.Dropped.Add(1)
				return true
			}
			continue
		}
		failures++
	}
}

// try makes one attempt in its turn.
func (o *outbox) try(l *letter) error {
	if err := o.turn(o.sending, l.Chat); err != nil {
		return err
	}
	ready, putAway, err := o.painted(l)
	defer putAway()
	if err != nil || ready == nil {
		return err
	}
	select {
	case o.slots <- struct{}{}:
	case <-o.sending.Done():
		return o.sending.Err()
	}
	defer func() { <-o.slots }()
	if l.Board != "" {
		return o.show(l)
	}
	err = o.mail(ready)
	l.sent = ready.sent
	return err
}

// upload is the file that goes with a letter, nil if there is none.
func (l *letter) upload() *wire.Upload {
	if l.File == nil {
		return nil
	}
	return &wire.Upload{Name: l.File.Name, Content: l.File.Content}
}

// mail makes the call that sends a letter, and learns from its response.
func (o *outbox) mail(l *letter) error {
	at := place{l.Chat, l.Question}
	var edits int64
	if l.Correction && l.Whole && l.File == nil {
		edits = cmp.Or(o.answered.answer(at), l.Before)
	}
	method, p := o.params(l, edits)
	_, field := l.sends()
	p.AddNonEmpty("voice", l.said)
	raw, err := o.client.Send(o.sending, method, p, field, l.upload())
	if err == nil && l.Aloud != "" {
		o.recorded(l, raw)
	}
	if err != nil || edits != 0 || l.Asked != nil {
		return err
	}
	var sent struct {
		ID int64 `json:"message_id"`
	}
	if json.Unmarshal(raw, &sent) == nil && sent.ID != 0 {
		l.sent = sent.ID
		if l.Whole && !l.Pressed {
			o.answered.by(at, sent.ID)
		}
	}
	return nil
}

// openly sends where it was asked what its person's own chat doesn't take.
func (l *letter) openly() {
	l.Chat, l.Thread, l.Question, l.Reply = l.Asked.Chat, l.Asked.Thread, l.Asked.Question, true
	l.Asked = nil
}

// turn waits until the chat's pace and that of all allow another message, and the
// disk has caught up.
func (o *outbox) turn(ctx context.Context, chat int64) error {
	now := time.Now()
	if !o.pause(ctx, o.meters.forChat(chat, now).Sub(now)) {
		return ctx.Err()
	}
	if err := o.meters.forAll(ctx, chat); err != nil {
		return err
	}
	return o.abreast(ctx)
}

// holdBack waits as long as the server wants, and a little more, so that not
// all come back in the same moment.
func (o *outbox) holdBack(chat int64, err error, failures int) bool {
	o.Health.TooMany.Add(1)
	wait := o.patience(err, failures)
	wait += rand.N(wait/10 + 1)
	o.meters.tooMany(chat, time.Now())
	return o.pause(o.sending, wait)
}

// amend changes a letter as the server's refusal suggests. It is false if that
// was done before and did not help.
func (o *outbox) amend(l *letter, v wire.Verdict, err error) bool {
	before := [...]any{l.Chat, l.Question, l.Thread, l.Plain}
	switch v {
	case wire.Moved:
		l.Chat = o.movedTo(l.Chat, err)
	case wire.Unanswered:
		l.Question = 0
	case wire.Threadless:
		l.Thread = 0
	case wire.Plainly:
		l.Plain = true
	case wire.Anew:
		if l.Board == changeBoard {
			l.Board = postBoard
			return true
		}
		o.answered.by(place{l.Chat, l.Question}, 0)
		l.Before = 0
		return l.Correction
	case wire.Delivered, wire.Later, wire.Again, wire.Undeliverable, wire.Hopeless:
	}
	return before != [...]any{l.Chat, l.Question, l.Thread, l.Plain}
}
