// Package terminal carries the conversation to and from a terminal, or a pipe:
// one message a line. A person is greeted and prompted; a pipe is not, so that
// what comes out is replies and nothing else.
//
// # Caveats
//
// A line that is longer than [LongestLine] is refused and skipped, up to its
// end; nothing that long was typed with one glove off.
//
// Chat returns when its context ends, but the read that waits for the next line
// can't be called off. It goes on until the reader returns, and what it reads
// then is lost. For a process that ends, that is no matter.
package terminal

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"dogleg/bot"
)

// LongestLine is the longest line that is answered, in bytes.
const LongestLine = 4096

// Handler answers one line. Its error ends the chat: it is not the person's,
// whose misunderstandings are replies, but the machine's.
type Handler func(line string) (bot.Reply, error)

const (
	prompt  = "> "
	tooLong = "That is more than I can read at once. Tell me one piece at a time."
	goodbye = "So long."
)

// Chat answers the lines of in on out, until in ends, someone says quit, or ctx
// does. It returns the error of the handler, of in or of out; that ctx ended is
// none.
func Chat(ctx context.Context, in io.Reader, out io.Writer, handle Handler, interactive bool) error {
	c := &chat{out: bufio.NewWriter(out), handle: handle, interactive: interactive}
	if interactive {
		c.say(bot.Greeting())
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	lines := read(ctx, in)
	for {
		if err := c.prompt(); err != nil {
			return err
		}
		select {
		case <-ctx.Done():
			return c.leave()
		case l, more := <-lines:
			if !more {
				return c.leave()
			}
			if done, err := c.hear(l); done || err != nil {
				return errors.Join(err, c.out.Flush())
			}
		}
	}
}

type chat struct {
	out         *bufio.Writer
	handle      Handler
	interactive bool
}

// prompt puts out all that was said, and for a person the prompt after it.
func (c *chat) prompt() error {
	if c.interactive {
		fmt.Fprint(c.out, prompt)
	}
	return c.out.Flush()
}

// leave ends the line that the prompt stands on.
func (c *chat) leave() error {
	if c.interactive {
		fmt.Fprintln(c.out)
	}
	return c.out.Flush()
}

// say prints a reply, with an empty line after it where the next message
// follows on the same screen.
func (c *chat) say(text string) { fmt.Fprint(c.out, text, "\n\n") }

// hear answers a line; done says that it was the last.
func (c *chat) hear(l line) (done bool, err error) {
	text := strings.TrimSpace(l.text)
	switch {
	case l.err != nil:
		return true, l.err
	case l.long:
		c.say(tooLong)
		return false, nil
	case text == "":
		return false, nil
	case quits(text):
		if c.interactive {
			c.say(goodbye)
		}
		return true, nil
	}
	reply, err := c.handle(text)
	if err != nil {
		return true, err
	}
	c.say(reply.Text)
	return false, nil
}

func quits(text string) bool {
	switch strings.ToLower(text) {
	case "quit", "exit", "bye", "salir":
		return true
	}
	return false
}

// line is one line read, or why there are no more.
type line struct {
	text string
	long bool // more than LongestLine; text is empty
	err  error
}

// read reads lines until in or ctx ends.
func read(ctx context.Context, in io.Reader) <-chan line {
	lines := make(chan line)
	go func() {
		defer close(lines)
		r := bufio.NewReaderSize(in, LongestLine+len("\r\n"))
		for {
			l, more := next(r)
			if l != (line{}) || more {
				select {
				case lines <- l:
				case <-ctx.Done():
					return
				}
			}
			if !more {
				return
			}
		}
	}()
	return lines
}

// next reads one line; more is false after the last.
func next(r *bufio.Reader) (l line, more bool) {
	text, part, err := r.ReadLine()
	l.long = len(text) > LongestLine
	for part && err == nil {
		_, part, err = r.ReadLine()
	}
	switch {
	case errors.Is(err, io.EOF):
		return l, false
	case err != nil:
		l.err = err
		return l, false
	case !l.long:
		l.text = string(text)
	}
	return l, true
}
