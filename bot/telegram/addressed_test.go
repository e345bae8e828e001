package telegram_test

import (
	"fmt"
	"maps"
	"strings"
	"testing"
	"unicode/utf16"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

type fields = map[string]any

// mention is the entity of a name in a text.
func mention(text, name string) []fields {
	before := utf16.Encode([]rune(text[:strings.Index(text, name)]))
	return []fields{{"type": "mention", "offset": len(before), "length": len(name)}}
}

const us = "@" + loopback.BotName

// In a group it speaks only to those who speak to it.
func TestGroups(t *testing.T) {
	ada := fields{"id": 501, "is_bot": false}
	ours := fields{"message_id": 3, "from": fields{"id": int64(loopback.BotID), "is_bot": true}}
	named := func(text string) fields { return fields{"text": text, "entities": mention(text, us)} }
	with := func(m fields, more fields) fields {
		maps.Copy(m, more)
		return m
	}
	for name, c := range map[string]struct {
		message fields
		asked   string // "" where it must keep silent
	}{
		"talk among themselves": {fields{"text": "12 set 45s 1-1/2 pvc"}, ""},
		"named first":           {named(us + " 12 set 45s"), "12 set 45s"},
		"named last":            {named("12 set 45s " + us), "12 set 45s"},
		"named behind surrogates": {
			named("🔧🔧 12 set " + us), "🔧🔧 12 set",
		},
		"named in capitals": {fields{
			"text":     "@DOGLEG_Loopback_Bot 12 set",
			"entities": []fields{{"type": "mention", "offset": 0, "length": 20}},
		}, "12 set"},
		"only named":                      {named(us), "help"},
		"another whose name begins alike": {fields{"text": us + "2 12 set", "entities": mention(us+"2", us+"2")}, ""},
		"our name without an entity":      {fields{"text": "mail me at " + us + ".example"}, ""},
		"named by number": {fields{
			"text":     "Dog 12 set",
			"entities": []fields{{"type": "text_mention", "offset": 0, "length": 3, "user": fields{"id": int64(loopback.BotID)}}},
		}, "12 set"},
		"another named by number": {fields{
			"text":     "Dog 12 set",
			"entities": []fields{{"type": "text_mention", "offset": 0, "length": 3, "user": fields{"id": 77}}},
		}, ""},
		"reply to us":                  {fields{"text": "same but 14", "reply_to_message": ours}, "same but 14"},
		"reply to somebody":            {fields{"text": "same but 14", "reply_to_message": fields{"message_id": 3, "from": ada}}, ""},
		"command to us":                {fields{"text": "/explain" + us}, "explain"},
		"command to us, in capitals":   {fields{"text": "/Explain@Dogleg_Loopback_Bot last"}, "explain last"},
		"command to another":           {fields{"text": "/explain@another_bot"}, ""},
		"command to another, replying": {fields{"text": "/explain@another_bot", "reply_to_message": ours}, ""},
		"bare command of ours":         {fields{"text": "/jobs"}, "jobs"},
		"bare command of somebody":     {fields{"text": "/weather"}, ""},
		"unknown command to us":        {fields{"text": "/draw_it" + us + " big"}, "draw it big"},
		"start from a link":            {fields{"text": "/start" + us + " c29tZXRoaW5n"}, "start"},
		"behind a no-break space":      {fields{"text": "/explain\u00a0last"}, "explain last"},
		"a fraction is no command":     {fields{"text": "/4 of an inch"}, ""},
		"caption that names us":        {fields{"photo": []fields{{}}, "caption": us + " 12 set", "caption_entities": mention(us, us)}, "12 set"},
		"another bot":                  {with(named(us+" 12 set"), fields{"from": fields{"id": 78, "is_bot": true}}), ""},
		"another bot, replying":        {fields{"text": "Cut 12", "reply_to_message": ours, "from": fields{"id": 78, "is_bot": true}}, ""},
		"ourselves":                    {with(named(us+" 12 set"), fields{"from": fields{"id": int64(loopback.BotID), "is_bot": true}}), ""},
		"by way of a bot":              {with(named(us+" 12 set"), fields{"via_bot": fields{"id": int64(loopback.BotID), "is_bot": true}}), ""},
		"forwarded by the channel":     {with(named(us+" 12 set"), fields{"is_automatic_forward": true}), ""},
		"one who hides behind the group": {
			with(named(us+" 12 set"), fields{"from": fields{"id": 1087968824, "is_bot": true}, "sender_chat": fields{"id": -40}}), "12 set",
		},
		"somebody joins":     {fields{"new_chat_members": []fields{ada}}, ""},
		"message in a topic": {fields{"text": "12 set", "message_thread_id": 3, "is_topic_message": true, "reply_to_message": ours}, ""},
		"reply to us in a topic": {fields{
			"text": "12 set", "message_thread_id": 2, "is_topic_message": true, "reply_to_message": ours,
		}, "12 set"},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			j.api.Topics(-40, 2, 3)
			j.api.Post(-40, c.message)
			j.start()
			j.settle()
			var asked []string
			for _, q := range j.memory.questions() {
				asked = append(asked, q.Text)
			}
			switch {
			case c.asked == "" && len(asked)+len(j.api.Calls(send)) > 0:
				t.Errorf("spoke although nobody spoke to it: asked %q", asked)
			case c.asked != "" && (len(asked) != 1 || asked[0] != c.asked):
				t.Errorf("asked %q, want %q", asked, c.asked)
			case c.asked != "":
				j.says(-40, "heard "+c.asked)
			}
		})
	}
}

// In a group the answer is a reply, in the topic only where there is one: a
// thread of replies has a message_thread_id too, and it is not to be sent.
func TestAnswersWhereItWasAsked(t *testing.T) {
	for name, c := range map[string]struct {
		chat   int64
		more   fields
		thread string
		reply  bool
	}{
		"private":           {chat: 12},
		"group":             {chat: -40, reply: true},
		"topic":             {chat: -40, more: fields{"message_thread_id": 7, "is_topic_message": true}, thread: "7", reply: true},
		"thread of replies": {chat: -40, more: fields{"message_thread_id": 7}, reply: true},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			j.api.Topics(-40, 7)
			message := fields{"text": "/jobs"}
			maps.Copy(message, c.more)
			question := j.api.Post(c.chat, message)
			j.start()
			j.says(c.chat, "heard jobs")
			sent := j.api.Calls(send)[0].Params
			if sent["message_thread_id"] != c.thread {
				t.Errorf("sent to thread %q, want %q", sent["message_thread_id"], c.thread)
			}
			reply := ""
			if c.reply {
				reply = fmt.Sprintf(`{"message_id":%d,"allow_sending_without_reply":true}`, question)
			}
			if sent["reply_parameters"] != reply {
				t.Errorf("sent as a reply to %q, want %q", sent["reply_parameters"], reply)
			}
		})
	}
}

// What a person keeps in a group is theirs, and of those who hide behind the
// group's name it is the group's.
func TestWhoAsks(t *testing.T) {
	j := newJob(t)
	j.api.Post(-40, fields{"text": "/jobs", "from": fields{"id": 501, "first_name": "Dana"}})
	j.api.Post(-40, fields{"text": "/jobs", "from": fields{"id": 502}})
	j.api.Post(-40, fields{"text": "/jobs", "from": fields{"id": 1087968824, "is_bot": true}, "sender_chat": fields{"id": -40, "title": "Juniper Street"}})
	j.start()
	j.settle()
	var users []string
	for _, q := range j.memory.questions() {
		users = append(users, q.User+" "+q.Name)
	}
	if got := fmt.Sprint(users); got != "[501 Dana 502  -40 Juniper Street]" {
		t.Errorf("asked by %s", got)
	}
}

func TestWhatIsNoText(t *testing.T) {
	const (
		cantListen = "I can't listen to recordings here. Type it the way you'd say it: 12 set 45s 1-1/2 pvc"
		cantSee    = "I only read words. Type what the tape says: 12 set 45s 1-1/2 pvc"
	)
	for name, c := range map[string]struct {
		message fields
		want    string // "" is silence
	}{
		"voice":                {fields{"voice": fields{"file_id": "x", "duration": 3}}, cantListen},
		"video note":           {fields{"video_note": fields{}}, cantListen},
		"photo":                {fields{"photo": []fields{{"file_id": "x"}}}, cantSee},
		"sticker":              {fields{"sticker": fields{"emoji": "🔧"}}, cantSee},
		"location":             {fields{"location": fields{"latitude": 1.5}}, cantSee},
		"photo with words":     {fields{"photo": []fields{{}}, "caption": "12 set 45s"}, "heard 12 set 45s"},
		"voice with words":     {fields{"voice": fields{}, "caption": "12 set 45s"}, "heard 12 set 45s"},
		"one of an album":      {fields{"photo": []fields{{}}, "media_group_id": "77"}, cantSee},
		"a pinned message":     {fields{"pinned_message": fields{}}, ""},
		"a timer that was set": {fields{"message_auto_delete_timer_changed": fields{}}, ""},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJob(t)
			j.api.Post(12, c.message)
			j.start()
			j.settle()
			if c.want == "" {
				j.says(12)
			} else {
				j.says(12, c.want)
			}
		})
	}
}

// A photo in a group that nobody meant for the bot is none of its business;
// nor is the place where somebody is, each time it changes.
func TestWhatIsNoTextAndNotForUs(t *testing.T) {
	j := newJob(t)
	j.api.Post(-40, fields{"photo": []fields{{}}})
	j.api.Push("edited_message", fields{
		"message_id": 5, "date": 1, "chat": fields{"id": 12, "type": "private"}, "location": fields{"latitude": 1.5},
	})
	j.api.Push("my_chat_member", fields{"chat": fields{"id": -40}, "new_chat_member": fields{"status": "member"}})
	j.start()
	j.settle()
	if calls := j.api.Calls(send); len(calls) != 0 {
		t.Errorf("spoke: %+v", calls)
	}
}

func TestNothingToSayIsNotSent(t *testing.T) {
	j := newJob(t)
	j.memory.answer = func(telegram.Question) string { return " \n" }
	j.api.Say(12, "12 set 45s")
	j.start()
	j.settle()
	if calls := j.api.Calls(send); len(calls) != 0 {
		t.Errorf("sent: %+v", calls)
	}
}

// A name is one line, and no mark in it turns around what stands behind it.
func TestNamesAreOneLineOfLetters(t *testing.T) {
	j := newJob(t)
	j.start()
	names := map[string]string{
		"Dana": "Dana", "Da\u202ena\u2066": "Dana", "Dana\nCut 9 in": "Dana Cut 9 in", "  Ada\t\r\n Lu  ": "Ada Lu", "\u200f\u200b\u2028": "",
		"José Ñandú": "José Ñandú", "张伟": "张伟", strings.Repeat("x", 500): strings.Repeat("x", 64), "a\x00b\u0085c": "ab c",
	}
	var order []string
	for name := range names {
		order = append(order, name)
		j.api.Post(12, fields{"text": "12 set 45s", "from": fields{"id": 12, "is_bot": false, "first_name": name}})
	}
	j.settle()
	for i, q := range j.memory.questions() {
		if q.Name != names[order[i]] {
			t.Errorf("%q is called %q, want %q", order[i], q.Name, names[order[i]])
		}
	}
	if n := len(j.memory.questions()); n != len(names) {
		t.Errorf("%d asked", n)
	}
}
