package main

import (
	"context"
	"errors"
	"fmt"
	"os"

	"dogleg/bot"
	"dogleg/bot/hearing"
	"dogleg/bot/serve"
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
	return serve.Hear(ctx, ear, f)
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
