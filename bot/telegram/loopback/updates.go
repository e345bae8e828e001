package loopback

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"time"
)

// longestPoll is where the server clamps the timeout of getUpdates.
const longestPoll = 50 * time.Second

// inbox is the queue of updates that are not confirmed yet.
type inbox struct {
	waiting []waiting
	next    int64    // number of the next update
	allowed []string // nil: never set, so all but the three that must be asked for
	webhook bool
	hook    *hook

	rival  chan struct{} // of the poll that waits: closed when another begins
	offset int64         // of the last poll, and when it was
	polled time.Time
}

type waiting struct {
	id  int64
	raw json.RawMessage
}

// Number makes the next update have this number. After a week of silence the
// real server takes any, lower ones too.
func (s *Server) Number(id int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.updates.next = id
}

// Webhook says whether a webhook is set, which makes every poll a 409.
func (s *Server) Webhook(set bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.updates.webhook = set
}

// Push queues an update of a kind ("message", "callback_query", …), unless the
// bot has said that it doesn't want that kind, and returns its number.
func (s *Server) Push(kind string, content any) int64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	if query, ok := content.(map[string]any); ok && (kind == "callback_query" || kind == "inline_query") {
		s.callback[fmt.Sprint(query["id"])] = true
	}
	id := s.updates.next
	raw, err := json.Marshal(map[string]any{"update_id": id, kind: content})
	if err != nil {
		panic(err) // a test that can't be written
	}
	s.updates.next++
	if s.updates.wants(kind) {
		s.updates.waiting = append(s.updates.waiting, waiting{id, raw})
		s.stir()
	}
	return id
}

// PushRaw queues an update as it stands, broken or not, behind a good number:
// content is what follows the update_id.
func (s *Server) PushRaw(content string) int64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	id := s.updates.next
	s.updates.next++
	raw := fmt.Sprintf(`{"update_id":%d,%s}`, id, content)
	s.updates.waiting = append(s.updates.waiting, waiting{id, json.RawMessage(raw)})
	s.stir()
	return id
}

// Redeliver queues again, under their old numbers, updates that the server
// sends although the bot has seen them.
func (s *Server) Redeliver(raws ...json.RawMessage) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, raw := range raws {
		var numbered struct {
			ID int64 `json:"update_id"`
		}
		if err := json.Unmarshal(raw, &numbered); err != nil {
			panic(err)
		}
		s.updates.waiting = append(s.updates.waiting, waiting{numbered.ID, raw})
	}
	s.stir()
}

// Drop takes out of the queue what is not confirmed, for a test to put it back
// in another order.
func (s *Server) Drop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.updates.waiting = nil
}

// Unconfirmed returns the updates that the bot has not confirmed.
func (s *Server) Unconfirmed() []json.RawMessage {
	s.mu.Lock()
	defer s.mu.Unlock()
	var raws []json.RawMessage
	for _, w := range s.updates.waiting {
		raws = append(raws, w.raw)
	}
	return raws
}

// wants says whether the bot asked for updates of this kind.
func (in *inbox) wants(kind string) bool {
	if len(in.allowed) == 0 {
		return kind != "chat_member" && kind != "message_reaction" && kind != "message_reaction_count"
	}
	return slices.Contains(in.allowed, kind)
}

func (s *Server) getUpdates(ctx context.Context, c Call) outcome {
	offset, _ := strconv.ParseInt(c.Params["offset"], 10, 64)
	limit, err := strconv.Atoi(c.Params["limit"])
	if err != nil || limit < 1 || limit > 100 {
		limit = 100
	}
	seconds, _ := strconv.Atoi(c.Params["timeout"])
	timeout := min(time.Duration(seconds)*time.Second, longestPoll)

	rival, refusal := s.beginPoll(c.Params["allowed_updates"], offset, &limit, &timeout)
	if refusal != nil {
		return *refusal
	}
	deadline := time.NewTimer(timeout)
	defer deadline.Stop()
	for {
		batch, changed := s.batch(limit)
		if len(batch) > 0 {
			return outcome{result: batch}
		}
		select {
		case <-changed:
		case <-deadline.C:
			return outcome{result: batch}
		case <-rival:
			return refused(409, "Conflict: terminated by other getUpdates request; make sure that only one bot instance is running")
		case <-ctx.Done():
			return outcome{result: batch}
		case <-s.gone:
			return outcome{result: batch}
		}
	}
}

// beginPoll confirms what lies before the offset and ends the poll that waits.
func (s *Server) beginPoll(allowed string, offset int64, limit *int, timeout *time.Duration) (<-chan struct{}, *outcome) {
	s.mu.Lock()
	defer s.mu.Unlock()
	in := &s.updates
	if in.webhook {
		o := refused(409, "Conflict: can't use getUpdates method while webhook is active; use deleteWebhook to delete the webhook first")
		return nil, &o
	}
	if allowed != "" && allowed != "null" {
		_ = json.Unmarshal([]byte(allowed), &in.allowed)
	}
	if s.strict {
		in.penalty(offset, limit, timeout)
	}
	in.offset, in.polled = offset, time.Now()
	in.confirm(offset)
	if in.rival != nil {
		close(in.rival)
	}
	in.rival = make(chan struct{})
	s.stir() // something may have been confirmed
	return in.rival, nil
}

// penalty slows down who polls the same offset again within moments.
func (in *inbox) penalty(offset int64, limit *int, timeout *time.Duration) {
	since := time.Since(in.polled)
	if offset != in.offset || in.polled.IsZero() {
		return
	}
	if since < 3*time.Second {
		*timeout = max(*timeout, 3*time.Second)
	}
	if since < 500*time.Millisecond {
		*limit = 1
	}
}

// confirm forgets what lies before the offset. A negative one counts from the
// end; one more than ten beyond the end is from another sequence and ignored.
func (in *inbox) confirm(offset int64) {
	if offset < 0 {
		keep := min(int(-offset), len(in.waiting))
		in.waiting = in.waiting[len(in.waiting)-keep:]
		return
	}
	if offset > in.next+10 {
		return
	}
	in.waiting = slices.DeleteFunc(in.waiting, func(w waiting) bool { return w.id < offset })
}

func (s *Server) batch(limit int) ([]json.RawMessage, <-chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	batch := []json.RawMessage{}
	for _, w := range s.updates.waiting[:min(limit, len(s.updates.waiting))] {
		batch = append(batch, w.raw)
	}
	return batch, s.changed
}
