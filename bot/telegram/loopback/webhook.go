package loopback

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"time"
)

// The behavior of a webhook's calls. The real server lets more time pass with
// every failure.
const (
	callTakes = 60 * time.Second // when a call is given up
	mostCalls = 40               // at once, as the real server's default
	callAgain = 20 * time.Millisecond
)

// hook is where updates go instead of waiting for a poll.
type hook struct {
	url, secret string
	gone        chan struct{}
	calling     map[int64]bool // chats with a call under way
}

// CallThrough makes the webhook's calls go through this client, which may know
// a certificate authority of the test's own.
func (s *Server) CallThrough(client *http.Client) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.caller = client
}

var secretShape = regexp.MustCompile(`^[A-Za-z0-9_-]{0,256}$`)

// setWebhook refuses what the real server refuses: an address without TLS, a
// secret of other letters. A port that it would refuse is taken.
func (s *Server) setWebhook(p map[string]string) outcome {
	u, err := url.Parse(p["url"])
	switch {
	case err != nil || u.Scheme != "https" || u.Host == "":
		return refused(400, "Bad Request: bad webhook: An HTTPS URL must be provided for webhook")
	case !secretShape.MatchString(p["secret_token"]):
		return refused(400, "Bad Request: secret token contains unallowed characters")
	}
	_ = json.Unmarshal([]byte(p["allowed_updates"]), &s.updates.allowed)
	s.unhook()
	s.updates.webhook = true
	s.updates.hook = &hook{p["url"], p["secret_token"], make(chan struct{}), map[int64]bool{}}
	go s.call(s.updates.hook)
	return outcome{result: true}
}

func (s *Server) deleteWebhook() outcome {
	s.unhook()
	s.updates.webhook = false
	return outcome{result: true}
}

// unhook ends the calls of the webhook that was set. The lock is held.
func (s *Server) unhook() {
	if s.updates.hook != nil {
		close(s.updates.hook.gone)
		s.updates.hook = nil
	}
}

// call makes the calls of a webhook until it is taken away.
func (s *Server) call(h *hook) {
	for {
		next, changed := s.nextCall(h)
		if next != nil {
			go s.deliver(h, *next)
			continue
		}
		select {
		case <-changed:
		case <-h.gone:
			return
		case <-s.gone:
			return
		}
	}
}

// nextCall is the first update of a chat that no call is under way for.
func (s *Server) nextCall(h *hook) (*waiting, <-chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	i := slices.IndexFunc(s.updates.waiting, func(w waiting) bool { return !h.calling[chatIn(w.raw)] })
	if i < 0 || len(h.calling) == mostCalls || s.updates.hook != h {
		return nil, s.changed
	}
	next := s.updates.waiting[i]
	h.calling[chatIn(next.raw)] = true
	return &next, s.changed
}

// chatIn is the chat of an update's message, 0 where it has none.
func chatIn(raw json.RawMessage) int64 {
	var u struct {
		Message struct {
			Chat struct {
				ID int64 `json:"id"`
			} `json:"chat"`
		} `json:"message"`
	}
	_ = json.Unmarshal(raw, &u)
	return u.Message.Chat.ID
}

// deliver makes one call, and forgets the update if it was answered well.
func (s *Server) deliver(h *hook, w waiting) {
	taken := s.post(h, w.raw)
	if !taken {
		time.Sleep(callAgain)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(h.calling, chatIn(w.raw))
	if taken {
		s.updates.waiting = slices.DeleteFunc(s.updates.waiting, func(other waiting) bool { return other.id == w.id })
	}
	s.stir()
}

func (s *Server) post(h *hook, raw json.RawMessage) bool {
	request, err := http.NewRequest(http.MethodPost, h.url, bytes.NewReader(raw))
	if err != nil {
		return false
	}
	request.Header.Set("Content-Type", "application/json")
	request.Header.Set("X-Telegram-Bot-Api-Secret-Token", h.secret)
	s.mu.Lock()
	caller := s.caller
	s.mu.Unlock()
	response, err := caller.Do(request)
	if err != nil {
		return false
	}
	defer response.Body.Close()
	return response.StatusCode/100 == 2
}
