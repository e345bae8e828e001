package serve

import (
	"cmp"
	"context"
	"errors"
	"io"
	"log/slog"
	"net"
	"runtime"
	"runtime/debug"
	"time"

	"dogleg/bot"
	"dogleg/bot/metrics"
	"dogleg/bot/telegram"
	"dogleg/bot/voice"
	"dogleg/store"
)

// Run serves from a database until the context ends, and logs to stderr. What is
// wrong with the settings is found before anything is opened or sent.
func Run(ctx context.Context, d Database, stderr io.Writer) (err error) {
	if err := firstWrong(d.last()); err != nil {
		return err
	}
	defer CollectSeldom(d.Env)()
	log := serviceLog(stderr, d.Env)
	if d.Shared() {
		return serveTogether(ctx, d, log)
	}
	db, err := d.Open()
	if err != nil {
		return err
	}
	if err := soundPages(db); err != nil {
		return errors.Join(err, db.Close())
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	defer readThrough(ctx, db, log)()
	defer keepCompact(ctx, db, log)()
	defer handOutBackups(db, d, log)()
	warm()
	begin, end := noteBegun(db.Path()+".begun", log)
	defer end()
	return serve(ctx, db, d.Env, log, begin)
}

// warm has read what is read once, before the first message: it takes a hundred times what
// a message takes, and a process that is killed meanwhile has not died of that message.
func warm() {
	new(bot.Conversation).Handle(bot.Message{Text: "12 set 45s 2 pvc", When: time.Now()}, new(bot.Forgetful))
}

// noteBegun opens the file that tells over what a process died. Where it can't be
// there, serving goes on without.
func noteBegun(path string, log *slog.Logger) (begin func(string) (int, func()), end func()) {
	begun, err := store.OpenBegun(path)
	if err != nil {
		log.Warn("what the process dies over will not be known", "error", err)
		return nil, func() {}
	}
	return begun.Begin, func() { _ = begun.Close() }
}

// last is the environment without the database, which says best itself what is
// wrong with it when it is opened, and which a flag may name.
func (d Database) last() func(string) string {
	return func(name string) string {
		if name == "DOGLEG_DB" {
			return ""
		}
		return d.Env(name)
	}
}

// serve serves with settings that were checked.
func serve(ctx context.Context, db *store.DB, env func(string) string, log *slog.Logger, begin func(string) (int, func())) error {
	s, end, err := newService(env, log, &telegram.Health{Pulse: pulse(db)})
	if err != nil {
		return err
	}
	defer end()
	if err := s.takeCalls(env); err != nil {
		return err
	}
	defer s.addEar()()
	s.addSpeaker()
	defer watch(ctx, s.health, log)()
	config := s.config(db)
	config.Ear, config.Webhook, config.Hearers, config.Begin = s.ear, s.webhook, hearers(), begin
	return telegram.Serve(ctx, config)
}

// roomForGarbage is how much garbage may pile up before it is collected, in
// hundredths of what is in use. A service keeps a few megabytes in use, and each
// message leaves a tenth of one behind: with Go's own 100 what is in use would be
// looked through after every few dozen messages.
const roomForGarbage = 400

// CollectSeldom makes room for garbage until the returned function is called, but
// where GOGC says how much there is to be.
func CollectSeldom(env func(string) string) (asBefore func()) {
	if env("GOGC") != "" {
		return func() {}
	}
	before := debug.SetGCPercent(roomForGarbage)
	return func() { debug.SetGCPercent(before) }
}

// hearers is how many recordings are heard at once: half of the processors, so
// that nobody who types waits for them.
func hearers() int { return max(1, runtime.NumCPU()/2) }

// service is what a process serves with, whatever its share of the work.
type service struct {
	token, base  string
	perSecond    int
	log          *slog.Logger
	health       *telegram.Health // of who receives
	answers      *telegram.Health // of who answers, where another receives
	meters       *metrics.Meters
	conversation *bot.Conversation

	// What is only made where it is this process's share.
	ear     telegram.Ear      // nil: there is no recognizer
	speaker telegram.Speaker  // nil: there is no voice
	webhook *telegram.Webhook // nil: Telegram is polled
}

// newService begins to publish what is counted where the settings say so, until
// end is called. The health is then asked at once, so it has to be whole.
func newService(env func(string) string, log *slog.Logger, health *telegram.Health) (s *service, end func(), err error) {
	s = &service{log: log, health: health, answers: new(telegram.Health), conversation: &bot.Conversation{Log: log}}
	if warning := openToAll(env); warning != "" {
		log.Warn(warning)
	}
	s.token, _ = token(env)
	s.base, _ = endpoint(env("DOGLEG_API_ENDPOINT"))
	s.perSecond, _ = rate(env("DOGLEG_RATE"))
	s.meters = newMeters(s.health, s.answers)
	end, err = publish(env("DOGLEG_METRICS"), s.meters, s.health, log)
	return s, end, err
}

// takeCalls begins to listen where Telegram is to call.
func (s *service) takeCalls(env func(string) string) (err error) {
	s.webhook, err = webhook(env)
	return err
}

// addEar adds what hears, if it is there, until the returned function is called.
func (s *service) addEar() (closeEar func()) {
	ear, err := voice.NewPocketsphinx(voice.DefaultSounds)
	if err != nil {
		s.log.Warn("voice notes are not heard", "error", err)
		return func() {}
	}
	s.ear = timedEar{Ear{ear}, s.meters}
	return func() { _ = ear.Close() }
}

// addSpeaker adds what says answers aloud, if it is there.
func (s *service) addSpeaker() {
	flite, err := voice.NewFlite()
	if err != nil {
		s.log.Warn("no answer is said aloud", "error", err)
		return
	}
	s.speaker, s.conversation.Speaks = flite, true
}

// config is how the service answers from a database.
func (s *service) config(db *store.DB) telegram.Config {
	return telegram.Config{
		Token:     s.token,
		Base:      s.base,
		Memory:    metered{Memory{db, s.conversation}, s.meters},
		Speaker:   s.speaker,
		Log:       s.log,
		Health:    s.health,
		Delivered: s.meters.Delivered,
		Pace:      telegram.PaceOf(s.perSecond),
		Paid:      s.perSecond > telegram.FreeRate,
		Paint:     PaintedBy(s.conversation),
	}
}

// PaintedBy makes the content of a file that a conversation gave a recipe for.
func PaintedBy(c *bot.Conversation) func(telegram.File) (telegram.File, bool) {
	return func(f telegram.File) (telegram.File, bool) {
		painted, ok := c.Paint(bot.File(f))
		return telegram.File(painted), ok
	}
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
