// Dogleg figures pipe offsets in a conversation: in the terminal, for one
// message on the command line, or as a Telegram bot.
//
// README.md is its manual; dogleg --help lists the commands and dogleg COMMAND
// --help their flags.
//
// It exits with 0 when it answered, with 2 when a message was not understood,
// can't be built or needs one more fact (the reply on standard output says
// which), and with 1 when something is wrong with the machine or with how
// dogleg was called (one line on standard error says what).
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/signal"
	"syscall"

	"github.com/alecthomas/kong"
)

// The exit statuses.
const (
	answered    = 0
	trouble     = 1
	notAnswered = 2
)

// errNotAnswered says that the reply, already printed, is no answer.
var errNotAnswered = errors.New("not answered")

func main() {
	os.Exit(run())
}

func run() int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	// A second signal ends the process at once: nothing that is kept depends on
	// an end in order.
	context.AfterFunc(ctx, stop)
	return Run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv)
}

// commands is the command line.
type commands struct {
	Chat     chatCommand     `cmd:"" default:"1" help:"Talk in the terminal (what plain dogleg does)."`
	Ask      askCommand      `cmd:"" help:"Figure one message: dogleg ask \"12 set 45s 1-1/2 pvc\"."`
	Hear     hearCommand     `cmd:"" help:"Print what is said in a voice note."`
	Serve    serveCommand    `cmd:"" help:"Run the Telegram bot; the token comes from DOGLEG_TOKEN or DOGLEG_TOKEN_FILE."`
	Takeoffs takeoffsCommand `cmd:"" help:"Take your own takeoffs out of the database as CSV, or put them in."`
	Backup   backupCommand   `cmd:"" help:"Copy the database to a new file."`
	Restore  restoreCommand  `cmd:"" help:"Put a backup in the database's place; what was there is kept beside it."`
	Unread   unreadCommand   `cmd:"" help:"Write what could not be understood, of those who consented."`
	Export   dataCommand     `cmd:"" help:"Write all that is kept of one person as JSON."`
	Check    checkCommand    `cmd:"" help:"Check that the database is whole."`
	Version  versionCommand  `cmd:"" help:"Say which dogleg this is."`
}

// streams is what a command may touch of the world, apart from its files.
type streams struct {
	in       io.Reader
	out, err io.Writer
	env      func(string) string
}

// Run carries out one command line and returns the exit status. It is the whole
// program but for the process: args are without the program's name, env looks a
// variable up. It ends early, and in order, when ctx does.
func Run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer, env func(string) string) int {
	world := streams{in: stdin, out: stdout, err: stderr, env: env}
	err := runCommand(ctx, args, world)
	switch {
	case err == nil:
		return answered
	case errors.Is(err, errNotAnswered):
		return notAnswered
	}
	fmt.Fprintf(stderr, "dogleg: %v\n", err)
	return trouble
}

func runCommand(ctx context.Context, args []string, world streams) error {
	helped := false
	parser, err := kong.New(&commands{},
		kong.Name("dogleg"),
		kong.Description("Figures pipe offsets: message in, cut on the tape out."),
		kong.Writers(world.out, world.err),
		// After printing help kong wants to exit, and goes on if it can't.
		kong.Exit(func(int) { helped = true }),
		kong.BindTo(ctx, (*context.Context)(nil)),
		kong.Bind(world),
	)
	if err != nil {
		return err
	}
	command, err := parser.Parse(asHelp(args))
	switch {
	case helped:
		return nil
	case err != nil:
		return usage(args, err)
	}
	return command.Run()
}

// logTo is the log of what operators are told; messages are never in it.
func logTo(w io.Writer) *slog.Logger { return slog.New(slog.NewTextHandler(w, nil)) }
