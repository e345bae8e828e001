package telegram_test

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

// proxy stands where a reverse proxy does: TLS in front, plain HTTP behind. It
// outlives the bot behind it.
type proxy struct {
	*job
	*httptest.Server
	behind string
}

// newWebhookJob is a job whose bot is called instead of polling.
func newWebhookJob(t *testing.T) *proxy {
	j := newJob(t)
	listener := listen(t, "127.0.0.1:0")
	p := &proxy{job: j, behind: listener.Addr().String()}
	pass := httputil.NewSingleHostReverseProxy(&url.URL{Scheme: "http", Host: p.behind})
	pass.ErrorHandler = func(w http.ResponseWriter, _ *http.Request, _ error) { w.WriteHeader(http.StatusBadGateway) }
	p.Server = httptest.NewTLSServer(pass)
	t.Cleanup(p.Close)
	j.api.CallThrough(p.Client())
	j.config.Webhook = &telegram.Webhook{URL: p.URL + "/juniper", Listener: listener}
	return p
}

func listen(t *testing.T, address string) net.Listener {
	t.Helper()
	listener, err := net.Listen("tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { listener.Close() })
	return listener
}

// restart begins again behind the same proxy.
func (p *proxy) restart() {
	p.config.Webhook.Listener = listen(p.T, p.behind)
	p.start()
}

// send makes a call of one's own and returns its status.
func (p *proxy) send(method, path, secret string, body io.Reader) int {
	p.Helper()
	request, err := http.NewRequest(method, p.URL+path, body)
	if err != nil {
		p.Fatal(err)
	}
	if secret != "" {
		request.Header.Set("X-Telegram-Bot-Api-Secret-Token", secret)
	}
	response, err := p.Client().Do(request)
	if err != nil {
		p.Fatal(err)
	}
	response.Body.Close()
	return response.StatusCode
}

// secretTold is what the server was told with the webhook.
func (p *proxy) secretTold() string {
	p.Helper()
	p.await("the webhook is set", func() bool { return len(p.api.Calls("setWebhook")) > 0 })
	return p.api.Calls("setWebhook")[0].Params["secret_token"]
}

func TestWebhookAnswers(t *testing.T) {
	p := newWebhookJob(t)
	p.start()
	for chat := range int64(30) {
		for n := range 3 {
			p.api.Say(chat+1, fmt.Sprintf("set %d 45s", 10+n))
		}
	}
	for chat := range int64(30) {
		p.says(chat+1, "heard set 10 45s", "heard set 11 45s", "heard set 12 45s")
	}
	p.settle()
	if n := len(p.api.Calls("getUpdates")); n != 0 {
		t.Errorf("polled %d times", n)
	}
	if status := p.send("GET", "/readyz", "", nil); status != 200 {
		t.Errorf("ready: %d", status)
	}
}

// An update is answered with 200 only when it is on the disk; until then the
// server makes its call again.
func TestWebhookKeepsBeforeItSaysSo(t *testing.T) {
	p := newWebhookJob(t)
	p.memory.failing.Store(false)
	p.start()
	p.secretTold()
	p.memory.failing.Store(true)
	p.api.Say(12, "12 set 45s")
	p.await("it tries", func() bool { return strings.Count(p.log.String(), "no space left") > 2 })
	if n := len(p.api.Unconfirmed()); n != 1 {
		t.Fatalf("%d updates are with the server, of 1 that isn't kept", n)
	}
	p.end()
	p.memory.failing.Store(false)
	if n := len(p.api.Unconfirmed()); n != 1 {
		t.Fatalf("%d updates are with the server after the end, of 1 that isn't kept", n)
	}
	p.restart()
	p.says(12, "heard 12 set 45s")
	p.settle()
}

func TestWebhookRefusesStrangers(t *testing.T) {
	p := newWebhookJob(t)
	p.start()
	secret := p.secretTold()
	update := func() io.Reader {
		return strings.NewReader(`{"update_id":7,"message":{"message_id":1,"date":1,"chat":{"id":12,"type":"private"},"text":"12 set 45s"}}`)
	}
	for name, c := range map[string]struct {
		method, path, secret string
		body                 io.Reader
		want                 int
	}{
		"no secret":            {"POST", "/juniper", "", update(), 401},
		"another secret":       {"POST", "/juniper", strings.Repeat("0", len(secret)), update(), 401},
		"the secret's head":    {"POST", "/juniper", secret[:20], update(), 401},
		"the token":            {"POST", "/juniper", loopback.Token, update(), 401},
		"a method that is not": {"GET", "/juniper", secret, nil, 405},
		"a path that is not":   {"POST", "/elsewhere", secret, update(), 404},
		"below the path":       {"POST", "/juniper/more", secret, update(), 404},
		"too large":            {"POST", "/juniper", secret, strings.NewReader(strings.Repeat(" ", 2<<20)), 413},
	} {
		if got := p.send(c.method, c.path, c.secret, c.body); got != c.want {
			t.Errorf("%s: status %d, want %d", name, got, c.want)
		}
	}
	if q := p.memory.questions(); len(q) != 0 {
		t.Errorf("asked %+v", q)
	}
	if n := p.config.Health.Strangers.Load(); n != 4 {
		t.Errorf("%d strangers, want 4", n)
	}
	if got := p.send("POST", "/juniper", secret, update()); got != 200 {
		t.Errorf("with the secret: status %d", got)
	}
	p.says(12, "heard 12 set 45s")
	if got := p.send("POST", "/juniper", secret, strings.NewReader("no JSON")); got != 200 {
		t.Errorf("what can't be read is kept apart and not to come again: status %d", got)
	}
	if n := len(p.memory.quarantined(t)); n != 1 {
		t.Errorf("%d in quarantine, want 1", n)
	}
}

// Who sends a header or a body drop by drop is cut off, and holds up nobody.
func TestWebhookCutsOffTheSlow(t *testing.T) {
	p := newWebhookJob(t)
	p.config.Timing.Header, p.config.Timing.Body = 200*time.Millisecond, 200*time.Millisecond
	p.start()
	secret := p.secretTold()
	for name, head := range map[string]string{
		"header": "POST /juniper HTTP/1.1\r\nHost: juniper.test\r\n",
		"body": "POST /juniper HTTP/1.1\r\nHost: juniper.test\r\nContent-Length: 5000\r\n" +
			"X-Telegram-Bot-Api-Secret-Token: " + secret + "\r\n\r\n{",
	} {
		slow, err := net.Dial("tcp", p.behind)
		if err != nil {
			t.Fatal(err)
		}
		defer slow.Close()
		fmt.Fprint(slow, head)
		_ = slow.SetReadDeadline(time.Now().Add(soon))
		if name == "header" {
			if _, err := io.Copy(io.Discard, slow); err != nil {
				t.Errorf("%s: not cut off: %v", name, err)
			}
			continue
		}
		response, err := http.ReadResponse(bufio.NewReader(slow), nil)
		if err != nil || response.StatusCode != http.StatusRequestTimeout {
			t.Errorf("%s: %+v, %v", name, response, err)
		}
	}
	p.api.Say(12, "12 set 45s")
	p.says(12, "heard 12 set 45s")
}

// Going back to polling doesn't wait as for a rival: what was in the way is gone.
func TestBackToPollingAtOnce(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Rival = time.Hour
	j.api.Webhook(true)
	j.api.Say(12, "12 set 45s")
	j.start()
	j.says(12, "heard 12 set 45s")
}

// To and fro between the two ways in nothing is lost and nothing said twice.
func TestWebhookAndBack(t *testing.T) {
	p := newWebhookJob(t)
	hook := p.config.Webhook
	want := []string{}
	for round := range 4 {
		text := fmt.Sprintf("set %d 45s", 10+round)
		p.api.Say(12, text) // while nobody serves
		p.config.Webhook = nil
		if round%2 == 0 {
			p.config.Webhook = hook
			hook.Listener.Close()
			hook.Listener = listen(t, p.behind)
		}
		p.start()
		want = append(want, "heard "+text)
		p.says(12, want...)
		p.settle()
		if err := p.end(); err != nil {
			t.Fatal(err)
		}
	}
	if n := len(p.api.Calls("deleteWebhook")); n != 2 {
		t.Errorf("the webhook was taken away %d times, want 2", n)
	}
}

func TestWebhookThatTelegramRefusesEndsIt(t *testing.T) {
	p := newWebhookJob(t)
	p.config.Webhook.URL = "http://juniper.test/"
	err := telegram.Serve(t.Context(), p.config)
	if err == nil || !strings.Contains(err.Error(), "HTTPS") {
		t.Errorf("got %v", err)
	}
}

// What outlasts a restart of Telegram's and the network's faults.
func TestWebhookIsSetHoweverLongItTakes(t *testing.T) {
	p := newWebhookJob(t)
	p.api.Plant(loopback.BadGateway("setWebhook"))
	p.api.Plant(loopback.Fault{Method: "setWebhook", Lost: true})
	p.api.Say(12, "12 set 45s")
	p.start()
	p.says(12, "heard 12 set 45s")
}
