package main

import (
	"cmp"
	"context"
	"errors"
	"io"
	"log/slog"
	"net"

	"dogleg/bot"
	"dogleg/bot/telegram"
	"dogleg/bot/voice"
	"dogleg/store"
)

// serveCommand has no flag for the token on purpose: everyone on the machine
// sees a program's flags.
type serveCommand struct {
	databaseFlag
	CheckConfig bool `help:"Say of each setting whether it will do, and what would, and serve nothing."`
}

// Run serves until the context ends. What is wrong with the settings is found
// before anything is opened or sent.
func (c serveCommand) Run(ctx context.Context, world streams) (err error) {
	if c.CheckConfig {
		return c.checkConfig(world)
	}
	if err := firstWrong(c.databaseLast(world.env)); err != nil {
		return err
	}
	db, err := c.open(world.env)
	if err != nil {
		return err
	}
	log := serviceLog(world.err, world.env)
	if err := soundPages(db); err != nil {
		return errors.Join(err, db.Close())
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	defer readThrough(ctx, db, log)()
	defer keepCompact(ctx, db, log)()
	defer c.handOutBackups(db, world.env, log)()
	return serve(ctx, db, world, log)
}

// databaseLast is the environment without the database, which says best itself
// what is wrong with it when it is opened, and which a flag may name.
func (c serveCommand) databaseLast(env func(string) string) func(string) string {
	return func(name string) string {
		if name == "DOGLEG_DB" {
			return ""
		}
		return env(name)
	}
}

// serve serves with settings that were checked.
func serve(ctx context.Context, db *store.DB, world streams, log *slog.Logger) error {
	token, _ := token(world.env)
	base, _ := endpoint(world.env("DOGLEG_API_ENDPOINT"))
	perSecond, _ := rate(world.env("DOGLEG_RATE"))
	health := &telegram.Health{Pulse: pulse(db)}
	meters := newMeters(health)
	conversation := &bot.Conversation{Log: log}
	config := telegram.Config{
		Token:     token,
		Base:      base,
		Memory:    metered{memory{db, conversation}, meters},
		Log:       log,
		Health:    health,
		Delivered: meters.Delivered,
		Pace:      telegram.PaceOf(perSecond),
		Paid:      perSecond > telegram.FreeRate,
	}
	if ear, err := voice.NewPocketsphinx(voice.DefaultSounds); err != nil {
		log.Warn("voice notes are not heard", "error", err)
	} else {
		defer ear.Close()
		config.Ear = timedEar{telegramEar{ear}, meters}
	}
	if flite, err := voice.NewFlite(); err != nil {
		log.Warn("no answer is said aloud", "error", err)
	} else {
		config.Speaker, conversation.Speaks = flite, true
	}
	var err error
	if config.Webhook, err = webhook(world.env); err != nil {
		return err
	}
	unpublish, err := publish(world.env("DOGLEG_METRICS"), meters, health, log)
	if err != nil {
		return err
	}
	defer unpublish()
	defer watch(ctx, health, log)()
	return telegram.Serve(ctx, config)
}

// webhook begins to listen where Telegram is to call, nil where it is polled.
func webhook(env func(string) string) (*telegram.Webhook, error) {
	address := env("DOGLEG_WEBHOOK_URL")
	if address == "" {
		return nil, nil
	}
	listener, err := net.Listen("tcp", cmp.Or(env("DOGLEG_WEBHOOK_LISTEN"), defaultWebhookListen))
	if err != nil {
		return nil, err
	}
	return &telegram.Webhook{URL: address, Listener: listener}, nil
}

// serviceLog is the log of a service, in the form that its settings want.
func serviceLog(w io.Writer, env func(string) string) *slog.Logger {
	level, _ := logLevel(env("DOGLEG_LOG_LEVEL"))
	options := &slog.HandlerOptions{Level: level}
	if env("DOGLEG_LOG_FORMAT") == "json" {
		return slog.New(slog.NewJSONHandler(w, options))
	}
	return slog.New(slog.NewTextHandler(w, options))
}
