package loopback

import (
	"html"
	"regexp"
	"strings"
	"unicode/utf16"
)

var (
	commandName = regexp.MustCompile(`^[a-z0-9_]{1,32}$`)
	tag         = regexp.MustCompile(`<(/?)([^<>]*)>`)
	escape      = regexp.MustCompile(`^&(lt|gt|amp|quot|#[0-9]+|#x[0-9a-fA-F]+);`)
)

// allowedTags are the simple ones of the Bot API's HTML mode.
var allowedTags = map[string]bool{
	"b": true, "strong": true, "i": true, "em": true, "u": true, "ins": true,
	"s": true, "strike": true, "del": true, "code": true, "pre": true, "blockquote": true,
}

func unitsOf(text string) int { return len(utf16.Encode([]rune(strings.TrimSpace(text)))) }

// plainOf takes the tags out of a text in HTML mode and says what is wrong
// with it: an unknown tag, one not closed, a bare <.
func plainOf(text string) (plain, problem string) {
	var open []string
	for _, m := range tag.FindAllStringSubmatch(text, -1) {
		closing, name := m[1] == "/", m[2]
		switch {
		case !allowedTags[name]:
			return "", `Unsupported start tag "` + name + `"`
		case !closing:
			open = append(open, name)
		case len(open) == 0 || open[len(open)-1] != name:
			return "", `Unexpected end tag "` + name + `"`
		default:
			open = open[:len(open)-1]
		}
	}
	if len(open) > 0 {
		return "", `Can't find end tag corresponding to start tag "` + open[0] + `"`
	}
	bare := tag.ReplaceAllString(text, "")
	if strings.ContainsAny(bare, "<>") {
		return "", "Unsupported start tag"
	}
	for rest := bare; ; {
		at := strings.IndexByte(rest, '&')
		if at < 0 {
			return html.UnescapeString(bare), ""
		}
		if rest = rest[at:]; !escape.MatchString(rest) {
			return "", "Unescaped &"
		}
		rest = rest[1:]
	}
}
