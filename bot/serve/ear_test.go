package serve

import (
	"bytes"
	"context"
	"errors"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"dogleg/bot/telegram"
	"dogleg/bot/voice"
)

// guessing is an ear that guesses the same of every sound.
type guessing [][]voice.Guess

func (g guessing) Listen(ctx context.Context, _ voice.Sound) ([][]voice.Guess, error) {
	return g, ctx.Err()
}

func TestWhatTelegramIsTold(t *testing.T) {
	note, err := os.ReadFile("../../testdata/voice/people/cen7-fclc-b.ogg")
	if err != nil {
		t.Fatal(err)
	}
	alike := func(text string) guessing { return guessing{{{Text: text}}, {{Text: text}}} }
	for name, c := range map[string]struct {
		ear       guessing
		recording []byte
		want      telegram.Heard
	}{
		"sure": {
			alike("set twelve and a half forty fives two inch pvc"), note,
			telegram.Heard{Words: "set 12-1/2 45s 2 in pvc", Say: "Heard: set 12-1/2 45s 2 in pvc"},
		},
		"not sure": {
			guessing{{{Text: "set seventeen forty fives two inch pvc"}}, {{Text: "set seventy forty fives two inch pvc"}}},
			note,
			telegram.Heard{Say: "Not sure I heard that right. Which was it? Send the line, or say it again.\nset 17 45s 2 in pvc\nset 70 45s 2 in pvc", Choices: []string{"set 17 45s 2 in pvc", "set 70 45s 2 in pvc"}},
		},
		"no request": {
			alike("~mommy ~daddy"), note,
			telegram.Heard{Say: "I couldn't make a request of that. Say it again, a little slower, or type it: 12 set 45s 1-1/2 pvc"},
		},
		"cut off":       {alike("one"), note[:2*len(note)/3], telegram.Heard{Say: cutOff}},
		"no voice note": {alike("one"), []byte("ID3"), telegram.Heard{Say: noSpeech}},
	} {
		got, err := Ear{c.ear}.Hear(t.Context(), bytes.NewReader(c.recording))
		if len(got.Choices) == 2 && !slices.IsSorted(got.Choices) { // both are heard as well: either may stand first
			a, b := got.Choices[0], got.Choices[1]
			got.Say = strings.NewReplacer(a, b, b, a).Replace(got.Say)
			got.Choices = []string{b, a}
		}
		if err != nil || !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: got %+v, %v", name, got, err)
		}
	}
	over, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := (Ear{alike("one")}).Hear(over, bytes.NewReader(note)); !errors.Is(err, context.Canceled) {
		t.Errorf("after its time: %v", err)
	}
}

// mute is an ear that hears nothing.
type mute struct{}

func (mute) Listen(context.Context, voice.Sound) ([][]voice.Guess, error) { return nil, nil }

// What is no recording, or one that unpacks to hours, is answered in words.
func TestEarIsToldWhatIsNoRecording(t *testing.T) {
	for name, c := range map[string]struct {
		content []byte
		want    string
	}{
		"0 bytes":  {nil, noSpeech},
		"20 MB":    {make([]byte, 20<<20), noSpeech},
		"an hour":  {anHour(), tooLong},
		"half one": {anHour()[:50], noSpeech},
	} {
		ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
		heard, err := Ear{mute{}}.Hear(ctx, bytes.NewReader(c.content))
		cancel()
		if err != nil || heard.Say != c.want || heard.Words != "" {
			t.Errorf("%s: %+v, %v", name, heard, err)
		}
	}
}

// anHour is an hour of silence in 60,000 packets of a byte: Opus that is said to
// last 60 ms each (RFC 6716, section 3.1), in Ogg.
func anHour() []byte {
	page := func(packet []byte, times int) []byte {
		head := append([]byte("OggS"), make([]byte, 22)...)
		head = append(head, byte(times))
		head = append(head, bytes.Repeat([]byte{byte(len(packet))}, times)...)
		return append(head, bytes.Repeat(packet, times)...)
	}
	begin := append([]byte("OpusHead\x01\x01"), make([]byte, 9)...)
	return bytes.Join([][]byte{page(begin, 1), page([]byte("OpusTags"), 1), bytes.Repeat(page([]byte{3 << 3}, 250), 240)}, nil)
}
