package telegram

import (
	"context"
	"encoding/json"
	"strconv"

	"dogleg/bot/telegram/wire"
)

// press does what a button under a message of ours says.
func (s *service) press(tx Tx, r *received, b *wire.Button, w *work) (err error) {
	says := toast{query: b.ID}
	user, words, ok := b.Read()
	switch {
	case r.mishaps > 1:
		says.text = wentWrong.in(b.From.Speaks())
	case b.From == nil || b.Message == nil || b.Data == "":
		says.text = deadButton.in(b.From.Speaks())
	case !s.metered(r, func() admission { return s.budgets.admitPress(b.From.ID, s.Now()) }):
		says.text = tooManyPresses.in(b.From.Speaks())
	case !ok:
		says.text, err = s.pressForAll(tx, b, w)
	case user != strconv.FormatInt(b.From.ID, 10):
		says.text = notTheirs.in(b.From.Speaks())
	default:
		err = s.pressOwn(tx, b, user, words, w)
	}
	w.toasts = append(w.toasts, says)
	return err
}

// pressForAll does what a button under the cut list says, whoever presses it,
// and returns what to say to them.
func (s *service) pressForAll(tx Tx, b *wire.Button, w *work) (string, error) {
	m := b.Message
	a, err := tx.Answer(Question{
		Chat: m.Chat.ID, User: strconv.FormatInt(b.From.ID, 10), Name: wire.PlainName(b.From.Name), Pressed: b.Data, When: s.Now(), Language: b.From.Speaks(),
	})
	if err != nil {
		return "", err
	}
	to := letter{Chat: m.Chat.ID, Written: s.Now()}
	if m.InTopic {
		to.Thread = m.Thread
	}
	w.boardFor(tx, to, Answer{Board: a.Board})
	return a.Text, nil
}

// pressOwn answers the words of a button as if they were written below the
// answer that it stands under.
func (s *service) pressOwn(tx Tx, b *wire.Button, user, words string, w *work) error {
	asker := wire.Message{From: b.From, Chat: b.Message.Chat, Date: s.Now().Unix()}
	a, err := tx.Answer(Question{Chat: asker.Chat.ID, User: user, Name: asker.Name(), Text: words, When: s.Now(), Language: b.From.Speaks()})
	to := answerTo(b.Message, s.Now())
	to.Reply, to.User, to.Pressed = true, user, true
	if w.boardFor(tx, to, a) {
		a.Text = ""
	}
	w.writeTo(tx, to, a)
	return err
}

// toast is what is said to whoever pressed a button, over the chat.
type toast struct{ query, text string }

// longestToast is how much of it is shown, in letters, by the Bot API.
const longestToast = 200

// letGo lets go of a button that was pressed, once what it did is on the disk:
// the server waits only seconds for it.
func (s *service) letGo(t toast) {
	letters := []rune(t.text)
	text := string(letters[:min(len(letters), longestToast)])
	s.toasts.Go(func() {
		if err := s.client.AnswerCallbackQuery(context.Background(), t.query, text); err != nil {
			s.Log.Debug("a button was answered too late", "error", err)
		}
	})
}

// key is a button as the Bot API wants it.
type key struct {
	Label string `json:"text"`
	Data  string `json:"callback_data,omitempty"`
	Share string `json:"switch_inline_query,omitempty"`
}

// keyboard is the markup of the buttons under a message, empty where there are
// none. A button that says more than it can carry is left out: its words stand
// in the text. Under the cut list no buttons are said to be none, which takes
// away those that are there.
func (l *letter) keyboard() string {
	rows := [][]key{}
	for _, row := range l.Buttons {
		var keys []key
		for _, b := range row {
			k := key{Label: b.Label, Data: b.Press, Share: b.Share}
			if b.Says != "" {
				k.Data = wire.DataOf(l.User, b.Says)
			}
			if k.Data != "" || k.Share != "" {
				keys = append(keys, k)
			}
		}
		if len(keys) > 0 {
			rows = append(rows, keys)
		}
	}
	if len(rows) == 0 && (l.Board == "" || l.Board == retireBoard) {
		return ""
	}
	markup := struct {
		Rows [][]key `json:"inline_keyboard"`
	}{rows}
	text, err := json.Marshal(markup)
	if err != nil {
		panic(err) // it holds nothing that can fail
	}
	return string(text)
}
