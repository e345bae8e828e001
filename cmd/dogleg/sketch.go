package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"dogleg/bot"
	"dogleg/bot/figure"
	"dogleg/bot/sketch"
	"dogleg/bot/wording"
)

// writers put a drawing down, by the ending of the file's name.
var writers = map[string]func(*sketch.Drawing, io.Writer) error{
	".png": (*sketch.Drawing).PNG,
	".svg": (*sketch.Drawing).SVG,
}

// sketchable finds what is wrong with --sketch before anything is answered.
func (c askCommand) sketchable() error {
	switch {
	case c.Sketch == "":
		return nil
	case writers[c.ending()] == nil && c.ending() != ".pdf":
		return fmt.Errorf("--sketch draws a .png or an .svg, or a .pdf to wrap around a pipe, not %q", c.Sketch)
	case c.DB != "":
		return errors.New("--sketch draws what one message says, and can't go with --db")
	}
	return nil
}

// draw writes the picture of the answer to a message that was answered. The
// file is written whole or not at all.
func (c askCommand) draw() error {
	answer, err := c.toDraw()
	if err != nil {
		return err
	}
	o := wording.Options{Language: answer.Ask.Language, Metric: c.Metric}
	if c.ending() == ".pdf" {
		return c.template(answer, o)
	}
	drawing, err := sketch.Draw(answer, o)
	if errors.Is(err, sketch.ErrNothingToDraw) {
		return errors.New("--sketch: there is nothing to draw of this answer")
	}
	if err != nil {
		return err
	}
	var picture bytes.Buffer
	if err := writers[c.ending()](drawing, &picture); err != nil {
		return err
	}
	return os.WriteFile(c.Sketch, picture.Bytes(), 0o644)
}

// ending is that of the file's name, which says how to draw.
func (c askCommand) ending() string { return strings.ToLower(filepath.Ext(c.Sketch)) }

// template writes the sheet that is wrapped around a pipe.
func (c askCommand) template(a *figure.Answer, o wording.Options) error {
	template, err := sketch.TemplateOf(a, o)
	switch {
	case errors.Is(err, sketch.ErrNothingToDraw):
		return errors.New("--sketch: nothing of this answer is wrapped around a pipe; draw a .png")
	case errors.Is(err, sketch.ErrTooLarge):
		return errors.New("--sketch: this cut is deeper than a sheet of paper is long")
	case err != nil:
		return err
	}
	var sheet bytes.Buffer
	if err := template.PDF(&sheet, time.Now()); err != nil {
		return err
	}
	return os.WriteFile(c.Sketch, sheet.Bytes(), 0o644)
}

// toDraw is the answer of a message that asks for one thing. Without a database
// no one's takeoffs are known, so it is the one that the reply was made of.
func (c askCommand) toDraw() (*figure.Answer, error) {
	ask, ok := (&bot.Conversation{Metric: c.Metric}).Asked(strings.Join(c.Message, " "))
	if !ok {
		return nil, errors.New("--sketch draws one answer; this message has none, or more than one")
	}
	return figure.Solve(ask, figure.Settings{Handbook: handbooks[c.Handbook], Metric: c.Metric})
}
