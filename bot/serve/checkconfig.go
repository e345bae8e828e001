package serve

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"dogleg/bot/voice"
)

// errSettings ends a check of the settings where something won't do; what that is was
// printed.
var errSettings = errors.New("these settings won't do; what is wrong is said above")

// CheckConfig prints a line for each setting: what holds where it isn't set,
// that it will do, or what is wrong with it and what would do. It asks nobody
// on the network, and never prints a token.
func CheckConfig(d Database, out io.Writer) error {
	bad := false
	say := func(name, text string, wrong bool) {
		fmt.Fprintf(out, "%-22s %s\n", name, text)
		bad = bad || wrong
	}
	for _, s := range settings {
		text, wrong := d.verdict(s)
		say(s.name, text, wrong)
	}
	for _, name := range unknownSettings(os.Environ()) {
		say(name, "wrong: there is no setting of this name", true)
	}
	if _, err := token(d.Env); err != nil && noToken(d.Env) {
		say("the token", "wrong: "+err.Error(), true)
	}
	if warning := openToAll(d.Env); warning != "" {
		say("the token", "careful: "+warning, false)
	}
	say("voice notes", earState(), false)
	if bad {
		return errSettings
	}
	return nil
}

// verdict says of one setting what it is, and whether that is wrong.
func (d Database) verdict(s setting) (text string, wrong bool) {
	value := d.Env(s.name)
	switch {
	case s.name == "DOGLEG_DB" && d.File != "":
		if err := canHoldDatabase(d.File); err != nil {
			return "wrong: --db " + err.Error(), true
		}
		return "not looked at: --db goes before it", false
	case value == "":
		return "not set: " + strings.ReplaceAll(s.without, "`", ""), false
	case !s.matters(d.Env):
		return "not looked at: an earlier one has the token", false
	case s.check == nil:
		return "ok", false
	}
	if err := s.check(value); err != nil {
		return "wrong: " + err.Error(), true
	}
	return "ok", false
}

func noToken(env func(string) string) bool {
	return env("DOGLEG_TOKEN") == "" && env("DOGLEG_TOKEN_FILE") == ""
}

// unknownSettings are variables with our name in front that nothing looks at:
// most likely a typing error, which would go unnoticed.
func unknownSettings(environment []string) (names []string) {
	for _, pair := range environment {
		name, value, _ := strings.Cut(pair, "=")
		if value != "" && strings.HasPrefix(name, "DOGLEG_") && !isSetting(name) {
			names = append(names, name)
		}
	}
	return names
}

func isSetting(name string) bool {
	for _, s := range settings {
		if s.name == name {
			return true
		}
	}
	return false
}

func earState() string {
	ear, err := voice.NewPocketsphinx(voice.DefaultSounds)
	if err != nil {
		return "not heard: " + err.Error()
	}
	ear.Close()
	return "heard"
}
