package cluster

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/nats-io/nats-server/v2/server"
	"github.com/nats-io/nats.go/jetstream"
)

func TestOpenAgainFindsTheSame(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		first, second := open(t, s), open(t, s, func(o *Options) { o.Lease = time.Minute })
		if first.UpdatesID() != second.UpdatesID() {
			t.Errorf("two streams of updates: %s, %s", first.UpdatesID(), second.UpdatesID())
		}
		if second.leaseTime != first.leaseTime {
			t.Errorf("the lease lasts %v for one, %v for the other", first.leaseTime, second.leaseTime)
		}
		info, err := first.journal.Info(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if info.Config.Replicas != len(s.each) {
			t.Errorf("the journal is on %d of %d servers", info.Config.Replicas, len(s.each))
		}
	})
}

func TestOpenAllAtOnce(t *testing.T) {
	t.Parallel()
	eachKind(t, func(t *testing.T, s *servers) {
		ids := make(chan string)
		for range 4 {
			go func() {
				c, err := Open(t.Context(), s.url(), botOf(t), quick(t))
				if err != nil {
					ids <- err.Error()
					return
				}
				defer c.Close()
				ids <- c.UpdatesID()
			}()
		}
		first := <-ids
		for range 3 {
			if id := <-ids; id != first {
				t.Errorf("one has %s, another %s", first, id)
			}
		}
	})
}

func TestOpenRefusesWhatIsNoAddress(t *testing.T) {
	const secret = "copperhead"
	for _, c := range []struct{ url, says string }{
		{"", "server 1 of 1 is empty"},
		{"nats://a:4222,,nats://c:4222", "server 2 of 3 is empty"},
		{"http://u:" + secret + "@a:4222", "begins with none of nats, tls"},
		{"nats://u:" + secret + "@a:42x2", "can't be read"},
		{"nats://u:" + secret + "/x@a:4222", "can't be read"},
		{"nats://u:" + secret + "@:4222", "has no host"},
		{"nats://a:4222/" + secret, "something behind the host"},
		{"nats://" + secret + "@a:4222?x=y", "something behind the host"},
	} {
		_, err := Open(t.Context(), c.url, "juniper", quick(t))
		if !errors.Is(err, ErrAddress) || !strings.Contains(fmt.Sprint(err), c.says) {
			t.Errorf("%q: %v; want %q in it", c.url, err, c.says)
		}
		if strings.Contains(fmt.Sprint(err), secret) {
			t.Errorf("the password is in %q", err)
		}
	}
}

func TestOpenRefusesNamesThatCantBe(t *testing.T) {
	for _, bot := range []string{"", "a.b", "a b", "a*", ">", strings.Repeat("a", 65)} {
		if _, err := Open(t.Context(), "nats://127.0.0.1:1", bot, quick(t)); !errors.Is(err, ErrAddress) {
			t.Errorf("%q: %v", bot, err)
		}
	}
}

func TestOneUserForAllServers(t *testing.T) {
	got, err := parseAddresses("nats://journeyman:flux@a:4222, b:4222 ,tls://c")
	if err != nil {
		t.Fatal(err)
	}
	want := "nats://journeyman:flux@a:4222 nats://journeyman:flux@b:4222 tls://journeyman:flux@c"
	if all := strings.Join(got.urls, " "); all != want {
		t.Errorf("got %s, want %s", all, want)
	}
	if got.shown != "a:4222, b:4222, c" {
		t.Errorf("shown as %s", got.shown)
	}
}

func TestOpenSaysWhatIsWrongWithTheServers(t *testing.T) {
	const secret = "copperhead"
	users := func(o *server.Options) {
		o.Users = []*server.User{{Username: "plumber", Password: secret, Permissions: &server.Permissions{
			Publish: &server.SubjectPermission{Allow: []string{"dogleg.>"}},
		}}}
	}
	for _, c := range []struct {
		name   string
		change func(*server.Options)
		user   string
		is     error
		says   string
	}{
		{"JetStream is off", func(o *server.Options) { o.JetStream = false }, "", ErrUnfit, "-js"},
		{"too small messages", func(o *server.Options) { o.MaxPayload = 1000 }, "", ErrUnfit, "max_payload"},
		{"no user", users, "", ErrRefused, "give a user"},
		{"wrong password", users, "plumber:solder", ErrRefused, "give a user"},
		{"no rights", users, "plumber:" + secret, ErrRefused, "$JS.API"},
		{"no room", func(o *server.Options) { o.JetStreamMaxStore = 1 << 20 }, "", ErrUnfit, "max_file_store"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s := startServers(t, 1, c.change)
			url := s.url()
			if c.user != "" {
				url = strings.Replace(url, "//", "//"+c.user+"@", 1)
			}
			_, err := Open(t.Context(), url, "juniper", quick(t))
			if !errors.Is(err, c.is) || !strings.Contains(fmt.Sprint(err), c.says) {
				t.Errorf("got %v; want %v, with %q in it", err, c.is, c.says)
			}
			for _, word := range []string{secret, "solder"} {
				if strings.Contains(fmt.Sprint(err), word) {
					t.Errorf("the password is in %q", err)
				}
			}
		})
	}
}

func TestOpenWaitsForServersButNotForEver(t *testing.T) {
	s := startServers(t, 1)
	s.stopAll()
	o := quick(t)
	o.Patience = 300 * time.Millisecond
	if _, err := Open(t.Context(), s.url(), "juniper", o); !errors.Is(err, ErrUnreachable) {
		t.Errorf("no server: %v", err)
	}
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := Open(ended, s.url(), "juniper", quick(t)); !errors.Is(err, ErrUnreachable) {
		t.Errorf("not to wait at all: %v", err)
	}
	opened := make(chan error)
	go func() {
		c, err := Open(t.Context(), s.url(), "juniper", quick(t))
		if err == nil {
			c.Close()
		}
		opened <- err
	}()
	s.start(s.each[0])
	if err := <-opened; err != nil {
		t.Errorf("a server that came late: %v", err)
	}
}

func TestOpenRefusesTooFewServers(t *testing.T) {
	t.Parallel()
	o := quick(t)
	o.Replicas, o.Patience = 3, time.Second
	if _, err := Open(t.Context(), sharedServers(t, 1).url(), botOf(t), o); !errors.Is(err, ErrUnfit) {
		t.Errorf("three replicas on one server: %v", err)
	}
}

func TestOpenLeavesOthersStreamsAlone(t *testing.T) {
	s := sharedServers(t, 1)
	c := open(t, s)
	config := jetstream.StreamConfig{Name: "dogleg_somebody_journal", Subjects: []string{"their.own"}}
	if _, err := c.js.CreateStream(t.Context(), config); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(t.Context(), s.url(), "somebody", quick(t)); !errors.Is(err, ErrForeign) {
		t.Errorf("a stream that isn't ours: %v", err)
	}
}

func TestOlderServers(t *testing.T) {
	for version, want := range map[string]bool{
		"2.9.25": true, "1.4.1": true, "2.10.0": false, "2.15.2": false, "3.0.0": false, "own-build": false, "": false,
	} {
		if older(version) != want {
			t.Errorf("%q older: %v", version, !want)
		}
	}
}

func TestLogHoldsNoPassword(t *testing.T) {
	t.Parallel()
	const secret, changed = "copperhead", "oakum"
	s := startServers(t, 1, func(o *server.Options) { o.Username, o.Password = "plumber", secret })
	var log lockedBuffer
	o := quick(t)
	o.Log = slog.New(slog.NewTextHandler(&log, &slog.HandlerOptions{Level: slog.LevelDebug}))
	c, err := Open(t.Context(), strings.Replace(s.url(), "//", "//plumber:"+secret+"@", 1), "juniper", o)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	s.stopAll()
	s.each[0].options.Password = changed
	s.start(s.each[0])
	eventually(t, "the log tells that the password is wrong", func() bool { return strings.Contains(strings.ToLower(log.String()), "authorization") })
	err = c.Put(within(t, 200*time.Millisecond), 1, 1, nil)
	for _, text := range []string{log.String(), fmt.Sprint(err)} {
		if strings.Contains(text, secret) || strings.Contains(text, changed) {
			t.Errorf("a password is in %q", text)
		}
	}
}

// lockedBuffer keeps what is logged.
type lockedBuffer struct {
	mu sync.Mutex
	strings.Builder
}

func (b *lockedBuffer) Write(line []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.Builder.Write(line)
}

func (b *lockedBuffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.Builder.String()
}
