package telegram

import "testing"

func TestOldestQuestionsAreForgotten(t *testing.T) {
	a := newAnswered()
	for n := range int64(mostAnswered + 10) {
		a.asked(question{place{12, n}, "12 set 45s"})
		a.by(place{12, n}, 1000+n)
	}
	if len(a.of) != mostAnswered || len(a.order) != mostAnswered {
		t.Errorf("%d and %d remembered, want %d", len(a.of), len(a.order), mostAnswered)
	}
	if got := a.answer(place{12, 9}); got != 0 {
		t.Errorf("the tenth is still known, answered by %d", got)
	}
	if got := a.answer(place{12, 10}); got != 1010 {
		t.Errorf("the eleventh was answered by %d, want 1010", got)
	}
	if a.same(place{13, 10}, "12 set 45s") {
		t.Error("a message of another chat with the same number is taken for the same")
	}
}
