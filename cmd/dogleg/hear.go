package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"dogleg/bot"
	"dogleg/bot/hearing"
	"dogleg/bot/telegram"
	"dogleg/bot/voice"
	"dogleg/bot/wording"
)

// hearCommand prints what was said in a note.
type hearCommand struct {
	Note string `arg:"" help:"The recording: Ogg with Opus, as phones send it, or WAV."`
}

// Run prints the text that ask would answer. Where that isn't sure it prints
// what may have been said, a reading a line, and it is not answered.
func (c hearCommand) Run(ctx context.Context, world streams) error {
	verdict, err := hearFile(ctx, c.Note)
	switch {
	case err != nil:
		return err
	case verdict.Sure:
		_, err = fmt.Fprintln(world.out, verdict.Heard)
		return err
	}
	for _, reading := range verdict.Readings {
		fmt.Fprintln(world.out, reading)
	}
	return errNotAnswered
}

// The limits of a note.
const (
	longestNote  = time.Minute
	hearingTakes = 30 * time.Second // at most, before the recognizer is killed
)

// hearFile hears the note in a file.
func hearFile(ctx context.Context, path string) (verdict hearing.Verdict, err error) {
	f, err := os.Open(path)
	if err != nil {
		return verdict, err
	}
	defer f.Close()
	ear, err := voice.NewPocketsphinx(voice.DefaultSounds)
	if err != nil {
		return verdict, err
	}
	defer ear.Close()
	return hear(ctx, ear, f)
}

// judge chooses what was heard by what is made of it.
var judge = hearing.Judge{Conversation: bot.Answering{}}

// hear makes a verdict of one note.
func hear(ctx context.Context, ear voice.Ear, note io.Reader) (verdict hearing.Verdict, err error) {
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

// listen puts what is heard in the note of --voice in the message's place, and
// returns the line that the reply then begins with. Where it isn't sure what was
// said it asks, and there is no answer.
func (c *askCommand) listen(ctx context.Context, world streams) (echo string, err error) {
	switch {
	case (c.Voice == "") == (len(c.Message) == 0):
		return "", errors.New("ask takes a message, or --voice NOTE")
	case c.Voice == "":
		return "", nil
	}
	verdict, err := hearFile(ctx, c.Voice)
	if err != nil {
		return "", err
	}
	if !verdict.Sure {
		return "", errors.Join(c.print(world, bot.Reply{
			Text:    verdict.Question(),
			Records: []wording.Record{{Reply: verdict.Question()}},
		}), errNotAnswered)
	}
	c.Message = []string{verdict.Heard}
	return verdict.Echo() + "\n", nil
}

// telegramEar is the ear as the Telegram transport wants it.
type telegramEar struct{ voice.Ear }

// What is said of a recording that isn't heard.
const (
	noSpeech = "I can only listen to voice notes. Record one here, or type it: 12 set 45s 1-1/2 pvc"
	cutOff   = "That note breaks off in the middle. Say it again, please."
	tooLong  = "That's too long for me: up to a minute, please, one thing at a time."
)

// Hear makes a verdict of a recording, and words it.
func (e telegramEar) Hear(ctx context.Context, recording io.Reader) (telegram.Heard, error) {
	verdict, err := hear(ctx, e.Ear, recording)
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
