package wire

import (
	"context"
	"fmt"
	"log/slog"
	"regexp"
	"strings"
)

// anyToken is what tokens look like, ours and others', as they are or as they
// stand in an address.
var anyToken = regexp.MustCompile(`\d{5,}(:|%3A)[A-Za-z0-9_-]{20,}`)

const hidden = "<token>"

// redact takes the token out of a text.
func redact(text, token string) string {
	if token != "" {
		text = strings.ReplaceAll(text, token, hidden)
	}
	return anyToken.ReplaceAllString(text, hidden)
}

// Redacting is a log handler that lets no token through, neither this one nor what
// looks like one.
func Redacting(to slog.Handler, token string) slog.Handler { return redacting{to, token} }

// redacting is a log handler that lets no token through.
type redacting struct {
	to    slog.Handler
	token string
}

func (h redacting) Enabled(ctx context.Context, l slog.Level) bool { return h.to.Enabled(ctx, l) }

func (h redacting) Handle(ctx context.Context, r slog.Record) error {
	clean := slog.NewRecord(r.Time, r.Level, redact(r.Message, h.token), r.PC)
	r.Attrs(func(a slog.Attr) bool {
		clean.AddAttrs(h.attr(a))
		return true
	})
	return h.to.Handle(ctx, clean)
}

func (h redacting) WithAttrs(attrs []slog.Attr) slog.Handler {
	return redacting{h.to.WithAttrs(h.attrs(attrs)), h.token}
}

func (h redacting) WithGroup(name string) slog.Handler {
	return redacting{h.to.WithGroup(name), h.token}
}

func (h redacting) attrs(attrs []slog.Attr) []slog.Attr {
	clean := make([]slog.Attr, len(attrs))
	for i, a := range attrs {
		clean[i] = h.attr(a)
	}
	return clean
}

// attr keeps numbers and times as they are and redacts the text of all else.
func (h redacting) attr(a slog.Attr) slog.Attr {
	switch v := a.Value.Resolve(); v.Kind() {
	case slog.KindString, slog.KindAny:
		return slog.String(a.Key, redact(v.String(), h.token))
	case slog.KindGroup:
		return slog.Attr{Key: a.Key, Value: slog.GroupValue(h.attrs(v.Group())...)}
	case slog.KindBool, slog.KindDuration, slog.KindFloat64, slog.KindInt64,
		slog.KindTime, slog.KindUint64, slog.KindLogValuer:
	}
	return a
}

// libraryLog is where the Telegram library's own lines go.
type libraryLog struct{ log *slog.Logger }

func (l libraryLog) Println(v ...any) { l.log.Warn(strings.TrimSpace(fmt.Sprintln(v...))) }

func (l libraryLog) Printf(format string, v ...any) {
	l.log.Warn(strings.TrimSpace(fmt.Sprintf(format, v...)))
}
