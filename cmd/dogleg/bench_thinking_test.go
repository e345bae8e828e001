package main

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"dogleg/bot"
	"dogleg/bot/figure"
	"dogleg/bot/wording"
	"dogleg/parser"
	"dogleg/parser/asks"

	tg "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

// BenchmarkThinking answers every message of the corpus, from its text to the
// words of the reply, and decodes with encoding/json the update that would carry
// it: less than that no bot can do that reads messages at all.
func BenchmarkThinking(b *testing.B) {
	messages := corpus(b)
	b.Run("reply", func(b *testing.B) {
		thinking(b, "thinking", messages, reply, "5 × and 20 ×; 64 KB")
	})
	b.Run("conversation", func(b *testing.B) {
		var conversation bot.Conversation
		thinking(b, "with all that is kept of it", messages, func(text string) {
			conversation.Handle(bot.Message{Text: text, When: time.Unix(1764080000, 0)}, new(bot.Forgetful))
		}, "")
	})
}

// thinking compares what answering each message takes with decoding its update.
// What one takes is the median of all rounds, which a busy machine moves little.
func thinking(b *testing.B, what string, messages []carried, answer func(string), aim string) {
	answers, decodes := make([][]time.Duration, len(messages)), make([][]time.Duration, len(messages))
	for b.Loop() {
		for i, m := range messages {
			decodes[i] = append(decodes[i], timed(func() { decode(b, m.update) }))
			answers[i] = append(answers[i], timed(func() { answer(m.text) }))
		}
	}
	var ratios []float64
	var bytes []int
	var ours, floor []time.Duration
	for i, m := range messages {
		ours, floor = append(ours, middle(answers[i])), append(floor, middle(decodes[i]))
		ratios = append(ratios, float64(ours[i])/float64(floor[i]))
		bytes = append(bytes, allocated(func() { answer(m.text) }))
	}
	median, rare, most := share(ratios, 0.5), share(ratios, 0.99), share(bytes, 0.99)
	b.ReportMetric(median, "decodes/median")
	b.ReportMetric(rare, "decodes/p99")
	b.ReportMetric(float64(share(bytes, 0.5)), "B/median")
	b.ReportMetric(float64(most), "B/p99")
	found(finding{
		what + ", median; p99", fmt.Sprintf("%s; %s", brief(middle(ours)), brief(share(ours, 0.99))), "decode " + brief(middle(floor)),
		fmt.Sprintf("%.1f ×; %.1f × (%d KB; %d KB)", median, rare, share(bytes, 0.5)>>10, most>>10), aim,
	})
}

// reply words the answer to a message, or why there is none.
func reply(text string) {
	var options wording.Options
	for _, s := range parser.Parse(text) {
		switch {
		case s.Misunderstanding != nil:
			wording.Refusal(s.Misunderstanding, options)
		case s.Ask != nil:
			answer, err := figure.Solve(*s.Ask, figure.Settings{})
			if err != nil {
				wording.Refusal(err, options)
				continue
			}
			wording.Reply(answer, options)
		}
	}
}

// carried is a message with the update that brings it.
type carried struct {
	text   string
	update []byte
}

func corpus(tb testing.TB) []carried {
	tb.Helper()
	all, err := asks.Read(filepath.Join(root, "testdata", "asks", "*.txt"))
	if err != nil {
		tb.Fatal(err)
	}
	var messages []carried
	for _, m := range all {
		messages = append(messages, carried{m.Text, update(tb, m.Text)})
	}
	return messages
}

// update is one as Telegram sends it: a private message, with all the fields
// that such a one has.
func update(tb testing.TB, text string) []byte {
	said, err := json.Marshal(text)
	if err != nil {
		tb.Fatal(err)
	}
	return fmt.Appendf(nil, `{"update_id":727334708,"message":{"message_id":4212,`+
		`"from":{"id":5550123,"is_bot":false,"first_name":"Juniper","last_name":"Street","username":"juniper_street","language_code":"en"},`+
		`"chat":{"id":5550123,"first_name":"Juniper","last_name":"Street","username":"juniper_street","type":"private"},`+
		`"date":1764080000,"text":%s}}`, said)
}

func decode(tb testing.TB, raw []byte) {
	var u tg.Update
	if err := json.Unmarshal(raw, &u); err != nil {
		tb.Fatal(err)
	}
}

func timed(do func()) time.Duration {
	began := time.Now()
	do()
	return time.Since(began)
}

// allocated is how many bytes something allocates.
func allocated(do func()) int {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return int(after.TotalAlloc - before.TotalAlloc)
}
