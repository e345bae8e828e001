//go:build emulation

package telegram_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
)

// emulationFolder holds the server that other people wrote, and gets the calls
// that their types are to be held against.
const emulationFolder = "../../.ci/emulation"

// TestEmulatedTelegram has a talk with the real program, by way of a Telegram
// that other people emulate. It has no idea of ours in it, but neither edits
// a user's message nor takes files nor fails; those calls are made against our
// own server.
func TestEmulatedTelegram(t *testing.T) {
	e := startEmulation(t)
	startProgram(t, e.proxy.URL)

	e.say("/sendMessage", "12 set 45s 1-1/2 pvc", nil)
	first := e.answer(1)
	e.say("/sendMessage", "same but 14", nil)
	second := e.answer(2)
	e.say("/sendCommand", "/explain", []fields{{"type": "bot_command", "offset": 0, "length": 8}})
	third := e.answer(3)
	e.say("/sendMessage", "what the <b> is & this", nil)
	fourth := e.answer(4)
	e.press(1, "v1:gone")
	e.checkButton(4)
	e.checkCaption(5)
	e.checkTopic(6)

	for n, text := range []string{first, second} {
		if !strings.HasPrefix(text, "<b>Cut ") {
			t.Errorf("answer %d doesn't begin with the cut in bold: %q", n+1, text)
		}
	}
	if !strings.Contains(first, "Set 12") || !strings.Contains(second, "Set 14") {
		t.Errorf("the follow-up did not change the set from 12 to 14: %q, then %q", first, second)
	}
	if !strings.Contains(third, "14") || strings.HasPrefix(third, "<b>Cut ") {
		t.Errorf("the explanation is %q", third)
	}
	if strings.Contains(strings.TrimPrefix(fourth, "<b>"), "<b> is &") {
		t.Errorf("not escaped: %q", fourth)
	}

	calls := append(e.recorded(), callsOnLoopback(t)...)
	checkCalls(t, calls)
	writeTypeScript(t, calls)
}

// emulation is the emulated server and a proxy before it that keeps what the
// bot calls.
type emulation struct {
	*testing.T
	server string
	proxy  *httptest.Server

	mu    sync.Mutex
	calls []loopback.Call
}

func startEmulation(t *testing.T) *emulation {
	port := freePort(t)
	node := exec.Command("node", "start.js", port)
	node.Dir = emulationFolder
	node.Stderr = os.Stderr
	out, err := node.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := node.Start(); err != nil {
		t.Fatalf("node: %v (bash .ci/emulation/run installs what it needs)", err)
	}
	t.Cleanup(func() { _ = node.Process.Kill(); _ = node.Wait() })
	if line, err := bufio.NewReader(out).ReadString('\n'); err != nil || line != "up\n" {
		t.Fatalf("the emulated server says %q: %v", line, err)
	}
	e := &emulation{T: t, server: "http://127.0.0.1:" + port}
	address, err := url.Parse(e.server)
	if err != nil {
		t.Fatal(err)
	}
	forward := httputil.NewSingleHostReverseProxy(address)
	e.proxy = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		e.record(r)
		forward.ServeHTTP(w, r)
	}))
	t.Cleanup(e.proxy.Close)
	return e
}

func freePort(t *testing.T) string {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	_, port, _ := net.SplitHostPort(listener.Addr().String())
	return port
}

func (e *emulation) record(r *http.Request) {
	body, _ := io.ReadAll(r.Body)
	r.Body = io.NopCloser(bytes.NewReader(body))
	call := loopback.Call{Method: r.URL.Path[strings.LastIndexByte(r.URL.Path, '/')+1:], Params: map[string]string{}}
	if values, err := url.ParseQuery(string(body)); err == nil {
		for name := range values {
			call.Params[name] = values.Get(name)
		}
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	e.calls = append(e.calls, call)
}

func (e *emulation) recorded() []loopback.Call {
	e.mu.Lock()
	defer e.mu.Unlock()
	return slices.Clone(e.calls)
}

// startProgram builds and starts the real dogleg, and at the end stops it as a
// service manager would.
func startProgram(t *testing.T, base string) {
	folder := t.TempDir()
	program := filepath.Join(folder, "dogleg")
	if out, err := exec.Command("go", "build", "-o", program, "dogleg/cmd/dogleg").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	serve := exec.Command(program, "serve", "--db", filepath.Join(folder, "juniper.db"))
	serve.Env = append(os.Environ(), "DOGLEG_TOKEN="+loopback.Token, "DOGLEG_API_ENDPOINT="+base)
	var log bytes.Buffer
	serve.Stdout, serve.Stderr = &log, &log
	if err := serve.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = serve.Process.Signal(syscall.SIGTERM)
		if err := serve.Wait(); err != nil {
			t.Errorf("serve: %v", err)
		}
		checkNoToken(t, log.String())
		if t.Failed() {
			t.Log(log.String())
		}
	})
}

// say has a user write a text, in the form that the emulation takes.
func (e *emulation) say(path, text string, entities []fields) {
	message := e.common()
	message["text"] = text
	if entities != nil {
		message["entities"] = entities
	}
	e.post(path, message)
}

// checkButton presses a button under the first answer; so many came before.
func (e *emulation) checkButton(before int) {
	e.Helper()
	first := e.sent()[0]
	for _, row := range first.Message.Markup.Rows {
		for _, key := range row {
			if key.Text == "Steps" {
				e.press(first.ID, key.Data)
				if text := e.answer(before + 1); !strings.Contains(text, "1.414") {
					e.Errorf("the steps of a set of 12 with 45s don't have the factor √2: %q", text)
				}
				return
			}
		}
	}
	e.Errorf("no button for the steps under %+v", first)
}

// checkCaption sends a picture with words below it, which are asked as any.
func (e *emulation) checkCaption(before int) {
	e.Helper()
	picture := e.common()
	picture["photo"], picture["caption"] = []fields{{"file_id": "wall"}}, "set 9 45s 1-1/2 pvc"
	e.post("/sendMessage", picture)
	if text := e.answer(before + 1); !strings.Contains(text, "Set 9") {
		e.Errorf("the caption is answered %q", text)
	}
}

// checkTopic asks in a topic of a crew's group: once unaddressed and once by
// another bot, which are left alone, and once by name.
func (e *emulation) checkTopic(before int) {
	e.Helper()
	const text = "@TestNameBot set 15 45s 1-1/2 pvc"
	in := e.common()
	in["chat"] = fields{"id": -40, "type": "supergroup", "title": "Juniper Street", "is_forum": true}
	in["message_thread_id"], in["is_topic_message"] = 7, true
	in["text"] = "set 16 45s 1-1/2 pvc"
	e.post("/sendMessage", in)
	in["text"], in["entities"] = text, mention(text, "@TestNameBot")
	in["from"] = fields{"id": 13, "first_name": "Weather", "is_bot": true}
	e.post("/sendMessage", in)
	in["from"] = fields{"id": 12, "first_name": "Ada", "is_bot": false}
	e.post("/sendMessage", in)
	if answer := e.answer(before + 1); !strings.Contains(answer, "Set 15") {
		e.Errorf("in a topic it says %q", answer)
	}
	if m := e.sent()[before].Message; m.ChatID != "-40" || m.Thread != "7" || m.Reply == nil {
		e.Errorf("answered elsewhere: %+v", m)
	}
	if n := len(e.sent()); n != before+1 {
		e.Errorf("%d messages, want %d", n, before+1)
	}
}

// press has a user press a button under a message, and waits until it is let go.
func (e *emulation) press(message int, data string) {
	before := e.letGo()
	query := e.common()
	query["message"], query["data"] = fields{"chat": query["chat"], "message_id": message}, data
	e.post("/sendCallback", query)
	e.await("the button to be let go", func() bool { return e.letGo() > before })
}

// letGo is how many buttons were let go.
func (e *emulation) letGo() (n int) {
	for _, c := range e.recorded() {
		if c.Method == "answerCallbackQuery" {
			n++
		}
	}
	return n
}

func (e *emulation) common() fields {
	return fields{
		"botToken": loopback.Token, "date": time.Now().Unix(),
		"from": fields{"id": 12, "first_name": "Ada", "is_bot": false},
		"chat": fields{"id": 12, "type": "private"},
	}
}

func (e *emulation) post(path string, content fields) {
	e.Helper()
	body, err := json.Marshal(content)
	if err != nil {
		e.Fatal(err)
	}
	response, err := http.Post(e.server+path, "application/json", bytes.NewReader(body))
	if err != nil {
		e.Fatal(err)
	}
	response.Body.Close()
	if response.StatusCode != http.StatusOK {
		e.Fatalf("%s: %s", path, response.Status)
	}
}

// answer waits for the bot's nth message, as the emulation has it.
func (e *emulation) answer(n int) string {
	e.Helper()
	var messages []sent
	e.await(fmt.Sprintf("answer %d", n), func() bool {
		messages = e.sent()
		return len(messages) >= n
	})
	return messages[n-1].Message.Text
}

// sent is a message as the emulation keeps it. What the bot sent has its
// parameters, as they came.
type sent struct {
	ID      int `json:"messageId"`
	Message struct {
		ChatID string `json:"chat_id"` // only in the bot's own
		Text   string `json:"text"`
		Thread any    `json:"message_thread_id"` // the bot's as text, of others a number
		Reply  any    `json:"reply_parameters"`
		Markup struct {
			Rows [][]struct {
				Text string `json:"text"`
				Data string `json:"callback_data"`
			} `json:"inline_keyboard"`
		} `json:"reply_markup"`
	} `json:"message"`
}

// sent are the messages that the emulation says that the bot sent.
func (e *emulation) sent() (messages []sent) {
	body, _ := json.Marshal(fields{"token": loopback.Token})
	response, err := http.Post(e.server+"/getUpdatesHistory", "application/json", bytes.NewReader(body))
	if err != nil {
		e.Fatal(err)
	}
	defer response.Body.Close()
	var history struct {
		Result []sent `json:"result"`
	}
	if err := json.NewDecoder(response.Body).Decode(&history); err != nil {
		e.Fatal(err)
	}
	for _, m := range history.Result {
		if m.Message.ChatID != "" {
			messages = append(messages, m)
		}
	}
	return messages
}

func (e *emulation) await(what string, condition func() bool) {
	e.Helper()
	for deadline := time.Now().Add(soon); !condition(); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(deadline) {
			e.Fatalf("never came: %s", what)
		}
	}
}

// callsOnLoopback are those of a talk in a group with topics, with an edit and
// a button.
func callsOnLoopback(t *testing.T) []loopback.Call {
	j := newJobIn(t)
	j.api.Topics(-40, 7)
	j.start()
	topic := fields{"message_thread_id": 7, "is_topic_message": true, "text": "/jobs"}
	question := j.api.Post(-40, topic)
	j.says(-40, "heard jobs")
	j.api.Push("edited_message", fields{
		"message_id": question, "date": 1, "edit_date": 2, "text": "/help",
		"from": fields{"id": 501}, "chat": fields{"id": -40, "type": "supergroup"},
	})
	j.await("an edit", func() bool { return len(j.api.Calls("editMessageText")) == 1 })
	j.api.Push("callback_query", fields{"id": "9007", "from": fields{"id": 12}, "data": "v1:x"})
	j.await("a button let go", func() bool { return len(j.api.Calls("answerCallbackQuery")) == 1 })
	if err := j.end(); err != nil {
		t.Error(err)
	}
	return j.api.Calls("")
}

// writeTypeScript writes the calls as values of the types that other people
// have generated from the Bot API's documentation. A parameter that takes
// anything but text is sent as JSON, and so stands there as it was sent.
func writeTypeScript(t *testing.T, calls []loopback.Call) {
	var b strings.Builder
	b.WriteString(`import type { ApiMethods } from "@grammyjs/types";

type Call<M extends keyof ApiMethods<unknown>> = NonNullable<Parameters<ApiMethods<unknown>[M]>[0]>;

`)
	for n, c := range calls {
		if len(c.Params) == 0 {
			continue // getMe: nothing to be typed
		}
		var params []string
		for _, f := range specified(t).Methods[c.Method] {
			text, sent := c.Params[f.Name]
			if !sent {
				continue
			}
			value := text
			if slices.Contains(f.Types, "String") && !slices.Contains(f.Types, "Integer") {
				quoted, err := json.Marshal(text)
				if err != nil {
					t.Fatal(err)
				}
				value = string(quoted)
			}
			params = append(params, f.Name+": "+value)
		}
		fmt.Fprintf(&b, "export const call%d: Call<%q> = { %s };\n", n, c.Method, strings.Join(params, ", "))
	}
	if err := os.WriteFile(filepath.Join(emulationFolder, "captured.ts"), []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
