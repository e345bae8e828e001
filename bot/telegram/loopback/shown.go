package loopback

import (
	"encoding/json"
	"fmt"
)

// What the server takes of a file that is sent up.
const (
	largestPhoto    = 10 << 20
	largestDocument = 50 << 20
)

// Button is a button under a message.
type Button struct {
	Label string `json:"text"`
	Data  string `json:"callback_data"`
}

// Shown is a message as those in the chat see it now: its text, with whatever
// markup it was sent, and its buttons; nothing if it isn't there.
func (s *Server) Shown(chat, message int64) (text string, buttons []Button) {
	s.mu.Lock()
	defer s.mu.Unlock()
	r := s.room(chat)
	var markup struct {
		Rows [][]Button `json:"inline_keyboard"`
	}
	_ = json.Unmarshal([]byte(r.markup[message]), &markup) // it was checked when it came
	for _, row := range markup.Rows {
		buttons = append(buttons, row...)
	}
	return r.messages[message], buttons
}

// WithButtons are the messages of a chat that have buttons, by their numbers.
func (s *Server) WithButtons(chat int64) []int64 {
	var found []int64
	s.mu.Lock()
	last := s.room(chat).last
	s.mu.Unlock()
	for id := range last {
		if _, buttons := s.Shown(chat, id+1); len(buttons) > 0 {
			found = append(found, id+1)
		}
	}
	return found
}

// Press has a user press a button under a message of the bot's.
func (s *Server) Press(chat, message int64, from map[string]any, query, data string) {
	s.Push("callback_query", map[string]any{
		"id": query, "from": from, "chat_instance": "1", "data": data,
		"message": map[string]any{
			"message_id": message, "date": 1, "chat": map[string]any{"id": chat, "type": kindOf(chat)},
			"from": map[string]any{"id": int64(BotID), "is_bot": true, "username": BotName},
		},
	})
}

// uploads are the methods that send a file: its field, and how large it may be.
var uploads = map[string]struct {
	field   string
	largest int
}{
	"sendPhoto":    {"photo", largestPhoto},
	"sendDocument": {"document", largestDocument},
	"sendVoice":    {"voice", largestDocument},
}

func (s *Server) sendFile(c Call) outcome {
	chat, r, refusal := s.open(c.Params)
	if refusal != nil {
		return *refusal
	}
	upload := uploads[c.Method]
	_, known := s.files[c.Params[upload.field]] // sent by its name
	switch size := len(c.Files[upload.field]); {
	case known:
	case size == 0:
		return refused(400, "Bad Request: file must be non-empty")
	case size > upload.largest:
		return refused(400, "Bad Request: file is too big")
	}
	for _, check := range []func(*room, map[string]string) string{checkCaption, checkThread, checkReply, checkKeyboard} {
		if problem := check(r, c.Params); problem != "" {
			return refused(400, "Bad Request: "+problem)
		}
	}
	id := r.add(c.Params["caption"])
	r.markup[id], r.files[id] = c.Params["reply_markup"], true
	message := s.written(chat, id, c.Params)
	if c.Method == "sendVoice" {
		file := c.Params["voice"]
		if !known {
			file = fmt.Sprintf("voice %d", len(s.files))
			s.files[file] = c.Files["voice"]
		}
		message["voice"] = map[string]any{"file_id": file, "file_unique_id": file, "duration": 1}
	}
	return outcome{result: message}
}
