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
	if len(args) > 0 && !strings.HasPrefix(args[0], "-") && !slices.Contains(names, args[0]) {
		return fmt.Errorf("no command %q; did you mean: dogleg ask %s", args[0], quoted(strings.Join(args, " ")))
	}
	if i := slices.IndexFunc(args, beginsNegative); i > 0 && args[0] == "ask" {
		return fmt.Errorf("%q looks like a flag; did you mean: dogleg ask -- %s", args[i], quoted(strings.Join(args[i:], " ")))
	}
	return fmt.Errorf("%w (dogleg --help lists what there is)", cause)
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
