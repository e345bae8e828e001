package telegram

import (
	"encoding/json"
	"testing"
	"unicode/utf8"

	"dogleg/bot/telegram/wire"
)

// FuzzUpdate: whatever the server sends as an update, its number is found if it
// has one, and of one that is taken for sound everything can be asked.
func FuzzUpdate(f *testing.F) {
	for _, raw := range []string{
		`{"update_id":7,"message":{"message_id":1,"date":1,"from":{"id":12,"first_name":"Ada"},"chat":{"id":12,"type":"private"},"text":"12 set 45s"}}`,
		`{"update_id":7,"message":{"message_id":1,"chat":{"id":-12,"type":"supergroup"},"text":"/ask@dogleg_bot 12 set","entities":[{"type":"bot_command","offset":0,"length":15}]}}`,
		`{"update_id":7,"message":{"message_id":1,"chat":{"id":-12},"text":"@dogleg_bot","entities":[{"type":"mention","offset":-5,"length":9999999999}]}}`,
		`{"update_id":7,"edited_message":{"message_id":1,"edit_date":9223372036854775807,"chat":{"id":12},"voice":{"file_id":"x","duration":-1,"file_size":1e3}}}`,
		`{"update_id":7,"message":{"message_id":1,"chat":{"id":12},"reply_to_message":{"message_id":1,"from":null,"voice":null}}}`,
		`{"update_id":7,"callback_query":{"id":"1","from":{"id":1},"data":"jobs 3","message":{"message_id":3,"chat":{"id":1}}}}`,
		`{"update_id":7,"callback_query":{"id":"1","from":{"id":1},"data":"zz:metric on","message":{"message_id":3,"chat":{"id":1}}}}`,
		`{"update_id":7,"callback_query":{"id":"1","from":{"id":1},"data":"9999999999999999999:","message":null}}`,
		`{"update_id":7,"inline_query":{"id":"1","from":{"id":1},"query":"12 set 45s","offset":"x"}}`,
		`{"update_id":7,"callback_query":{"id":1e400,"data":"` + "\u202e" + `"}}`,
		`{"update_id":7,"my_chat_member":{"chat":{"id":1},"new_chat_member":{"status":"kicked"}}}`,
		`{"update_id":1e308}`, `{"update_id":-0}`, `{"update_id":"7"}`, `{"update_id":9223372036854775808}`, `[]`, `null`, ``, `{`, "\x00",
		`{"update_id":7,"message":[[[[[[[[`, `{"update_id":7,"message":{"migrate_to_chat_id":-0.5}}`,
	} {
		f.Add([]byte(raw))
	}
	self := wire.Account{ID: 4214214214, Username: "dogleg_bot"}
	f.Fuzz(func(t *testing.T, raw []byte) {
		r := receive(raw)
		var numbered struct {
			ID int64 `json:"update_id"`
		}
		if json.Unmarshal(raw, &numbered) == nil && r.id != numbered.ID {
			t.Errorf("number %d, want %d", r.id, numbered.ID)
		}
		if r.bad != nil {
			return
		}
		if b := r.update.Button; b != nil {
			user, says, ours := b.Read()
			if ours && (user == "" || says == "" || b.From == nil || b.Message == nil) {
				t.Errorf("a button of %q that says %q", user, says)
			}
		}
		for _, m := range []*wire.Message{r.update.Message, r.update.Edited} {
			if m == nil {
				continue
			}
			if m.Chat.ID == 0 || m.ID == 0 {
				t.Error("a message without a place")
			}
			words, _ := self.Heard(m)
			if !utf8.ValidString(words) {
				t.Errorf("heard %q", words)
			}
			newBudgets(realBudget).admit(m)
			if m.Sender() == "" {
				t.Error("nobody asks")
			}
			m.SaidIn()
			if text := tooManyMessages.in(m.From.Speaks()); text == "" {
				t.Error("no notice")
			}
		}
	})
}
