package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// usage is a command line that can't be carried out, in one line with what was
// probably meant.
func usage(args []string, cause error) error {
	if len(args) > 0 {
		if way := elsewhere(args); way != "" {
			return fmt.Errorf("no command %q; %s", args[0], way)
		}
	}
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") && !slices.Contains(names, args[0]) {
		return fmt.Errorf("no command %q; did you mean: dogleg ask %s", args[0], quoted(strings.Join(args, " ")))
	}
	if i := slices.IndexFunc(args, beginsNegative); i > 0 && args[0] == "ask" {
		return fmt.Errorf("%q looks like a flag; did you mean: dogleg ask -- %s", args[i], quoted(strings.Join(args[i:], " ")))
	}
	return fmt.Errorf("%w (dogleg --help lists what there is)", cause)
}

// elsewhere says where what people look for among the commands is to be had; it is
// empty where that isn't known.
func elsewhere(args []string) string {
	message := strings.Join(args[1:], " ")
	switch args[0] {
	case "draw", "sketch", "picture":
		if message == "" || strings.HasPrefix(message, "-") {
			message = "12 set 45s 2 pvc"
		}
		return "to draw an answer: dogleg ask --sketch offset.png " + quoted(message)
	case "practice", "exam", "explain", "why", "jobs", "list", "undo", "settings":
		return "talk to it: dogleg chat, and then: " + strings.Join(args, " ")
	case "help":
		return "dogleg help COMMAND, or dogleg --help"
	}
	return ""
}

// asHelp makes of dogleg help, and dogleg help ask, what asks for help.
func asHelp(args []string) []string {
	switch {
	case len(args) == 1 && args[0] == "help":
		return []string{"--help"}
	case len(args) == 2 && args[0] == "help" && slices.Contains(names, args[1]):
		return []string{args[1], "--help"}
	}
	return args
}

// beginsNegative says whether an argument is a figure with a minus before it.
func beginsNegative(arg string) bool {
	return len(arg) > 1 && arg[0] == '-' && unicode.IsDigit(rune(arg[1]))
}

// names are the commands' names.
var names = []string{"chat", "ask", "serve", "hear", "takeoffs", "backup", "restore", "export", "check", "version"}

// quoted writes a message as the shell wants it. Feet and inches carry both
// kinds of quotes, so those have to be escaped.
func quoted(message string) string {
	if !strings.Contains(message, "'") {
		return "'" + message + "'"
	}
	escape := strings.NewReplacer(`\`, `\\`, `"`, `\"`, "$", `\$`, "`", "\\`")
	return `"` + escape.Replace(message) + `"`
}
