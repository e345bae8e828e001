package loopback

import (
	"encoding/json"
	"fmt"
	"maps"
	"strconv"
	"time"
)

// What the server allows.
const (
	longestText     = 4096 // UTF-16 units, after entities are taken out
	longestCaption  = 1024
	longestCallback = 64  // bytes
	mostButtons     = 100 // of one message
)

// room is one chat: its messages by number, and what has become of it.
type room struct {
	messages map[int64]string
	markup   map[int64]string // their keyboards
	last     int64
	topics   map[int64]bool
	files    map[int64]bool // messages that are files
	movedTo  int64
	blocked  bool
}

// Say has a user write a text. A positive chat is a private one, whose user
// has the same number; a negative one a group, where user 501 writes. It
// returns the message's number.
func (s *Server) Say(chat int64, text string) int64 {
	return s.Post(chat, map[string]any{"text": text})
}

// Post has a user write a message of any fields; message_id, date, from and
// chat are filled in where they are missing. It returns the message's number.
func (s *Server) Post(chat int64, fields map[string]any) int64 {
	message := s.complete(chat, fields)
	s.Push("message", message)
	return message["message_id"].(int64)
}

// Edit has a user change a message that was posted before.
func (s *Server) Edit(chat, message int64, text string) {
	s.Push("edited_message", s.complete(chat, map[string]any{
		"message_id": message, "text": text, "edit_date": time.Now().Unix(),
	}))
}

func (s *Server) complete(chat int64, fields map[string]any) map[string]any {
	s.mu.Lock()
	defer s.mu.Unlock()
	kind, from := kindOf(chat), chat
	if chat < 0 {
		from = 501
	}
	message := map[string]any{
		"date": time.Now().Unix(),
		"from": map[string]any{"id": from, "is_bot": false, "first_name": "Ada"},
		"chat": map[string]any{"id": chat, "type": kind},
	}
	maps.Copy(message, fields)
	if _, known := message["message_id"]; !known {
		text, _ := message["text"].(string)
		message["message_id"] = s.room(chat).add(text)
	}
	return message
}

// Topics makes a chat a forum with these threads.
func (s *Server) Topics(chat int64, threads ...int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, id := range threads {
		s.room(chat).topics[id] = true
	}
}

// Migrate makes a group a supergroup of another number.
func (s *Server) Migrate(from, to int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.room(from).movedTo = to
}

// Block has the user of a chat block the bot.
func (s *Server) Block(chat int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.room(chat).blocked = true
}

// Forget deletes a message, so that nobody can reply to it or edit it.
func (s *Server) Forget(chat, message int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.room(chat).messages, message)
}

// Last is the number of the last message in a chat.
func (s *Server) Last(chat int64) int64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.room(chat).last
}

func (s *Server) room(chat int64) *room {
	r := s.chats[chat]
	if r == nil {
		r = &room{messages: map[int64]string{}, markup: map[int64]string{}, topics: map[int64]bool{}, files: map[int64]bool{}}
		s.chats[chat] = r
	}
	return r
}

func (r *room) add(text string) int64 {
	r.last++
	r.messages[r.last] = text
	return r.last
}

// open finds the chat, or says why nothing can be written there.
func (s *Server) open(p map[string]string) (int64, *room, *outcome) {
	chat, err := strconv.ParseInt(p["chat_id"], 10, 64)
	if err != nil || chat == 0 {
		o := refused(400, "Bad Request: chat not found")
		return 0, nil, &o
	}
	r := s.room(chat)
	if r.movedTo != 0 {
		o := refused(400, "Bad Request: group chat was upgraded to a supergroup chat")
		o.parameters = map[string]any{"migrate_to_chat_id": r.movedTo}
		return 0, nil, &o
	}
	if r.blocked {
		o := refused(403, "Forbidden: bot was blocked by the user")
		return 0, nil, &o
	}
	return chat, r, nil
}

func (s *Server) sendMessage(p map[string]string) outcome {
	chat, r, refusal := s.open(p)
	if refusal != nil {
		return *refusal
	}
	for _, check := range []func(*room, map[string]string) string{checkText, checkThread, checkReply, checkKeyboard} {
		if problem := check(r, p); problem != "" {
			return refused(400, "Bad Request: "+problem)
		}
	}
	id := r.add(p["text"])
	r.markup[id] = p["reply_markup"]
	return outcome{result: s.written(chat, id, p)}
}

func (s *Server) editMessageText(p map[string]string) outcome {
	chat, r, refusal := s.open(p)
	if refusal != nil {
		return *refusal
	}
	id, _ := strconv.ParseInt(p["message_id"], 10, 64)
	before, known := r.messages[id]
	if !known {
		return refused(400, "Bad Request: message to edit not found")
	}
	if r.files[id] {
		return refused(400, "Bad Request: there is no text in the message to edit")
	}
	for _, check := range []func(*room, map[string]string) string{checkText, checkKeyboard} {
		if problem := check(r, p); problem != "" {
			return refused(400, "Bad Request: "+problem)
		}
	}
	if before == p["text"] && r.markup[id] == p["reply_markup"] {
		return refused(400, "Bad Request: message is not modified: specified new message content and reply markup are exactly the same as a current content and reply markup of the message")
	}
	r.messages[id], r.markup[id] = p["text"], p["reply_markup"] // an edit without a keyboard takes it away
	return outcome{result: s.written(chat, id, p)}
}

func (s *Server) written(chat, id int64, p map[string]string) map[string]any {
	return map[string]any{
		"message_id": id, "date": time.Now().Unix(), "text": p["text"],
		"from": map[string]any{"id": int64(BotID), "is_bot": true, "username": BotName},
		"chat": map[string]any{"id": chat},
	}
}

func checkText(_ *room, p map[string]string) string {
	units, problem := unitsIn(p, "text")
	switch {
	case problem != "":
		return problem
	case units == 0:
		return "message text is empty"
	case units > longestText:
		return "message is too long"
	}
	return ""
}

func checkCaption(_ *room, p map[string]string) string {
	units, problem := unitsIn(p, "caption")
	if problem == "" && units > longestCaption {
		return "message caption is too long"
	}
	return problem
}

// unitsIn counts the UTF-16 units of a text without its markup, or says what is
// wrong with the markup.
func unitsIn(p map[string]string, field string) (units int, problem string) {
	text := p[field]
	if p["parse_mode"] == "HTML" {
		if text, problem = plainOf(text); problem != "" {
			return 0, "can't parse entities: " + problem
		}
	}
	return unitsOf(text), ""
}

func checkThread(r *room, p map[string]string) string {
	thread, err := strconv.ParseInt(p["message_thread_id"], 10, 64)
	if err == nil && !r.topics[thread] {
		return "message thread not found"
	}
	return ""
}

func checkReply(r *room, p map[string]string) string {
	if p["reply_parameters"] == "" {
		return ""
	}
	var reply struct {
		Message int64 `json:"message_id"`
		Anyway  bool  `json:"allow_sending_without_reply"`
	}
	if err := json.Unmarshal([]byte(p["reply_parameters"]), &reply); err != nil {
		return "can't parse reply parameters JSON object"
	}
	if _, known := r.messages[reply.Message]; !known && !reply.Anyway {
		return "message to be replied not found"
	}
	return ""
}

func checkKeyboard(_ *room, p map[string]string) string {
	if p["reply_markup"] == "" {
		return ""
	}
	var markup struct {
		Rows [][]struct {
			Data string `json:"callback_data"`
		} `json:"inline_keyboard"`
	}
	if err := json.Unmarshal([]byte(p["reply_markup"]), &markup); err != nil {
		return "can't parse reply keyboard markup JSON object"
	}
	buttons := 0
	for _, row := range markup.Rows {
		for _, button := range row {
			if buttons++; buttons > mostButtons {
				return "reply markup is too long"
			}
			if len(button.Data) > longestCallback {
				return "BUTTON_DATA_INVALID"
			}
		}
	}
	return ""
}

func (s *Server) answerCallbackQuery(p map[string]string) outcome {
	if !s.callback[p["callback_query_id"]] {
		return refused(400, "Bad Request: query is too old and response timeout expired or query ID is invalid")
	}
	delete(s.callback, p["callback_query_id"])
	return outcome{result: true}
}

// Admin makes a user an admin of a chat.
func (s *Server) Admin(chat, user int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.admins[[2]int64{chat, user}] = true
}

func (s *Server) getChatMember(p map[string]string) outcome {
	chat, _ := strconv.ParseInt(p["chat_id"], 10, 64)
	user, err := strconv.ParseInt(p["user_id"], 10, 64)
	if err != nil {
		return refused(400, "Bad Request: user not found")
	}
	status := "member"
	if s.admins[[2]int64{chat, user}] {
		status = "administrator"
	}
	return outcome{result: map[string]any{"status": status, "user": map[string]any{"id": user, "is_bot": false, "first_name": "Ada"}}}
}

func kindOf(chat int64) string {
	if chat < 0 {
		return "supergroup"
	}
	return "private"
}

// Inline has a user type behind the bot's name in some chat.
func (s *Server) Inline(user int64, text string) {
	s.mu.Lock()
	s.presses++
	query := fmt.Sprintf("inline-%d", s.presses)
	s.mu.Unlock()
	s.Push("inline_query", map[string]any{
		"id": query, "from": map[string]any{"id": user, "is_bot": false, "first_name": "Ada"}, "query": text, "offset": "",
	})
}

func (s *Server) answerInlineQuery(p map[string]string) outcome {
	if !s.callback[p["inline_query_id"]] {
		return refused(400, "Bad Request: query is too old and response timeout expired or query ID is invalid")
	}
	delete(s.callback, p["inline_query_id"])
	var results []struct{ ID string }
	if err := json.Unmarshal([]byte(p["results"]), &results); err != nil || len(results) > 50 {
		return refused(400, "Bad Request: can't parse inline query results")
	}
	return outcome{result: true}
}

func setMyCommands(p map[string]string) outcome {
	var commands []struct{ Command, Description string }
	if err := json.Unmarshal([]byte(p["commands"]), &commands); err != nil || len(commands) > 100 {
		return refused(400, "Bad Request: can't parse list of bot commands")
	}
	for _, c := range commands {
		if !commandName.MatchString(c.Command) {
			return refused(400, "Bad Request: BOT_COMMAND_INVALID")
		}
		if c.Description == "" || len(c.Description) > 256 {
			return refused(400, "Bad Request: BOT_COMMAND_DESCRIPTION_INVALID")
		}
	}
	return outcome{result: true}
}
