package terminal_test

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"testing"

	"dogleg/bot"
	"dogleg/bot/terminal"
	"dogleg/bot/wording"

	"github.com/google/go-cmp/cmp"
)

// echo answers with what it heard, and remembers it.
func echo(heard *[]string) terminal.Handler {
	return func(line string) (bot.Reply, error) {
		*heard = append(*heard, line)
		return bot.Reply{Text: "heard " + line}, nil
	}
}

func TestPipe(t *testing.T) {
	var heard []string
	var out bytes.Buffer
	in := strings.NewReader("10 set 45s 2 pvc\r\n\n   \n  explain  \nno newline at the end")
	if err := terminal.Chat(t.Context(), in, &out, echo(&heard), false); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff([]string{"10 set 45s 2 pvc", "explain", "no newline at the end"}, heard); diff != "" {
		t.Errorf("heard (-want +got):\n%s", diff)
	}
	want := "heard 10 set 45s 2 pvc\n\nheard explain\n\nheard no newline at the end\n\n"
	if out.String() != want {
		t.Errorf("a pipe got %q, want the replies alone, %q", out.String(), want)
	}
}

func TestPersonIsGreetedAndPrompted(t *testing.T) {
	var heard []string
	var out bytes.Buffer
	if err := terminal.Chat(t.Context(), strings.NewReader("jobs\n"), &out, echo(&heard), true); err != nil {
		t.Fatal(err)
	}
	greeting, rest, ok := strings.Cut(out.String(), "\n\n> ")
	if !ok || rest != "heard jobs\n\n> \n" {
		t.Errorf("after the greeting: %q, want a prompt, the reply, a prompt and the end of its line", rest)
	}
	for _, example := range wording.Examples(wording.Options{}) {
		if !strings.Contains(greeting, "\n"+example.Ask+": "+example.Gives+"\n") {
			t.Errorf("the greeting lacks the example %q", example.Ask)
		}
	}
}

func TestQuitEndsTheChat(t *testing.T) {
	for _, word := range []string{"quit", "exit", " Quit ", "bye", "salir"} {
		var heard []string
		in := strings.NewReader(word + "\n10 set 45s 2 pvc\n")
		if err := terminal.Chat(t.Context(), in, io.Discard, echo(&heard), false); err != nil {
			t.Fatal(err)
		}
		if len(heard) != 0 {
			t.Errorf("after %q it went on: %q", word, heard)
		}
	}
}

func TestLongLines(t *testing.T) {
	longest := strings.Repeat("x", terminal.LongestLine)
	for name, text := range map[string]string{
		"one byte too many": longest + "x\n",
		"very many":         strings.Repeat(longest, 50) + "\n",
		"without an end":    strings.Repeat(longest, 3),
	} {
		t.Run(name, func(t *testing.T) {
			var heard []string
			var out bytes.Buffer
			in := io.MultiReader(strings.NewReader(longest+"\n"), strings.NewReader(text), strings.NewReader("\njobs\n"))
			if err := terminal.Chat(t.Context(), in, &out, echo(&heard), false); err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff([]string{longest, "jobs"}, heard); diff != "" {
				t.Errorf("heard %d lines, want the longest allowed and the one after", len(heard))
			}
			if n := strings.Count(out.String(), "more than I can read"); n != 1 {
				t.Errorf("refused %d times, want once", n)
			}
		})
	}
}

// never is a reader on which nothing ever comes.
type never struct{ done chan struct{} }

func (n never) Read([]byte) (int, error) { <-n.done; return 0, io.EOF }

func TestContextEndsTheChat(t *testing.T) {
	in := never{make(chan struct{})}
	defer close(in.done)
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error)
	go func() { ended <- terminal.Chat(ctx, in, io.Discard, echo(new([]string)), true) }()
	cancel()
	if err := <-ended; err != nil { // a chat that didn't end would hang here
		t.Errorf("Chat: %v, want no error for an end that was asked for", err)
	}
}

type broken struct{}

var errBroken = errors.New("broken pipe")

func (broken) Read([]byte) (int, error)  { return 0, errBroken }
func (broken) Write([]byte) (int, error) { return 0, errBroken }

func TestErrorsEndTheChat(t *testing.T) {
	handle := echo(new([]string))
	full := func(string) (bot.Reply, error) { return bot.Reply{}, errBroken }
	line := strings.NewReader("jobs\njobs\n")
	for name, err := range map[string]error{
		"in":      terminal.Chat(t.Context(), broken{}, io.Discard, handle, false),
		"out":     terminal.Chat(t.Context(), strings.NewReader("jobs\n"), broken{}, handle, false),
		"handler": terminal.Chat(t.Context(), line, io.Discard, full, false),
	} {
		if !errors.Is(err, errBroken) {
			t.Errorf("%s is broken: %v, want its error", name, err)
		}
	}
}
