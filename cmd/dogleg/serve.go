package main

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"dogleg/bot"
	"dogleg/bot/telegram"
	"dogleg/bot/voice"
)

// serveCommand has no flag for the token on purpose: everyone on the machine
// sees a program's flags.
type serveCommand struct{ databaseFlag }

// Run serves until the context ends. What is wrong with the settings is found
// before anything is opened or sent.
func (c serveCommand) Run(ctx context.Context, world streams) (err error) {
	token, err := token(world.env)
	if err != nil {
		return err
	}
	base, err := endpoint(world.env("DOGLEG_API_ENDPOINT"))
	if err != nil {
		return err
	}
	db, err := c.open(world.env)
	if err != nil {
		return err
	}
	log := logTo(world.err)
	if err := whole(db, log); err != nil {
		return errors.Join(err, db.Close())
	}
	config := telegram.Config{
		Token:  token,
		Base:   base,
		Memory: memory{db, &bot.Conversation{Log: log}},
		Log:    log,
	}
	if ear, err := voice.NewPocketsphinx(voice.DefaultSounds); err != nil {
		log.Warn("voice notes are not heard", "error", err)
	} else {
		defer ear.Close()
		config.Ear = telegramEar{ear}
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	defer keepCompact(ctx, db, log)()
	defer c.handOutBackups(db, world.env, log)()
	return telegram.Serve(ctx, config)
}

// token finds the bot's token: in the environment, in the file that it names,
// or among the credentials that systemd hands over.
func token(env func(string) string) (string, error) {
	if value := env("DOGLEG_TOKEN"); value != "" {
		return tokenIn("DOGLEG_TOKEN", value)
	}
	path := env("DOGLEG_TOKEN_FILE")
	if folder := env("CREDENTIALS_DIRECTORY"); path == "" && folder != "" {
		path = filepath.Join(folder, "token")
	}
	if path == "" {
		return "", errors.New("no token: set DOGLEG_TOKEN_FILE to a file that holds it, or DOGLEG_TOKEN to the token (README.md, Telegram)")
	}
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
