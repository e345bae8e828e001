package serve

import (
	"errors"
	"fmt"
	"io/fs"
	"log/slog"
	"net"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"

	"dogleg/bot/telegram"
	"dogleg/store/cluster"
)

// setting is one environment variable that serve looks at: what deploy/README.md says
// of it, and whether a value will do.
type setting struct {
	name    string
	meaning string
	without string // what holds where it is not set
	check   func(value string) error
}

// settings are all of them, in the order of deploy/README.md's table, which a test
// holds against this one.
var settings = []setting{
	{"DOGLEG_TOKEN", "the token itself; ahead of the next two", "none", func(v string) error { return second(tokenIn("DOGLEG_TOKEN", v)) }},
	{"DOGLEG_TOKEN_FILE", "a file that holds the token", "none", func(v string) error { return second(tokenFrom(v)) }},
	{"CREDENTIALS_DIRECTORY", "set by systemd: the token is the file `token` in it", "none", isFolder},
	{"DOGLEG_DB", "the database; its folder must exist", "`dogleg/dogleg.db` under your data folder", canHoldDatabase},
	{"DOGLEG_STORE", "the servers of NATS that several machines share, `nats://10.0.0.1:4222,10.0.0.2:4222`, instead of one database file (see *On several machines*)", "one file", sharedStore},
	{"DOGLEG_ROLES", "with those, what this process does: `receive`, `work`, `hear`, with commas", "all three", func(v string) error { return second(rolesOf(v)) }},
	{"DOGLEG_JOBS", "how many jobs are kept for each person", "200", func(v string) error { return second(jobsKept(v)) }},
	{"DOGLEG_API_ENDPOINT", "another Bot API server, `http://127.0.0.1:8081`", "Telegram's own", func(v string) error { return second(endpoint(v)) }},
	{"DOGLEG_WEBHOOK_URL", "where Telegram is to call, `https://bot.example.org/juniper`, instead of being polled", "long polling", func(v string) error { return second(webhookAddress(v)) }},
	{"DOGLEG_WEBHOOK_LISTEN", "where the reverse proxy passes those calls on to, host and port", defaultWebhookListen, func(v string) error { return second(webhookListen(v)) }},
	{"DOGLEG_RATE", "messages a second over all chats, 1 to 1000; above 30 as paid broadcasts, for which Telegram takes Stars from the bot", "25", func(v string) error { return second(rate(v)) }},
	{"DOGLEG_METRICS", "where Prometheus reads, a port of this machine: `127.0.0.1:9464`", "no metrics", func(v string) error { return second(loopbackPort(v)) }},
	{"DOGLEG_LOG_FORMAT", "`text`, or `json`", "`text`", func(v string) error { return second(logFormat(v)) }},
	{"DOGLEG_LOG_LEVEL", "`debug`, `info`, `warn` or `error`", "`info`", func(v string) error { return second(logLevel(v)) }},
	{"NOTIFY_SOCKET", "set by systemd: where it is told that dogleg is ready, and that it is alive", "nobody is told", nil},
	{"WATCHDOG_USEC", "set by systemd: how often it wants to hear that, in microseconds", "no watchdog", nil},
}

// defaultWebhookListen is a port of this machine alone: the proxy is on it.
const defaultWebhookListen = "127.0.0.1:8080"

// second is the second of two results.
func second[T any](_ T, err error) error { return err }

// firstWrong is the first setting that is set to what won't do.
func firstWrong(env func(string) string) error {
	for _, s := range settings {
		value := env(s.name)
		if value == "" || s.check == nil {
			continue
		}
		if err := s.check(value); err != nil && s.matters(env) {
			return err
		}
	}
	return second(token(env))
}

// matters says whether a setting is looked at, the others being what they are:
// of the three places of a token only the first that is set.
func (s setting) matters(env func(string) string) bool {
	switch s.name {
	case "DOGLEG_TOKEN_FILE":
		return env("DOGLEG_TOKEN") == ""
	case "CREDENTIALS_DIRECTORY":
		return env("DOGLEG_TOKEN") == "" && env("DOGLEG_TOKEN_FILE") == ""
	}
	return true
}

// token finds the bot's token: in the environment, in the file that it names,
// or among the credentials that systemd hands over.
func token(env func(string) string) (string, error) {
	if value := env("DOGLEG_TOKEN"); value != "" {
		return tokenIn("DOGLEG_TOKEN", value)
	}
	path := tokenFile(env)
	if path == "" {
		return "", errors.New("no token: set DOGLEG_TOKEN_FILE to a file that holds it, or DOGLEG_TOKEN to the token (README.md, In Telegram)")
	}
	return tokenFrom(path)
}

// tokenFile is the file that the token is in, empty where it is in none.
func tokenFile(env func(string) string) string {
	path := env("DOGLEG_TOKEN_FILE")
	if folder := env("CREDENTIALS_DIRECTORY"); path == "" && folder != "" {
		path = filepath.Join(folder, "token")
	}
	if env("DOGLEG_TOKEN") != "" {
		return ""
	}
	return path
}

// openToAll says of the token's file that everybody on the machine may read it, empty
// where that isn't so: whoever has the token has the bot.
func openToAll(env func(string) string) string {
	path := tokenFile(env)
	info, err := os.Stat(path)
	if path == "" || err != nil || runtime.GOOS == "windows" || info.Mode().Perm()&0o004 == 0 {
		return ""
	}
	return fmt.Sprintf("everybody on this machine may read the token: chmod 600 %s", path)
}

func tokenFrom(path string) (string, error) {
	content, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	return tokenIn(path, string(content))
}

// tokenShape is that of every token that BotFather hands out: the bot's number,
// a colon, a secret.
var tokenShape = regexp.MustCompile(`^[0-9]+:[A-Za-z0-9_-]{20,}$`)

// tokenIn takes a token from what a place holds. The error doesn't print what
// it found: it may be a token, mistyped.
func tokenIn(place, content string) (string, error) {
	token := strings.TrimSpace(content)
	switch {
	case token == "":
		return "", fmt.Errorf("%s holds no token", place)
	case !tokenShape.MatchString(token):
		return "", fmt.Errorf("%s holds no token; one looks like 1234567:ABC-def_ and so on, as BotFather sent it", place)
	}
	return token, nil
}

func isFolder(path string) error {
	if info, err := os.Stat(path); err != nil || !info.IsDir() {
		return fmt.Errorf("CREDENTIALS_DIRECTORY: %s is no folder; systemd sets it, from LoadCredential", path)
	}
	return nil
}

// canHoldDatabase tries the folder without touching a database that is there.
func canHoldDatabase(path string) error {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("%s: no file, so no database", path)
	}
	folder := filepath.Dir(path)
	probe, err := os.CreateTemp(folder, ".dogleg-new-*")
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: no such folder; make %s, or name another file", path, folder)
	case err != nil:
		return fmt.Errorf("%s: not allowed to write there; let the user that runs dogleg, or name another file", path)
	}
	return errors.Join(probe.Close(), os.Remove(probe.Name()))
}

// endpoint checks the address of a Bot API server; empty is Telegram's own.
func endpoint(address string) (string, error) {
	if address == "" {
		return telegram.DefaultBase, nil
	}
	u, err := url.Parse(address)
	if err != nil || u.Host == "" || (u.Scheme != "http" && u.Scheme != "https") || u.RawQuery != "" {
		return "", errors.New("DOGLEG_API_ENDPOINT is no web address such as http://127.0.0.1:8081")
	}
	return strings.TrimRight(address, "/"), nil
}

// webhookPorts are those that Telegram calls, by the Bot API's setWebhook.
var webhookPorts = []string{"443", "80", "88", "8443"}

// ownPaths are asked by service managers on the listener.
var ownPaths = []string{"/healthz", "/readyz"}

// webhookAddress checks the public address as Telegram will.
func webhookAddress(address string) (string, error) {
	u, err := url.Parse(address)
	switch {
	case err != nil || u.Scheme != "https" || u.Hostname() == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "":
		return "", errors.New("DOGLEG_WEBHOOK_URL is no address such as https://bot.example.org/juniper: Telegram calls with TLS only")
	case u.Port() != "" && !slices.Contains(webhookPorts, u.Port()):
		return "", fmt.Errorf("DOGLEG_WEBHOOK_URL has port %s; Telegram calls ports %s", u.Port(), strings.Join(webhookPorts, ", "))
	case slices.Contains(ownPaths, u.Path):
		return "", fmt.Errorf("DOGLEG_WEBHOOK_URL has path %s, which is asked for dogleg's health; take another", u.Path)
	case strings.ContainsAny(u.Path, "{} "):
		return "", errors.New("DOGLEG_WEBHOOK_URL has a path with braces or blanks; take letters and digits")
	}
	return address, nil
}

// rate is how many messages a second go out over all chats.
func rate(value string) (perSecond int, err error) {
	if value == "" {
		return telegram.UsualRate, nil
	}
	perSecond, err = strconv.Atoi(value)
	if err != nil || perSecond < 1 || perSecond > telegram.PaidRate {
		return 0, fmt.Errorf("DOGLEG_RATE is %q; it says how many messages a second go out, 1 to %d", value, telegram.PaidRate)
	}
	return perSecond, nil
}

// hostPort checks an address to listen on.
func hostPort(address string) (string, error) {
	_, port, err := net.SplitHostPort(address)
	if err != nil {
		return "", fmt.Errorf("%s is no address such as %s", address, defaultWebhookListen)
	}
	if n, err := strconv.ParseUint(port, 10, 16); err != nil || n == 0 && port != "0" {
		return "", fmt.Errorf("%s has no port from 1 to 65535", address)
	}
	return address, nil
}

// webhookListen checks where the proxy passes calls on to.
func webhookListen(address string) (string, error) {
	if _, err := hostPort(address); err != nil {
		return "", fmt.Errorf("DOGLEG_WEBHOOK_LISTEN: %w", err)
	}
	return address, nil
}

// loopbackPort checks an address that is this machine's alone: metrics need no
// password there, and a port that is open by mistake is found by strangers.
func loopbackPort(address string) (string, error) {
	if _, err := hostPort(address); err != nil {
		return "", fmt.Errorf("DOGLEG_METRICS: %w", err)
	}
	host, _, _ := net.SplitHostPort(address)
	if ip, err := netip.ParseAddr(host); (err != nil || !ip.IsLoopback()) && host != "localhost" {
		return "", fmt.Errorf("DOGLEG_METRICS: %s can be read from other machines; take 127.0.0.1, and let Prometheus read on this one", address)
	}
	return address, nil
}

// sharedStore checks the address of the servers of NATS. It never prints it:
// there may be a password in it.
func sharedStore(address string) error {
	if err := cluster.CheckAddress(address); err != nil {
		return fmt.Errorf("DOGLEG_STORE: %w", err)
	}
	return nil
}

func logFormat(value string) (string, error) {
	switch value {
	case "", "text", "json":
		return value, nil
	}
	return "", fmt.Errorf("DOGLEG_LOG_FORMAT is text or json, not %q", value)
}

func logLevel(value string) (level slog.Level, err error) {
	switch value {
	case "":
		return slog.LevelInfo, nil
	case "debug", "info", "warn", "error":
		return level, level.UnmarshalText([]byte(value))
	}
	return 0, fmt.Errorf("DOGLEG_LOG_LEVEL is debug, info, warn or error, not %q", value)
}
