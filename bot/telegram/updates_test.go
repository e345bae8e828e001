package telegram_test

import "testing"

func TestAnswers(t *testing.T) {
	j := newJob(t)
	j.start()
	j.api.Say(12, "12 set 45s 1-1/2 pvc")
	j.says(12, "heard 12 set 45s 1-1/2 pvc")
	j.settle()
	if err := j.end(); err != nil {
		t.Error(err)
	}
}
