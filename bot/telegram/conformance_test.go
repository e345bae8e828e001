package telegram_test

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dogleg/bot/telegram/loopback"
)

// checkNoToken fails the test if the secret half of the token stands anywhere
// in a text.
func checkNoToken(t *testing.T, text string) {
	t.Helper()
	_, secret, _ := strings.Cut(loopback.Token, ":")
	if strings.Contains(text, secret) {
		t.Errorf("the token is in:\n%s", text)
	}
}

//go:embed testdata/bot-api.json
var botAPI []byte

// field is one parameter of a method or one field of a type, as the Bot API
// documents it.
type field struct {
	Name     string
	Types    []string
	Required bool
}

type specification struct {
	Methods map[string][]field
	Types   map[string][]field
	Unions  map[string][]string // types that are one of others
}

// checkCalls holds every call against the documentation of the Bot API as
// others have made data of it: no parameter that it doesn't know, none missing
// that it requires, each of a type that it takes. Every test ends with it.
func checkCalls(t *testing.T, calls []loopback.Call) {
	t.Helper()
	for _, c := range calls {
		if problem := specified(t).call(c); problem != "" {
			t.Errorf("%s(%v): %s", c.Method, c.Params, problem)
		}
	}
}

func specified(t *testing.T) (s specification) {
	t.Helper()
	if err := json.Unmarshal(botAPI, &s); err != nil {
		t.Fatal(err)
	}
	return s
}

func (s specification) call(c loopback.Call) string {
	fields, known := s.Methods[c.Method]
	if !known {
		return "no such method"
	}
	values := map[string]any{}
	for name, text := range c.Params {
		values[name] = text
	}
	return s.object(fields, values)
}

// object says what is wrong with the fields of an object, "" if nothing is.
func (s specification) object(fields []field, values map[string]any) string {
	for name := range values {
		if !slices.ContainsFunc(fields, func(f field) bool { return f.Name == name }) {
			return "no such field " + name
		}
	}
	for _, f := range fields {
		value, present := values[f.Name]
		switch {
		case !present && f.Required:
			return f.Name + " is required"
		case present && !slices.ContainsFunc(f.Types, func(t string) bool { return s.is(t, value) }):
			return fmt.Sprintf("%s is %v, not %v", f.Name, value, f.Types)
		}
	}
	return ""
}

// is says whether a value is of a documented type. A parameter comes as text,
// and is then JSON unless a text is wanted; a field in it comes as decoded.
func (s specification) is(kind string, value any) bool {
	text, isText := value.(string)
	if isText && kind != "String" && !decode(text, &value) {
		return false
	}
	element, isArray := strings.CutPrefix(kind, "Array of ")
	switch {
	case isArray:
		list, ok := value.([]any)
		return ok && !slices.ContainsFunc(list, func(v any) bool { return !s.is(element, v) })
	case kind == "String":
		return isText
	case kind == "Boolean":
		_, ok := value.(bool)
		return ok
	case kind == "Integer":
		number, ok := value.(json.Number)
		_, err := strconv.ParseInt(number.String(), 10, 64)
		return ok && err == nil
	}
	if others, ok := s.Unions[kind]; ok {
		return slices.ContainsFunc(others, func(other string) bool { return s.is(other, value) })
	}
	object, ok := value.(map[string]any)
	fields, known := s.Types[kind]
	return ok && known && s.object(fields, object) == ""
}

func decode(text string, into *any) bool {
	d := json.NewDecoder(bytes.NewReader([]byte(text)))
	d.UseNumber()
	return d.Decode(into) == nil && !d.More()
}

func TestCallsThatTheBotAPIDoesNotKnowAreFound(t *testing.T) {
	sound := map[string]string{"chat_id": "12", "text": "Cut 14-3/4 in", "reply_parameters": `{"message_id":7}`}
	for _, c := range []struct{ method, name, value string }{
		{"sendMessages", "text", "x"},                           // the method is sendMessage
		{"sendMessage", "thread_id", "7"},                       // message_thread_id
		{"sendMessage", "message_thread_id", "seven"},           // an integer
		{"sendMessage", "chat_id", ""},                          // taken out below
		{"sendMessage", "reply_parameters", `{}`},               // message_id is required
		{"sendMessage", "reply_parameters", `{"message":7}`},    // no such field
		{"sendMessage", "link_preview_options", `"disabled"`},   // an object
		{"sendMessage", "protect_content", "1"},                 // a boolean
		{"getUpdates", "allowed_updates", `[1]`},                // of strings
		{"setMyCommands", "commands", `[{"command":"help"}]`},   // no description
		{"editMessageText", "link_preview_options", `[[true]]`}, // an object
	} {
		params := map[string]string{}
		if c.method == "sendMessage" {
			maps.Copy(params, sound)
		}
		params[c.name] = c.value
		if c.value == "" {
			delete(params, c.name)
		}
		if specified(t).call(loopback.Call{Method: c.method, Params: params}) == "" {
			t.Errorf("%s with %s = %q passes", c.method, c.name, c.value)
		}
	}
	if problem := specified(t).call(loopback.Call{Method: "sendMessage", Params: sound}); problem != "" {
		t.Error(problem)
	}
}
