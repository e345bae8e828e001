package loopback_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
)

// soon is how long a test waits for what must happen.
const soon = 20 * time.Second

// response is one in the form of the Bot API.
type response struct {
	OK          bool            `json:"ok"`
	Result      json.RawMessage `json:"result"`
	Code        int             `json:"error_code"`
	Description string          `json:"description"`
	Parameters  struct {
		Wait    int   `json:"retry_after"`
		MovedTo int64 `json:"migrate_to_chat_id"`
	} `json:"parameters"`
}

// call makes one call, its parameters given as name, value, name, value.
func call(t *testing.T, s *loopback.Server, method string, params ...string) (r response) {
	t.Helper()
	values := url.Values{}
	for i := 0; i < len(params); i += 2 {
		values.Set(params[i], params[i+1])
	}
	got, err := http.PostForm(s.Base()+"/bot"+loopback.Token+"/"+method, values)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	if err := json.NewDecoder(got.Body).Decode(&r); err != nil {
		t.Fatal(err)
	}
	return r
}

// texts are those of the messages in a poll's response.
func texts(t *testing.T, r response) string {
	t.Helper()
	var updates []struct{ Message struct{ Text string } }
	if err := json.Unmarshal(r.Result, &updates); err != nil {
		t.Fatalf("%v in %+v", err, r)
	}
	var all []string
	for _, u := range updates {
		all = append(all, u.Message.Text)
	}
	return strings.Join(all, " ")
}

func newServer(t *testing.T) *loopback.Server {
	t.Parallel()
	s := loopback.New()
	t.Cleanup(s.Close)
	return s
}

// The Bot API, getUpdates: "An update is considered confirmed as soon as
// getUpdates is called with an offset higher than its update_id. The negative
// offset can be specified to retrieve updates starting from -offset update from
// the end of the updates queue. All previous updates will be forgotten."
func TestOffsets(t *testing.T) {
	for _, c := range []struct {
		offset, want string
		left         int // not forgotten
	}{
		{"", "one two three", 3},
		{"0", "one two three", 3},
		{"5", "one two three", 3},
		{"7", "three", 1},
		{"8", "", 0},
		{"-2", "two three", 2},
		{"-9", "one two three", 3},
		{"727334709", "one two three", 3}, // of another sequence
	} {
		t.Run(c.offset, func(t *testing.T) {
			s := newServer(t)
			s.Number(5)
			for _, text := range []string{"one", "two", "three"} {
				s.Say(12, text)
			}
			if got := texts(t, call(t, s, "getUpdates", "offset", c.offset)); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
			if got := len(s.Unconfirmed()); got != c.left {
				t.Errorf("%d left, want %d", got, c.left)
			}
		})
	}
}

func TestPollWaitsForWhatComes(t *testing.T) {
	s := newServer(t)
	time.AfterFunc(20*time.Millisecond, func() { s.Say(12, "late") })
	if got := texts(t, call(t, s, "getUpdates", "timeout", "50")); got != "late" {
		t.Errorf("got %q", got)
	}
	if got := texts(t, call(t, s, "getUpdates", "limit", "1", "offset", "9")); got != "" {
		t.Errorf("an offset a little beyond the end confirms all; got %q", got)
	}
}

func TestSecondPollEndsTheFirst(t *testing.T) {
	s := newServer(t)
	first := make(chan response)
	go func() { first <- call(t, s, "getUpdates", "timeout", "50") }()
	for ended := false; !ended; {
		call(t, s, "getUpdates", "timeout", "0")
		select {
		case r := <-first:
			if r.Code != 409 {
				t.Errorf("the first got %+v", r)
			}
			ended = true
		case <-time.After(time.Millisecond):
		}
	}
	s.Webhook(true)
	if r := call(t, s, "getUpdates"); r.Code != 409 {
		t.Errorf("with a webhook: %+v", r)
	}
}

// Polling the same offset again within half a second gets one update.
func TestPollingAgainTooSoonIsPunished(t *testing.T) {
	s := newServer(t)
	s.Strict()
	s.Say(12, "one")
	s.Say(12, "two")
	if got := texts(t, call(t, s, "getUpdates")); got != "one two" {
		t.Errorf("first got %q", got)
	}
	if got := texts(t, call(t, s, "getUpdates")); got != "one" {
		t.Errorf("again got %q", got)
	}
	if got := texts(t, call(t, s, "getUpdates", "offset", "2")); got != "two" {
		t.Errorf("from the next on got %q", got)
	}
}

func TestOnlyWhatIsAskedForArrives(t *testing.T) {
	s := newServer(t)
	s.Push("chat_member", map[string]any{}) // has to be asked for
	call(t, s, "getUpdates", "allowed_updates", `["callback_query"]`)
	s.Say(12, "not wanted")
	call(t, s, "getUpdates") // the setting stays
	s.Say(12, "not wanted")
	call(t, s, "getUpdates", "allowed_updates", `[]`) // all, but not of before
	s.Say(12, "wanted")
	if got := texts(t, call(t, s, "getUpdates")); got != "wanted" {
		t.Errorf("got %q", got)
	}
}

func TestRefusals(t *testing.T) {
	s := newServer(t)
	s.Topics(-40, 7)
	s.Block(13)
	s.Migrate(-41, -100041)
	question := fmt.Sprint(s.Say(12, "12 set 45s"))
	call(t, s, "sendMessage", "chat_id", "12", "text", "Cut 14-3/4 in") // message 2
	s.Forget(12, 3)
	long := strings.Repeat("𝟏", 2048) // 4096 UTF-16 units
	button := func(data string) string {
		return fmt.Sprintf(`{"inline_keyboard":[[{"text":"x","callback_data":%q}]]}`, data)
	}
	for _, c := range []struct {
		method, params string // name=value|name=value
		want           string // "" is success
	}{
		{"sendMessage", "chat_id=12|text=" + long, ""},
		{"sendMessage", "chat_id=12|text=" + long + "1", "message is too long"},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=<b>" + long + "</b>", ""},
		{"sendMessage", "chat_id=12|text= ", "message text is empty"},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=<b></b>", "message text is empty"},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=a &lt; <b>b</b> &amp; c", ""},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=a < b", "can't parse entities"},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=<b>a", "can't parse entities"},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=a</b>", "can't parse entities"},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=<cut>a</cut>", "can't parse entities"},
		{"sendMessage", "chat_id=12|parse_mode=HTML|text=a & b", "can't parse entities"},
		{"sendMessage", "chat_id=12|text=a < b & <c>", ""},
		{"sendMessage", "chat_id=0|text=a", "chat not found"},
		{"sendMessage", "chat_id=13|text=a", "bot was blocked by the user"},
		{"sendMessage", "chat_id=-41|text=a", "group chat was upgraded to a supergroup chat"},
		{"sendMessage", "chat_id=-40|text=a|message_thread_id=7", ""},
		{"sendMessage", "chat_id=-40|text=a|message_thread_id=8", "message thread not found"},
		{"sendMessage", "chat_id=12|text=a|reply_parameters={\"message_id\":" + question + "}", ""},
		{"sendMessage", "chat_id=12|text=a|reply_parameters={\"message_id\":99}", "message to be replied not found"},
		{"sendMessage", "chat_id=12|text=a|reply_parameters={\"message_id\":99,\"allow_sending_without_reply\":true}", ""},
		{"sendMessage", "chat_id=12|text=a|reply_parameters=7", "can't parse reply parameters"},
		{"sendMessage", "chat_id=12|text=a|reply_markup=" + button(strings.Repeat("x", 64)), ""},
		{"sendMessage", "chat_id=12|text=a|reply_markup=" + button(strings.Repeat("½", 33)), "BUTTON_DATA_INVALID"},
		{"sendMessage", "chat_id=12|text=a|reply_markup=x", "can't parse reply keyboard markup"},
		{"editMessageText", "chat_id=12|message_id=2|text=Cut 14-3/4 in", "message is not modified"},
		{"editMessageText", "chat_id=12|message_id=2|text=Cut 15 in", ""},
		{"editMessageText", "chat_id=12|message_id=2|text=", "message text is empty"},
		{"editMessageText", "chat_id=12|message_id=99|text=a", "message to edit not found"},
		{"editMessageText", "chat_id=13|message_id=2|text=a", "bot was blocked by the user"},
		{"answerCallbackQuery", "callback_query_id=77", "query is too old"},
		{"sendChatAction", "chat_id=12|action=typing", ""},
		{"setMyCommands", `commands=[{"command":"help","description":"What to write"}]`, ""},
		{"setMyCommands", `commands=[{"command":"Help","description":"What to write"}]`, "BOT_COMMAND_INVALID"},
		{"setMyCommands", `commands=[{"command":"help"}]`, "BOT_COMMAND_DESCRIPTION_INVALID"},
		{"setMyCommands", `commands=help`, "can't parse list of bot commands"},
		{"sendMessages", "chat_id=12|text=a", "method not found"},
	} {
		var params []string
		for pair := range strings.SplitSeq(c.params, "|") {
			name, value, _ := strings.Cut(pair, "=")
			params = append(params, name, value)
		}
		r := call(t, s, c.method, params...)
		if r.OK != (c.want == "") || !strings.Contains(r.Description, c.want) {
			t.Errorf("%s(%.80s): %q, want %q", c.method, c.params, r.Description, c.want)
		}
	}
	if r := call(t, s, "sendMessage", "chat_id", "-41", "text", "a"); r.Parameters.MovedTo != -100041 {
		t.Errorf("the new number is not told: %+v", r)
	}
}

func TestButtonIsLetGoOnce(t *testing.T) {
	s := newServer(t)
	s.Push("callback_query", map[string]any{"id": "77"})
	for n, want := range []bool{true, false} {
		if r := call(t, s, "answerCallbackQuery", "callback_query_id", "77"); r.OK != want {
			t.Errorf("time %d: %+v", n+1, r)
		}
	}
}

func TestFaultsAreUsedUpInOrder(t *testing.T) {
	s := newServer(t)
	s.Plant(loopback.TooMany("sendMessage", 7))
	other := loopback.Refuse("", 500, "Internal Server Error")
	other.Chat = 13
	s.Plant(other)
	send := func(chat string) response { return call(t, s, "sendMessage", "chat_id", chat, "text", "a") }
	if r := send("12"); r.Code != 429 || r.Parameters.Wait != 7 {
		t.Errorf("first %+v", r)
	}
	if r := send("12"); !r.OK {
		t.Errorf("then %+v", r)
	}
	if r := send("13"); r.Code != 500 {
		t.Errorf("in the other chat %+v", r)
	}
	if r := send("13"); !r.OK {
		t.Errorf("and then %+v", r)
	}
	if n := len(s.Calls("sendMessage")); n != 4 {
		t.Errorf("%d calls kept, want 4", n)
	}
	s.Plant(loopback.Fault{Hang: true, Times: -1})
	s.Mend()
	if r := send("12"); !r.OK {
		t.Errorf("mended: %+v", r)
	}
}

func TestBrokenResponseHasTakenEffect(t *testing.T) {
	for name, fault := range map[string]loopback.Fault{"half": {Half: true}, "lost": {Lost: true}} {
		s := loopback.New()
		defer s.Close()
		s.Plant(fault)
		form := url.Values{"chat_id": {"12"}, "text": {"Cut 14-3/4 in"}}
		got, err := http.PostForm(s.Base()+"/bot"+loopback.Token+"/sendMessage", form)
		if err == nil {
			err = json.NewDecoder(got.Body).Decode(new(response))
			got.Body.Close()
		}
		if err == nil {
			t.Errorf("%s: a whole response", name)
		}
		if r := call(t, s, "editMessageText", "chat_id", "12", "message_id", "1", "text", "Cut 15 in"); !r.OK {
			t.Errorf("%s: the message isn't there: %+v", name, r)
		}
	}
}

func TestHalfAResponseThatHangs(t *testing.T) {
	s := loopback.New()
	defer s.Close()
	s.Plant(loopback.Fault{Half: true, Hang: true})
	ctx, giveUp := context.WithCancel(t.Context())
	defer giveUp()
	body := strings.NewReader("chat_id=12&text=Cut")
	request, err := http.NewRequestWithContext(ctx, http.MethodPost, s.Base()+"/bot"+loopback.Token+"/sendMessage", body)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	got, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	if n, err := got.Body.Read(make([]byte, 1)); n != 1 {
		t.Errorf("nothing of it comes: %v", err)
	}
	giveUp()
	if _, err := io.Copy(io.Discard, got.Body); !errors.Is(err, context.Canceled) {
		t.Errorf("it ended before it was given up: %v", err)
	}
	if r := call(t, s, "editMessageText", "chat_id", "12", "message_id", "1", "text", "Cut 15 in"); !r.OK {
		t.Errorf("the message isn't there: %+v", r)
	}
}

func TestTokenMustBeRight(t *testing.T) {
	s := newServer(t)
	got, err := http.Get(s.Base() + "/bot1:x/getMe")
	if err != nil {
		t.Fatal(err)
	}
	got.Body.Close()
	if got.StatusCode != 401 {
		t.Errorf("status %d", got.StatusCode)
	}
	if !s.Await(soon, func() bool { return len(s.Calls("getMe")) == 1 }) {
		t.Error("the call is not kept")
	}
	if s.Await(time.Millisecond, func() bool { return false }) {
		t.Error("what never happens was awaited")
	}
}
