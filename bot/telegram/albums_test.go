package telegram_test

import (
	"fmt"
	"strings"
	"testing"
)

// Whatever is sent instead of words gets an answer in a private chat, and several
// pictures that are sent together get one.
func TestNothingShownGetsSilence(t *testing.T) {
	j := newJob(t)
	for i, kind := range []string{
		"photo", "sticker", "video", "animation", "document", "location", "contact", "poll", "dice", "game", "story", "venue",
		"paid_media", "invoice", "checklist", "giveaway",
	} {
		j.api.Post(int64(i+1), fields{kind: fields{}})
	}
	for n := range 5 {
		j.api.Post(99, fields{"photo": []any{}, "media_group_id": "13"})
		j.api.Post(98, fields{"photo": []any{}, "media_group_id": fmt.Sprint(n)})
	}
	j.api.Post(97, fields{"pinned_message": fields{}})
	j.start()
	j.settle()
	for chat, want := range map[int64]int{16: 1, 99: 1, 98: 5, 97: 0} {
		if got := j.delivered(chat); len(got) != want {
			t.Errorf("chat %d got %q, want %d answers", chat, got, want)
		}
	}
	for chat := range int64(16) {
		if got := j.delivered(chat + 1); len(got) != 1 || !strings.HasPrefix(got[0], "I only read words") {
			t.Errorf("chat %d got %q", chat+1, got)
		}
	}
}
