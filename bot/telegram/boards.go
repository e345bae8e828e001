package telegram

import (
	"encoding/json"

	"dogleg/bot/telegram/wire"
)

// Board is the cut list of a chat: one message with a button for each piece,
// that is edited whenever the list changes. In a group whoever presses one, the
// others see it.
type Board struct {
	Text    string
	Buttons [][]Button // rows
	Anew    bool       // it was asked for: a new message takes the place of the old one
	Moved   string     // what the old one then says
}

// OnItsWay stands for the number of a board that is queued and not yet sent.
const OnItsWay = -1

// boardStep is what a letter does with the board.
type boardStep string

const (
	postBoard   boardStep = "post"   // a new message
	changeBoard boardStep = "change" // the one there is
	retireBoard boardStep = "retire" // one that another has taken the place of
)

// boardFor queues what an answer changes of the board, and says whether the
// board itself is the answer: where it was asked for, and in a group where the
// list has none yet. An answer that says anything else keeps its words.
func (w *work) boardFor(tx Tx, to letter, a Answer) bool {
	if a.Board == nil {
		return false
	}
	now := tx.Board(to.Chat)
	post := a.Listed && (a.Board.Anew || now == 0 && to.Chat < 0)
	switch {
	case post:
		if now > 0 {
			old := letter{Chat: to.Chat, Board: retireBoard, Message: now, Text: a.Board.Moved, Plain: true, Written: to.Written}
			w.queue(tx, old)
		}
		tx.SetBoard(to.Chat, OnItsWay)
		to.Board, to.Correction = postBoard, false
	case now == 0:
		return false
	default:
		to.Board, to.Question, to.Correction, to.Echo, to.Plain = changeBoard, 0, false, false, false
	}
	to.Text, to.Buttons = a.Board.Text, a.Board.Buttons
	w.queue(tx, to)
	return post
}

// show takes a step of the board.
func (o *outbox) show(l *letter) error {
	edits := l.Message
	if l.Board == changeBoard {
		var err error
		if edits, err = o.boardNow(l.Chat); err != nil {
			return err
		}
	}
	method, p := o.params(l, max(0, edits))
	raw, err := o.client.Call(o.sending, o.Timing.Send, method, p)
	if l.Board == retireBoard && wire.VerdictOn(err) == wire.Anew {
		return nil // somebody has deleted it
	}
	if err != nil || edits > 0 {
		return err
	}
	return o.shown(l.Chat, raw)
}

// boardNow is the message that shows the list of a chat, as far as one was sent.
func (o *outbox) boardNow(chat int64) (message int64, err error) {
	err = o.Memory.View(func(tx Tx) error {
		message = tx.Board(chat)
		return nil
	})
	return message, err
}

// shown keeps which message shows the list from now on. Killed just before, the
// bot shows it once more, in another message.
func (o *outbox) shown(chat int64, raw json.RawMessage) error {
	var sent struct {
		ID int64 `json:"message_id"`
	}
	if err := json.Unmarshal(raw, &sent); err != nil || sent.ID == 0 {
		return nil // it is there; only it can't be changed
	}
	err := o.Memory.Update(func(tx Tx) error {
		tx.SetBoard(chat, sent.ID)
		return nil
	})
	if err != nil {
		o.Log.Error("which message shows the list can't be kept", "chat", chat, "error", err)
	}
	return nil
}

// overtaken says whether a change of the board needs no sending, since another
// is behind it in the line: a busy crew's list stays within the pace of its
// group.
func (o *outbox) overtaken(chat int64, l letter) bool {
	if l.Board != changeBoard {
		return false
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, behind := range o.lines[chat].waiting[1:] {
		if behind.board == changeBoard || behind.board == postBoard {
			return true
		}
	}
	return false
}

// asDocument makes of a picture that the server doesn't take a file that it
// does. It is false for everything else.
func (l *letter) asDocument() bool {
	if l.File == nil || !l.File.Picture {
		return false
	}
	l.File = &File{Name: l.File.Name, Content: l.File.Content, Recipe: l.File.Recipe}
	return true
}
