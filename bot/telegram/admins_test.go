package telegram_test

import (
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/telegram/loopback"
)

// setting has somebody in a group want it to be answered always.
func (j *job) setting(group, user int64) {
	text := us + " answer everything"
	j.api.Post(group, fields{"text": text, "entities": mention(text, us), "from": fields{"id": user, "is_bot": false}})
}

// Whoever wants to set something for everyone waits for the server to say whether
// they may, and nobody else does. It is asked once for each of them.
func TestWhoIsAdminIsAskedBesideTheOthers(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Toast = time.Hour
	j.api.Admin(-40, 502)
	j.api.Plant(loopback.Fault{Method: "getChatMember", Hang: true, Times: -1})
	for range 20 {
		j.setting(-40, 502)
		j.setting(-40, 503)
	}
	j.api.Say(12, "12 set 45s")
	j.start()
	j.says(12, "heard 12 set 45s")
	j.await("all taken in", func() bool { return len(j.api.Unconfirmed()) == 0 })
	j.await("asked", func() bool { return len(j.api.Calls("getChatMember")) == 2 })
	if n := len(j.delivered(-40)); n != 0 {
		t.Errorf("%d answered before it is known who they are", n)
	}
	if err := j.end(); err != nil { // they are answered by the next run
		t.Fatal(err)
	}
	j.api.Mend()
	j.config.Health = new(telegram.Health)
	j.start()
	j.await("all answered", func() bool { return len(j.delivered(-40)) == 40 })
	j.settle()
	if n := len(j.api.Calls("getChatMember")); n != 4 {
		t.Errorf("asked %d times, want twice in each run", n)
	}
	admins := map[string]int{}
	for _, q := range j.memory.questions() {
		if q.Admin {
			admins[q.User]++
		}
	}
	if len(admins) != 1 || admins["502"] != 20 {
		t.Errorf("admins: %v", admins)
	}
	j.setting(-40, 502) // it is known for a minute
	j.await("an answer", func() bool { return len(j.delivered(-40)) == 41 })
	if n := len(j.api.Calls("getChatMember")); n != 4 {
		t.Errorf("asked %d times", n)
	}
}

// Where the server doesn't say, that is what is said.
func TestWhoIsAdminIsNotFoundOut(t *testing.T) {
	j := newJob(t)
	j.config.Timing.Toast = 20 * time.Millisecond
	j.api.Plant(loopback.Fault{Method: "getChatMember", Hang: true, Times: -1})
	j.setting(-40, 502)
	j.start()
	j.await("an answer", func() bool { return len(j.delivered(-40)) == 1 })
	if got := j.delivered(-40)[0]; !strings.Contains(got, "couldn't find out") {
		t.Errorf("answered %q", got)
	}
	text := us + " answer everything"
	j.api.Post(-41, fields{"text": text, "entities": mention(text, us), "from": fields{"id": 503, "is_bot": false, "language_code": "es-MX"}})
	j.await("an answer", func() bool { return len(j.delivered(-41)) == 1 })
	if got := j.delivered(-41)[0]; !strings.Contains(got, "No pude averiguar") {
		t.Errorf("in Spanish it is answered %q", got)
	}
	j.settle()
}

// Beyond the budget nobody is asked about.
func TestWhoIsAdminIsWithinTheBudget(t *testing.T) {
	j := newJob(t)
	j.config.Budget = telegram.Budget{
		User: telegram.Rate{Every: time.Hour, Burst: 1}, Chat: telegram.Rate{Every: time.Hour, Burst: 3}, Look: boundless.Look,
	}
	for user := range int64(10) {
		j.setting(-40, 600+user)
	}
	j.start()
	j.settle()
	if n := len(j.api.Calls("getChatMember")); n != 3 {
		t.Errorf("asked %d times, want 3", n)
	}
}
