// Package loopback is a Bot API server that runs inside a test.
//
// It keeps the behavior that a bot can be broken by: an update is forgotten as
// soon as getUpdates is called with a higher offset and not before; an offset
// far beyond the last update is ignored, since numbers may fall after a week
// of silence; a second poller ends the first with 409; a text has 4096 UTF-16
// units at most and a button 64 bytes of data; a group that became a
// supergroup refuses with its new number. What the real server refuses is
// refused here in its words.
//
// Where a webhook is set it calls, several chats at once and each chat in its
// order, until the call is answered with a status of 200 to 299.
//
// Faults can be planted (see Fault): too many requests, a gateway's HTML page,
// a silence, half a response. Every call is kept and can be read with Calls.
//
// # Caveats
//
// Of the many methods it has the handful that dogleg calls. It sets no limit
// on how fast messages are sent; plant TooMany where that matters. Nobody is
// behind it: users speak by Say and Push.
package loopback

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"time"
)

// Token is one that looks real, so that a search for leaked ones finds it.
const Token = "4214214214:AAJuniperStreetLoopbackTokenForTests"

// The bot that the server knows.
const (
	BotID   = 4214214214
	BotName = "dogleg_loopback_bot"
)

// Server is one Bot API server on the loopback interface. New makes one.
type Server struct {
	http *httptest.Server
	gone chan struct{} // closed with the server; ends what hangs

	mu       sync.Mutex
	changed  chan struct{} // closed and renewed whenever anything happens
	updates  inbox
	chats    map[int64]*room
	callback map[string]bool   // queries that can still be answered, those of buttons and the inline ones
	admins   map[[2]int64]bool // of a chat
	files    map[string][]byte
	presses  int
	caller   *http.Client // makes the calls of a webhook
	faults   []*Fault
	calls    []Call
	strict   bool
}

// Call is one request as it came in, and how it was answered.
type Call struct {
	Method string
	Params map[string]string // of a file, its name
	Files  map[string][]byte // that were uploaded, by parameter
	At     time.Time
	Status int    // HTTP status answered, 0 if none was
	Error  string // the description, where it was refused

	Message int64 // the message that came of it
}

// String is the call as it is read in the report of a test: of its files only how
// large they are.
func (c Call) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n%s %s", c.At.Format("15:04:05.000"), c.Method)
	for _, name := range slices.Sorted(maps.Keys(c.Params)) {
		if file, sent := c.Files[name]; sent {
			fmt.Fprintf(&b, " %s=%s(%d bytes)", name, c.Params[name], len(file))
		} else {
			fmt.Fprintf(&b, " %s=%q", name, c.Params[name])
		}
	}
	fmt.Fprintf(&b, ": %d %s", c.Status, c.Error)
	return b.String()
}

// New starts a server with an empty queue.
func New() *Server {
	s := &Server{
		gone:     make(chan struct{}),
		changed:  make(chan struct{}),
		updates:  inbox{next: 1},
		chats:    map[int64]*room{},
		callback: map[string]bool{},
		admins:   map[[2]int64]bool{},
		files:    map[string][]byte{},
		caller:   &http.Client{Timeout: callTakes},
	}
	s.http = httptest.NewServer(http.HandlerFunc(s.serve))
	return s
}

// Close ends the server and every call that still waits.
func (s *Server) Close() {
	close(s.gone)
	s.http.Close()
}

// Base is what stands before /bot<token>/<method>.
func (s *Server) Base() string { return s.http.URL }

// Strict turns on the penalty for polling the same offset again too soon.
func (s *Server) Strict() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.strict = true
}

// Calls returns every call of a method so far, or of all with "".
func (s *Server) Calls(method string) []Call {
	s.mu.Lock()
	defer s.mu.Unlock()
	var found []Call
	for _, c := range s.calls {
		if method == "" || c.Method == method {
			found = append(found, c)
		}
	}
	return found
}

// Await waits until the condition holds and says whether it came to hold in
// time. It looks whenever something happened here, and now and then for what
// happens elsewhere.
func (s *Server) Await(within time.Duration, condition func() bool) bool {
	timer := time.NewTimer(within)
	defer timer.Stop()
	elsewhere := time.NewTicker(5 * time.Millisecond)
	defer elsewhere.Stop()
	for {
		s.mu.Lock()
		changed := s.changed
		s.mu.Unlock()
		if condition() {
			return true
		}
		select {
		case <-changed:
		case <-elsewhere.C:
		case <-timer.C:
			return condition()
		}
	}
}

// stir wakes all who wait for something to happen. The lock is held.
func (s *Server) stir() {
	close(s.changed)
	s.changed = make(chan struct{})
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request) {
	if path, ok := strings.CutPrefix(r.URL.Path, "/file/bot"+Token+"/"); ok {
		s.serveFile(w, r, path)
		return
	}
	token, method, _ := strings.Cut(strings.TrimPrefix(r.URL.Path, "/bot"), "/")
	call := Call{Method: method, At: time.Now()}
	whole := false
	if call.Params, call.Files, whole = params(r); !whole {
		s.record(call, 0, "broken off by the caller")
		return
	}
	if token != Token {
		s.respond(w, call, refused(401, "Unauthorized"))
		return
	}
	fault := s.fault(call)
	if !fault.before(s, w, r, call) {
		return
	}
	result := s.dispatch(r, call)
	if !fault.after(s, w, r, call) {
		return
	}
	s.respond(w, call, result)
}

// params reads what a call brings, as a form or, with files, in several parts. It is
// not whole where the caller went away while it came in.
func params(r *http.Request) (flat map[string]string, files map[string][]byte, whole bool) {
	flat = map[string]string{}
	if err := r.ParseMultipartForm(largestFile); err != nil && !errors.Is(err, http.ErrNotMultipart) {
		return flat, nil, false
	}
	for name := range r.Form {
		flat[name] = r.Form.Get(name)
	}
	if r.MultipartForm == nil {
		return flat, nil, true
	}
	files = map[string][]byte{}
	for name, uploaded := range r.MultipartForm.File {
		file, err := uploaded[0].Open()
		if err != nil {
			continue
		}
		files[name], _ = io.ReadAll(file) // it is in memory or on our own disk
		flat[name] = uploaded[0].Filename
		file.Close()
	}
	return flat, files, true
}

// outcome is what a method made: a result, or a refusal.
type outcome struct {
	result      any
	code        int // 0 where it worked
	description string
	parameters  map[string]any
}

func refused(code int, description string) outcome {
	return outcome{code: code, description: description}
}

func (s *Server) dispatch(r *http.Request, c Call) outcome {
	switch c.Method {
	case "getMe":
		return outcome{result: map[string]any{
			"id": int64(BotID), "is_bot": true, "first_name": "dogleg", "username": BotName,
			"can_join_groups": true, "can_read_all_group_messages": false,
		}}
	case "getUpdates":
		return s.getUpdates(r.Context(), c)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	switch c.Method {
	case "sendMessage":
		return s.sendMessage(c.Params)
	case "sendDocument", "sendPhoto", "sendVoice":
		return s.sendFile(c)
	case "getChatMember":
		return s.getChatMember(c.Params)
	case "answerInlineQuery":
		return s.answerInlineQuery(c.Params)
	case "editMessageText":
		return s.editMessageText(c.Params)
	case "sendChatAction":
		return outcome{result: true}
	case "getFile":
		return s.getFile(c.Params)
	case "setWebhook":
		return s.setWebhook(c.Params)
	case "deleteWebhook":
		return s.deleteWebhook()
	case "setMyCommands":
		return setMyCommands(c.Params)
	case "answerCallbackQuery":
		return s.answerCallbackQuery(c.Params)
	}
	return refused(404, "Not Found: method not found")
}

func (s *Server) respond(w http.ResponseWriter, c Call, o outcome) {
	body := map[string]any{"ok": o.code == 0}
	status := http.StatusOK
	if o.code == 0 {
		body["result"] = o.result
		if message, ok := o.result.(map[string]any); ok {
			c.Message, _ = message["message_id"].(int64)
		}
	} else {
		status = o.code
		body["error_code"], body["description"] = o.code, o.description
		if o.parameters != nil {
			body["parameters"] = o.parameters
		}
	}
	s.record(c, status, o.description)
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(body)
}

// record keeps the call; before the response goes out, so that whoever has the
// response finds its call.
func (s *Server) record(c Call, status int, description string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	c.Status, c.Error = status, description
	s.calls = append(s.calls, c)
	s.stir()
}
