package telegram

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// update is one update as far as we look at it. Fields of the Bot API that are
// not here are not read, so nothing in them can do harm.
type update struct {
	ID       int64       `json:"update_id"`
	Message  *message    `json:"message"`
	Edited   *message    `json:"edited_message"`
	Button   *button     `json:"callback_query"`
	Inline   *inline     `json:"inline_query"`
	Standing *membership `json:"my_chat_member"`
}

type message struct {
	ID        int64   `json:"message_id"`
	Thread    int64   `json:"message_thread_id"`
	InTopic   bool    `json:"is_topic_message"`
	From      *person `json:"from"`
	As        *chat   `json:"sender_chat"` // in whose name From writes
	Via       *person `json:"via_bot"`
	Forwarded bool    `json:"is_automatic_forward"`
	Chat      chat    `json:"chat"`
	Date      int64   `json:"date"`
	EditDate  int64   `json:"edit_date"`

	Text            string   `json:"text"`
	Entities        []entity `json:"entities"`
	Caption         string   `json:"caption"`
	CaptionEntities []entity `json:"caption_entities"`
	ReplyTo         *replied `json:"reply_to_message"`
	Album           string   `json:"media_group_id"`

	MovedTo   int64 `json:"migrate_to_chat_id"`
	MovedFrom int64 `json:"migrate_from_chat_id"`

	spoken
	shown
}

// spoken is what can be said instead of written.
type spoken struct {
	Voice     *recording `json:"voice"`
	Audio     *recording `json:"audio"`
	VideoNote something  `json:"video_note"`
}

// recording is a file that holds speech or other sound.
type recording struct {
	File    string `json:"file_id"`
	Seconds int64  `json:"duration"`
	Bytes   int64  `json:"file_size"` // 0: not known
}

// recording is the one that may be heard, nil if there is none.
func (s spoken) recording() *recording {
	for _, r := range []*recording{s.Voice, s.Audio} {
		if r != nil && r.File != "" {
			return r
		}
	}
	return nil
}

// shown is what can be sent instead of words; here it matters only that it is
// there.

type shown struct {
	Photo     something `json:"photo"`
	Sticker   something `json:"sticker"`
	Video     something `json:"video"`
	Animation something `json:"animation"`
	Document  something `json:"document"`
	Location  something `json:"location"`
	Contact   something `json:"contact"`
	Poll      something `json:"poll"`
	Dice      something `json:"dice"`
	Game      something `json:"game"`
	Story     something `json:"story"`
	Venue     something `json:"venue"`
	PaidMedia something `json:"paid_media"`
	Invoice   something `json:"invoice"`
	Checklist something `json:"checklist"`
	Giveaway  something `json:"giveaway"`
}

// something is true for any JSON value but null.
type something bool

func (s *something) UnmarshalJSON(raw []byte) error {
	*s = string(raw) != "null"
	return nil
}

type replied struct {
	ID   int64   `json:"message_id"`
	From *person `json:"from"`
	spoken
}

type person struct {
	ID       int64  `json:"id"`
	IsBot    bool   `json:"is_bot"`
	Username string `json:"username"`
	Name     string `json:"first_name"`
	Language string `json:"language_code"`
}

type chat struct {
	ID   int64  `json:"id"`
	Type string `json:"type"`
	Name string `json:"title"`
}

// entity is a marked stretch of a text, counted in UTF-16 units.
type entity struct {
	Type   string  `json:"type"`
	Offset int     `json:"offset"`
	Length int     `json:"length"`
	User   *person `json:"user"` // of a text_mention
}

// button is one that was pressed.
type button struct {
	ID      string   `json:"id"`
	From    *person  `json:"from"`
	Message *message `json:"message"` // that it stands under
	Data    string   `json:"data"`
}

// inline is what somebody types behind our name, in any chat.
type inline struct {
	ID    string  `json:"id"`
	From  *person `json:"from"`
	Query string  `json:"query"`
}

type membership struct {
	Chat chat `json:"chat"`
	New  struct {
		Status string `json:"status"`
	} `json:"new_chat_member"`
}

// decode reads one update by itself. It always returns the number, if there is any
// to be read; bad is why the update can't be handled.
func decode(raw json.RawMessage) (u update, number int64, bad error) {
	bad = json.Unmarshal(raw, &u)
	switch {
	case bad != nil:
		return u, numberIn(raw), bad
	case u.ID == 0:
		return u, 0, errors.New("no update_id")
	}
	return u, u.ID, u.check()
}

// numberIn is the number of an update of which something else can't be read, 0 if
// that can't be either.
func numberIn(raw json.RawMessage) int64 {
	var numbered struct {
		ID int64 `json:"update_id"`
	}
	if json.Unmarshal(raw, &numbered) != nil {
		return 0
	}
	return numbered.ID
}

// check finds what no message can be without.
func (u *update) check() error {
	for _, m := range []*message{u.Message, u.Edited} {
		if m != nil && (m.Chat.ID == 0 || m.ID == 0) {
			return fmt.Errorf("message %d of chat %d", m.ID, m.Chat.ID)
		}
	}
	return nil
}

// words is the text of a message, or the caption under what it shows.
func (m *message) words() (string, []entity) {
	if m.Text == "" {
		return m.Caption, m.CaptionEntities
	}
	return m.Text, m.Entities
}

// sender names who asks. Those who write in the name of a chat share its name:
// who they are is hidden, and From is the same for all of them.
func (m *message) sender() string {
	switch {
	case m.As != nil:
		return strconv.FormatInt(m.As.ID, 10)
	case m.From != nil:
		return strconv.FormatInt(m.From.ID, 10)
	}
	return strconv.FormatInt(m.Chat.ID, 10)
}

// name is what the others in the chat call them, as far as is known.
func (m *message) name() string {
	switch {
	case m.As != nil:
		return plainName(m.As.Name)
	case m.From != nil:
		return plainName(m.From.Name)
	}
	return ""
}

// longestName is how many letters of a name are used, as many as one may have by the
// Bot API.
const longestName = 64

// plainName is a name on one line without what is no letter of it: those who choose
// it may turn around, by a mark that can't be seen, all that stands behind it.
func plainName(name string) string {
	letters := strings.FieldsFunc(name, unicode.IsSpace)
	for i, word := range letters {
		letters[i] = strings.Map(func(r rune) rune {
			if unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co) || r == unicode.ReplacementChar {
				return -1
			}
			return r
		}, word)
	}
	plain := []rune(strings.Join(strings.Fields(strings.Join(letters, " ")), " "))
	return strings.TrimSpace(string(plain[:min(len(plain), longestName)]))
}

// when the words were written.
func (m *message) when() time.Time { return time.Unix(max(m.Date, m.EditDate), 0) }

func (m *message) private() bool { return m.Chat.Type == "private" }

// speaks is the code of the language that somebody's Telegram speaks.
func (p *person) speaks() string {
	if p == nil {
		return ""
	}
	return p.Language
}

// saidIn is the recording that a message asks to be heard: its own, or that of
// the message which it replies to with nothing but our name. Who calls has seen
// that the message is for us.
func (m *message) saidIn() *recording {
	if own := m.recording(); own != nil || m.ReplyTo == nil {
		return own
	}
	if text, _ := m.words(); text == "" {
		return nil
	}
	return m.ReplyTo.recording()
}

// longestData is what a button can carry, in bytes.
const longestData = 64

// A button under an answer carries whose it is and what pressing it says, so that it works
// after any restart and needs nothing kept: "dj5:explain 12".

func dataOf(user, says string) string {
	number, err := strconv.ParseInt(user, 10, 64)
	if err != nil {
		return ""
	}
	data := strconv.FormatInt(number, 36) + ":" + says
	if len(data) > longestData {
		return ""
	}
	return data
}

// read takes a button's data apart. It is false if the data isn't ours; nobody
// says that a phone sends what it was given.
func (b *button) read() (user, says string, ok bool) {
	name, says, ok := strings.Cut(b.Data, ":")
	number, err := strconv.ParseInt(name, 36, 64)
	if !ok || err != nil || says == "" || b.From == nil || b.Message == nil {
		return "", "", false
	}
	return strconv.FormatInt(number, 10), says, true
}
