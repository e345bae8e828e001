package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"
	"time"

	"dogleg/bot"
	"dogleg/bot/figure"
	"dogleg/parser"
	"dogleg/store"
)

type askCommand struct {
	JSON     bool     `name:"json" help:"Print one JSON object for each thing asked, one a line."`
	DB       string   `name:"db" placeholder:"FILE" help:"Go on with the conversation kept in this database. Without it there is none."`
	User     string   `placeholder:"NAME" help:"Whose conversation it is, with --db; else that of dogleg chat."`
	Handbook string   `placeholder:"two|three" help:"Figure with multipliers rounded to two or three decimals, as exam keys print them."`
	Metric   bool     `help:"Millimeters first."`
	Code     string   `placeholder:"NAME" help:"Cite the least fall of drains by this code: IPC, UPC, BS EN 12056 or AS/NZS 3500. Without it none is."`
	Sketch   string   `placeholder:"FILE" help:"Draw the answer too, into FILE.png or FILE.svg; what is wrapped around a pipe into FILE.pdf."`
	Voice    string   `placeholder:"NOTE" help:"Answer a voice note instead: Ogg with Opus, as phones send it, or WAV."`
	Why      bool     `help:"Print what the words speak for instead: the reading taken, and the likeliest other."`
	Message  []string `arg:"" optional:"" help:"What you would text a mate."`
}

// Run answers one message. What it prints on standard output is the reply, or
// the record of it, whether that is an answer or not.
func (c askCommand) Run(ctx context.Context, world streams) error {
	if err := c.sketchable(); err != nil {
		return err
	}
	if err := c.readIn(world); err != nil {
		return err
	}
	if c.Why {
		return printWhy(world.out, strings.Join(c.Message, " "))
	}
	echo, err := c.listen(ctx, world)
	if err != nil {
		return err
	}
	reply, err := c.reply(world)
	if err != nil {
		return err
	}
	reply.Text = echo + reply.Text
	reply = keepFiles(&bot.Conversation{Log: logTo(world.err)}, reply, filepath.Dir(c.DB))
	if err := c.print(world, reply); err != nil {
		return err
	}
	if !reply.Understood {
		return errNotAnswered
	}
	if c.Sketch != "" {
		return c.draw()
	}
	return nil
}

// printWhy prints what speaks for the likeliest reading of a message and what for the
// likeliest other: a line for each stretch with what it is taken for, and its weight.
func printWhy(w io.Writer, text string) error {
	lines := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for i, reading := range parser.Why(text) {
		total := 0.0
		if i > 0 {
			fmt.Fprintln(lines, "or")
		}
		for _, r := range reading {
			fmt.Fprintf(lines, "%q\t%s\t%+.1f\n", r.Text, r.As, r.Weight)
			total += r.Weight
		}
		fmt.Fprintf(lines, "\t\t%+.1f\n", total)
	}
	return lines.Flush()
}

// mostPiped is how much of a message is read that is piped in.
const mostPiped = 1 << 20

// readIn takes the message from the standard input where no argument holds one,
// unless a person sits there; or where a lone dash asks for that.
func (c *askCommand) readIn(world streams) error {
	dash := len(c.Message) == 1 && c.Message[0] == "-"
	if !dash && (len(c.Message) > 0 || c.Voice != "" || isTerminal(world.in)) {
		return nil
	}
	text, err := io.ReadAll(io.LimitReader(world.in, mostPiped))
	if err != nil {
		return err
	}
	c.Message = nil
	if words := strings.TrimSpace(string(text)); words != "" {
		c.Message = []string{words}
	}
	return nil
}

func (c askCommand) reply(world streams) (reply bot.Reply, err error) {
	handbook, known := handbooks[c.Handbook]
	if !known {
		return reply, fmt.Errorf("--handbook is two or three, not %q", c.Handbook)
	}
	code, known := figure.CodeNamed(c.Code)
	if c.Code != "" && !known {
		return reply, fmt.Errorf("--code is IPC, UPC, BS EN 12056 or AS/NZS 3500, not %q", c.Code)
	}
	conversation := bot.Conversation{Log: logTo(world.err), Handbook: handbook, Metric: c.Metric, Code: code}
	message := bot.Message{Text: strings.Join(c.Message, " "), When: time.Now(), From: c.User}
	switch {
	case c.DB == "" && c.User != "":
		return reply, errors.New("--user says whose conversation it is, and needs --db FILE, which keeps it")
	case c.DB == "":
		return conversation.Handle(message, new(bot.Forgetful)), nil
	}
	db, err := store.Open(c.DB)
	if err != nil {
		return reply, err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	return answer(db, &conversation, message, atTheTerminal(c.User))
}

func (c askCommand) print(world streams, reply bot.Reply) error {
	if !c.JSON {
		_, err := fmt.Fprintln(world.out, reply.Text)
		return err
	}
	lines := json.NewEncoder(world.out)
	lines.SetEscapeHTML(false)
	for _, record := range reply.Records {
		if err := lines.Encode(record); err != nil {
			return err
		}
	}
	return nil
}

// handbooks are the values of --handbook.
var handbooks = map[string]figure.HandbookSet{
	"":      figure.ExactFigures,
	"two":   figure.TwoDecimals,
	"three": figure.ThreeDecimals,
}
