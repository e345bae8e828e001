package serve

import (
	"context"
	"errors"
	"io"
	"time"

	"dogleg/bot"
	"dogleg/bot/hearing"
	"dogleg/bot/telegram"
	"dogleg/bot/voice"
)

// The limits of a note.
const (
	longestNote  = time.Minute
	hearingTakes = 30 * time.Second // at most, before the recognizer is killed
)

// judge chooses what was heard by what is made of it.
var judge = hearing.Judge{Conversation: bot.Answering{}}

// Hear makes a verdict of one note.
func Hear(ctx context.Context, ear voice.Ear, note io.Reader) (verdict hearing.Verdict, err error) {
	sound, err := voice.Read(note, longestNote)
	if err != nil {
		return verdict, err
	}
	decoders, err := listen(ctx, ear, sound)
	return judge.Choose(decoders), err
}

// listen returns the ear's guesses, given up after a time.
func listen(ctx context.Context, ear voice.Ear, sound voice.Sound) ([][]hearing.Guess, error) {
	ctx, cancel := context.WithTimeout(ctx, hearingTakes)
	defer cancel()
	heard, err := ear.Listen(ctx, sound)
	return judged(heard), err
}

// judged are an ear's guesses in the form in which they are judged.
func judged(heard [][]voice.Guess) [][]hearing.Guess {
	decoders := make([][]hearing.Guess, len(heard))
	for i, guesses := range heard {
		for _, g := range guesses {
			decoders[i] = append(decoders[i], hearing.Guess(g))
		}
	}
	return decoders
}

// Ear is an ear as the Telegram transport wants it.
type Ear struct{ voice.Ear }

// What is said of a recording that isn't heard.
const (
	noSpeech = "I can only listen to voice notes. Record one here, or type it: 12 set 45s 1-1/2 pvc"
	cutOff   = "That note breaks off in the middle. Say it again, please."
	tooLong  = "That's too long for me: up to a minute, please, one thing at a time."
)

// Hear makes a verdict of a recording, and words it.
func (e Ear) Hear(ctx context.Context, recording io.Reader) (telegram.Heard, error) {
	verdict, err := Hear(ctx, e.Ear, recording)
	switch {
	case errors.Is(err, voice.ErrFormat):
		return telegram.Heard{Say: noSpeech}, nil
	case errors.Is(err, voice.ErrCutOff):
		return telegram.Heard{Say: cutOff}, nil
	case errors.Is(err, voice.ErrTooLong):
		return telegram.Heard{Say: tooLong}, nil
	case err != nil:
		return telegram.Heard{}, err
	case !verdict.Sure:
		return telegram.Heard{Say: verdict.Question(), Choices: verdict.Readings}, nil
	}
	return telegram.Heard{Words: verdict.Heard, Say: verdict.Echo()}, nil
}
