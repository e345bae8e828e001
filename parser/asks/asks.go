// Package asks reads the corpus of messages under testdata/asks: what people
// type, and below each message what must be understood. Its form is described
// in the README beside the files; it is for tests.
package asks

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
)

// Expectation is one indented line of the corpus.
type Expectation struct {
	Mark string              // "", ?, !, ~ or /
	What string              // the kind, the role that is missing, the trouble or the verb
	Kind string              // the kind of ask, where one is named
	Keys map[string][]string // what the message states
	Line string              // as it stands in the file
}

// Message is one message of the corpus.
type Message struct {
	File string
	Line int
	Text string
	Want []Expectation
}

// Read reads the corpus files that a pattern names.
func Read(pattern string) ([]Message, error) {
	files, err := filepath.Glob(pattern)
	if err != nil {
		return nil, err
	}
	if len(files) == 0 {
		return nil, os.ErrNotExist
	}
	var all []Message
	for _, name := range files {
		if all, err = readFile(name, all); err != nil {
			return nil, err
		}
	}
	return all, nil
}

func readFile(name string, all []Message) ([]Message, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for n := 1; lines.Scan(); n++ {
		switch line := lines.Text(); {
		case line == "" || strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "\t"):
			m := &all[len(all)-1]
			m.Want = append(m.Want, expect(strings.TrimSpace(line)))
		default:
			all = append(all, Message{File: filepath.Base(name), Line: n, Text: strings.ReplaceAll(line, `\n`, "\n")})
		}
	}
	return all, lines.Err()
}

func expect(line string) Expectation {
	e := Expectation{Keys: map[string][]string{}, Line: line}
	var plain []string
	for w := range strings.FieldsSeq(line) {
		key, value, ok := strings.Cut(w, "=")
		if !ok {
			plain = append(plain, w)
			continue
		}
		if key == "name" || key == "joint" && !strings.Contains(value, "-") {
			value = strings.ReplaceAll(value, "_", " ")
		}
		e.Keys[key] = append(e.Keys[key], value)
	}
	if strings.Contains("?!~/", plain[0]) {
		e.Mark, plain = plain[0], plain[1:]
	}
	e.What = strings.Join(plain, " ")
	switch {
	case e.Mark == "?" && len(plain) > 1 && plain[0] != "two":
		e.What, e.Kind = plain[0], plain[1]
	case e.Mark == "", e.Mark == "~":
		e.Kind = e.What
	case e.Mark == "!" && strings.HasPrefix(e.What, "cannot be built "):
		e.What, e.Kind = "cannot be built", strings.TrimPrefix(e.What, "cannot be built ")
	}
	return e
}
