package wire

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// Update is one update as far as we look at it. Fields of the Bot API that are
// not here are not read, so nothing in them can do harm.
type Update struct {
	ID       int64       `json:"update_id"`
	Message  *Message    `json:"message"`
	Edited   *Message    `json:"edited_message"`
	Button   *Button     `json:"callback_query"`
	Inline   *Inline     `json:"inline_query"`
	Standing *membership `json:"my_chat_member"`
}

// Message is one that somebody wrote, said or showed, or one of ours that is
// referred to.
type Message struct {
	ID        int64   `json:"message_id"`
	Thread    int64   `json:"message_thread_id"`
	InTopic   bool    `json:"is_topic_message"`
	From      *Person `json:"from"`
	As        *Chat   `json:"sender_chat"` // in whose name From writes
	Via       *Person `json:"via_bot"`
	Forwarded bool    `json:"is_automatic_forward"`
	Chat      Chat    `json:"chat"`
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

	Spoken
	Shown
}

// Spoken is what can be said instead of written.
type Spoken struct {
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
func (s Spoken) recording() *recording {
	for _, r := range []*recording{s.Voice, s.Audio} {
		if r != nil && r.File != "" {
			return r
		}
	}
	return nil
}

// Shown is what can be sent instead of words; here it matters only that it is
// there.
type Shown struct {
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
	From *Person `json:"from"`
	Spoken
}

// Person is somebody with an account, be it a bot.
type Person struct {
	ID       int64  `json:"id"`
	IsBot    bool   `json:"is_bot"`
	Username string `json:"username"`
	Name     string `json:"first_name"`
	Language string `json:"language_code"`
}

// Chat is where messages are.
type Chat struct {
	ID   int64  `json:"id"`
	Type string `json:"type"`
	Name string `json:"title"`
}

// entity is a marked stretch of a text, counted in UTF-16 units.
type entity struct {
	Type   string  `json:"type"`
	Offset int     `json:"offset"`
	Length int     `json:"length"`
	User   *Person `json:"user"` // of a text_mention
}

// Button is one that was pressed.
type Button struct {
	ID      string   `json:"id"`
	From    *Person  `json:"from"`
	Message *Message `json:"message"` // that it stands under
	Data    string   `json:"data"`
}

// Inline is what somebody types behind our name, in any chat.
type Inline struct {
	ID    string  `json:"id"`
	From  *Person `json:"from"`
	Query string  `json:"query"`
}

type membership struct {
	Chat Chat `json:"chat"`
	New  struct {
		Status string `json:"status"`
	} `json:"new_chat_member"`
}

// Decode reads one update by itself. It always returns the number, if there is any
// to be read; bad is why the update can't be handled.
func Decode(raw json.RawMessage) (u Update, number int64, bad error) {
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
func (u *Update) check() error {
	for _, m := range []*Message{u.Message, u.Edited} {
		if m != nil && (m.Chat.ID == 0 || m.ID == 0) {
			return fmt.Errorf("message %d of chat %d", m.ID, m.Chat.ID)
		}
	}
	return nil
}

// Words is the text of a message, or the caption under what it shows.
func (m *Message) Words() (string, []entity) {
	if m.Text == "" {
		return m.Caption, m.CaptionEntities
	}
	return m.Text, m.Entities
}

// Sender names who asks. Those who write in the name of a chat share its name:
// who they are is hidden, and From is the same for all of them.
func (m *Message) Sender() string {
	switch {
	case m.As != nil:
		return strconv.FormatInt(m.As.ID, 10)
	case m.From != nil:
		return strconv.FormatInt(m.From.ID, 10)
	}
	return strconv.FormatInt(m.Chat.ID, 10)
}

// Name is what the others in the chat call them, as far as is known.
func (m *Message) Name() string {
	switch {
	case m.As != nil:
		return PlainName(m.As.Name)
	case m.From != nil:
		return PlainName(m.From.Name)
	}
	return ""
}

// longestName is how many letters of a name are used, as many as one may have by the
// Bot API.
const longestName = 64

// PlainName is a name on one line without what is no letter of it: those who choose
// it may turn around, by a mark that can't be seen, all that stands behind it.
func PlainName(name string) string {
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

// When the words were written.
func (m *Message) When() time.Time { return time.Unix(max(m.Date, m.EditDate), 0) }

// Private says whether the chat is one person's with the bot.
func (m *Message) Private() bool { return m.Chat.Type == "private" }

// Speaks is the code of the language that somebody's Telegram speaks.
func (p *Person) Speaks() string {
	if p == nil {
		return ""
	}
	return p.Language
}

// SaidIn is the recording that a message asks to be heard: its own, or that of
// the message which it replies to with nothing but our name. Who calls has seen
// that the message is for us.
func (m *Message) SaidIn() *recording {
	if own := m.recording(); own != nil || m.ReplyTo == nil {
		return own
	}
	if text, _ := m.Words(); text == "" {
		return nil
	}
	return m.ReplyTo.recording()
}

// longestData is what a button can carry, in bytes.
const longestData = 64

// DataOf is what a button under an answer carries: whose it is and what pressing it
// says, so that it works after any restart and needs nothing kept: "dj5:explain 12".
// It is empty where that is too long for a button.
func DataOf(user, says string) string {
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

// Read takes a button's data apart. It is false if the data isn't ours; nobody
// says that a phone sends what it was given.
func (b *Button) Read() (user, says string, ok bool) {
	name, says, ok := strings.Cut(b.Data, ":")
	number, err := strconv.ParseInt(name, 36, 64)
	if !ok || err != nil || says == "" || b.From == nil || b.Message == nil {
		return "", "", false
	}
	return strconv.FormatInt(number, 10), says, true
}
