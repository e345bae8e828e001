package serve

import (
	"fmt"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/telegram"
	"dogleg/store"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// personal are messages that concern nobody but the one who sends them, in a
// group too.
var personal = []string{
	"set 15 45s 2 in pvc", "12 set 45s 2 abs", "roll 9 rise 12 45s 2 copper", "9 set", "2 abs", "same but 14", "with 22s",
	"takeoff is 1-1/8", "takeoff 2 abs 45 is 1-1/8", "takeoff 2 pvc 45 is 1-1/4 the grey ones", "takeoffs", "export takeoffs",
	"forget takeoff 1", "jobs", "jobs pvc", "explain", "explain 1", "call it laundry", "undo", "cautions", "metric on",
	"spanish", "english", "handbook two", "exact", "forget me", "no", "cancel", "help", "16-15/16 - 3", "in what room?",
	"takeoff for a 2 inch pvc 45", "dry fit is 10-3/8, should be 10, 45s", "bring me a coffee",
}

// alone are more of them for who is alone with the bot: in a group the cut list
// and the problems are everyone's, and data is not handed over.
var alone = append([]string{
	"export my data", "add", "add laundry", "list", "done 1", "sticks", "export", "clear list", "practice", "21-3/16", "skip", "score",
	"crew takeoff 2 abs 45 is 1-1/4",
}, personal...)

// TestEachIsApart has people talk to one bot, alone and in a group, in any order,
// and has each of them, in each chat, say the same to a bot that knows nobody
// else. All that is answered, words, pictures and files, is the same to the byte:
// nothing of one is ever in the other's.
func TestEachIsApart(t *testing.T) {
	db, err := store.Open(filepath.Join(t.TempDir(), "dogleg.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	shared := Memory{DB: db, Conversation: &bot.Conversation{Seed: 7}}
	morning := time.Date(2026, time.November, 3, 7, 30, 0, 0, time.UTC)
	crews := int64(0)
	rapid.Check(t, func(t *rapid.T) {
		crews++ // other people each time
		type place struct{ chat, user int64 }
		own := map[place]*bot.Forgetful{}
		for n := range rapid.IntRange(2, 25).Draw(t, "messages") {
			user := crews*10 + rapid.Int64Range(1, 2).Draw(t, "user")
			at, text := place{-crews, user}, rapid.SampledFrom(personal).Draw(t, "text")
			if rapid.Bool().Draw(t, "private") {
				at.chat, text = user, rapid.SampledFrom(alone).Draw(t, "text alone")
			}
			if own[at] == nil {
				own[at] = new(bot.Forgetful)
			}
			q := telegram.Question{
				Chat: at.chat, User: strconv.FormatInt(user, 10), Name: fmt.Sprint("user", user),
				When: morning.Add(time.Duration(n) * time.Minute), Text: text,
			}
			want, got := answerAlone(q, own[at]), answerAmong(t, shared, q)
			if diff := cmp.Diff(want, got); diff != "" {
				t.Fatalf("%d in %d said %q (-alone +among others):\n%s", user, at.chat, text, diff)
			}
		}
	})
}

// answerAlone is what a bot answers that has only ever talked with one person.
func answerAlone(q telegram.Question, kept *bot.Forgetful) telegram.Answer {
	m := bot.Message{Text: q.Text, When: q.When, From: q.Name}
	if q.Chat < 0 {
		m.Group = new(bot.Forgetful)
	}
	c := bot.Conversation{Seed: 7}
	return AnswerOf(c.Handle(m, kept))
}

func answerAmong(t *rapid.T, m Memory, q telegram.Question) (a telegram.Answer) {
	t.Helper()
	err := m.Update(func(tx telegram.Tx) (err error) {
		a, err = tx.Answer(q)
		return err
	})
	if err != nil {
		t.Fatalf("%q: %v", q.Text, err)
	}
	return a
}
