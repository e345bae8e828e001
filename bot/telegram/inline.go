package telegram

import (
	"context"
	"strings"
	"unicode/utf8"

	"dogleg/bot/telegram/wire"
)

// offer is what is to be offered for an inline query, once the transaction is
// over.
type offer struct {
	query  string
	answer Answer
}

// typeIt is the hint to somebody who has typed nothing yet.
const typeIt = "Type it here: 12 set 45s 1-1/2 pvc"

// look figures what somebody types behind our name, and keeps nothing of it:
// with every letter they type there is another.
func (s *service) look(tx Tx, r *received, q *wire.Inline, w *work) error {
	if q.From == nil || q.From.IsBot {
		return nil
	}
	if !s.metered(r, func() admission { return s.budgets.admitLook(q.From.ID, s.Now()) }) {
		return nil
	}
	o := offer{query: q.ID}
	if strings.TrimSpace(q.Query) != "" {
		var err error
		asker := wire.Message{From: q.From}
		o.answer, err = tx.Glance(Question{Chat: q.From.ID, User: asker.Sender(), Text: q.Query, When: s.Now()})
		if err != nil {
			return err
		}
	}
	w.offers = append(w.offers, o)
	return nil
}

// offer shows a card, or the hint that says what is lacking.
func (s *service) offer(ctx context.Context, o offer) {
	s.toasts.Go(func() {
		cards, more := o.cards()
		if err := s.client.AnswerInline(ctx, o.query, cards, more); err != nil {
			s.Log.Debug("an inline query was answered too late", "error", err)
		}
	})
}

// cards are what is offered. Only an answer with something to press under it is
// one that can be sent on: of a refusal the first line is the hint.
func (o offer) cards() ([]wire.Card, *wire.Hint) {
	first, rest, _ := strings.Cut(o.answer.Text, "\n")
	if len(o.answer.Buttons) == 0 || len(wire.Split(o.answer.Text, wire.LongestPart)) > 1 {
		if first == "" {
			first = typeIt
		}
		return []wire.Card{}, &wire.Hint{Text: shortened(first, longestHint), Start: "help"}
	}
	second, _, _ := strings.Cut(rest, "\n")
	return []wire.Card{{
		Type: "article", ID: "1", Title: first, About: second,
		Content: wire.Content{Text: wire.Formatted(o.answer.Text), Mode: "HTML"},
	}}, nil
}

// longestHint is the longest text of a hint, in letters.
const longestHint = 64

func shortened(text string, most int) string {
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return string([]rune(text)[:most-1]) + "…"
}
