package wire

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"sync"
	"time"

	tg "github.com/go-telegram-bot-api/telegram-bot-api/v5"
)

// longestResponse is above what the server puts into one response (4 MiB).
const longestResponse = 8 << 20

// Params are a call's parameters by their names.
type Params = tg.Params

// Client makes calls. It is safe for use by several goroutines.
type Client struct {
	http     *http.Client
	token    string
	base     string
	endpoint string        // the library's form of an address
	sends    time.Duration // when a call is given up
	toasts   time.Duration // when one that is soon of no use is
}

// Options is what a client needs to know.
type Options struct {
	Token string
	Base  string // the server's address
	Calls int    // in flight at once

	Send  time.Duration // when a call is given up
	Toast time.Duration // when a call is given up that is soon of no use

	Log *slog.Logger // for what the library has to say
}

// NewClient returns a client that calls with these options.
func NewClient(o Options) *Client {
	silenceLibrary(o.Log)
	transport := http.DefaultTransport.(*http.Transport).Clone()
	transport.MaxIdleConnsPerHost = o.Calls + 1
	return &Client{
		http: &http.Client{
			Transport: transport,
			// A redirect would carry the token wherever it points.
			CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
		},
		token:    o.Token,
		base:     strings.TrimRight(o.Base, "/"),
		endpoint: strings.ReplaceAll(strings.TrimRight(o.Base, "/"), "%", "%%") + "/bot%s/%s",
		sends:    o.Send,
		toasts:   o.Toast,
	}
}

// Close lets go of the connections that are kept for the next call.
func (c *Client) Close() { c.http.CloseIdleConnections() }

// The library has one logger for the whole process; the first to serve sets it.
var librarySilenced sync.Once

func silenceLibrary(log *slog.Logger) {
	librarySilenced.Do(func() { _ = tg.SetLogger(libraryLog{log}) })
}

// Refusal is an error that the server itself returned.
type Refusal struct {
	Code        int
	Description string
	RetryAfter  time.Duration
	MovedTo     int64
}

// Error is the code and the words of the server.
func (r *Refusal) Error() string { return fmt.Sprintf("%d %s", r.Code, r.Description) }

// Call makes one call, given up after a time. The error is a *refusal where
// the server refused; it never holds the token.
func (c *Client) Call(ctx context.Context, limit time.Duration, method string, p Params) (json.RawMessage, error) {
	return c.request(ctx, limit, method, func(api *tg.BotAPI) (*tg.APIResponse, error) {
		return api.MakeRequest(method, p)
	})
}

// Upload is a file that goes with a message.
type Upload struct {
	Name    string
	Content []byte
}

// Send makes a call that sends a message, with a file in one of its fields or
// without.
func (c *Client) Send(ctx context.Context, method string, p Params, field string, f *Upload) (json.RawMessage, error) {
	if f == nil {
		return c.Call(ctx, c.sends, method, p)
	}
	file := tg.RequestFile{Name: field, Data: tg.FileBytes{Name: f.Name, Bytes: f.Content}}
	return c.request(ctx, c.sends, method, func(api *tg.BotAPI) (*tg.APIResponse, error) {
		return api.UploadFiles(method, p, []tg.RequestFile{file})
	})
}

func (c *Client) request(ctx context.Context, limit time.Duration, method string, make func(*tg.BotAPI) (*tg.APIResponse, error)) (json.RawMessage, error) {
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	api := &tg.BotAPI{Token: c.token, Client: transport{ctx, c.http}}
	api.SetAPIEndpoint(c.endpoint)
	response, err := make(api)
	if refused := (*tg.Error)(nil); errors.As(err, &refused) && refused.Code == 0 && response != nil {
		refused.Code = response.ErrorCode // which the library leaves out where a file goes up
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", method, c.clean(err))
	}
	return response.Result, nil
}

// codes are those of refusals by how they begin: the library keeps no code of
// an upload's.
var codes = []struct {
	begins string
	code   int
}{
	{"Bad Request", 400},
	{"Unauthorized", 401},
	{"Forbidden", 403},
	{"Not Found", 404},
	{"Conflict", 409},
	{"Request Entity Too Large", 413},
	{"Too Many Requests", 429},
}

// code is the code of a refusal.
func code(refused *tg.Error) int {
	for _, c := range codes {
		if refused.Code == 0 && strings.HasPrefix(refused.Message, c.begins) {
			return c.code
		}
	}
	return refused.Code
}

// clean turns the library's error into ours and takes the token out.
func (c *Client) clean(err error) error {
	var refused *tg.Error
	if errors.As(err, &refused) {
		return &Refusal{
			Code:        code(refused),
			Description: redact(refused.Message, c.token),
			RetryAfter:  time.Duration(refused.RetryAfter) * time.Second,
			MovedTo:     refused.MigrateToChatID,
		}
	}
	var request *url.Error // it prints the address
	if errors.As(err, &request) {
		return &url.Error{Op: request.Op, URL: redact(request.URL, c.token), Err: request.Err}
	}
	return err
}

// transport gives the library's requests a context and a limit on what comes
// back.
type transport struct {
	ctx  context.Context
	http *http.Client
}

func (t transport) Do(r *http.Request) (*http.Response, error) {
	response, err := t.http.Do(r.WithContext(t.ctx))
	if err != nil {
		return nil, err
	}
	response.Body = limited{io.LimitReader(response.Body, longestResponse), response.Body}
	return response, nil
}

type limited struct {
	io.Reader
	io.Closer
}

// GetMe asks who the bot is.
func (c *Client) GetMe(ctx context.Context) (Account, error) {
	raw, err := c.Call(ctx, c.sends, "getMe", nil)
	if err != nil {
		return Account{}, err
	}
	var self Account
	if err := json.Unmarshal(raw, &self); err != nil {
		return Account{}, fmt.Errorf("getMe: %w", err)
	}
	if self.ID == 0 {
		return Account{}, errors.New("getMe: an account without a number")
	}
	return self, nil
}

// kinds are the updates that we ask for.
const kinds = `["message","edited_message","callback_query","inline_query","my_chat_member"]`

// GetUpdates polls. An offset of 0 asks for whatever is not confirmed.
func (c *Client) GetUpdates(ctx context.Context, offset int64, limit int, wait, ends time.Duration) ([]json.RawMessage, error) {
	p := Params{
		"limit":           strconv.Itoa(limit),
		"timeout":         strconv.Itoa(int(wait / time.Second)),
		"allowed_updates": kinds,
	}
	p.AddNonZero64("offset", offset)
	raw, err := c.Call(ctx, ends, "getUpdates", p)
	if err != nil {
		return nil, err
	}
	var batch []json.RawMessage
	if err := json.Unmarshal(raw, &batch); err != nil {
		return nil, fmt.Errorf("getUpdates: %w", err)
	}
	return batch, nil
}

// SetMyCommands sets the menu.
func (c *Client) SetMyCommands(ctx context.Context, list []Command) error {
	p := Params{}
	if err := p.AddInterface("commands", list); err != nil {
		return err
	}
	_, err := c.Call(ctx, c.sends, "setMyCommands", p)
	return err
}

// AnswerInline offers what was figured of what somebody types behind our name.
// It is theirs alone, and soon out of date.
func (c *Client) AnswerInline(ctx context.Context, id string, cards []Card, more *Hint) error {
	p := Params{"inline_query_id": id, "cache_time": "5", "is_personal": "true"}
	if err := p.AddInterface("results", cards); err != nil {
		return err
	}
	if more != nil {
		if err := p.AddInterface("button", more); err != nil {
			return err
		}
	}
	_, err := c.Call(ctx, c.toasts, "answerInlineQuery", p)
	return err
}

// IsAdmin says whether somebody may set what is for everyone in a group.
func (c *Client) IsAdmin(ctx context.Context, chat, user int64) (bool, error) {
	p := Params{}
	p.AddNonZero64("chat_id", chat)
	p.AddNonZero64("user_id", user)
	raw, err := c.Call(ctx, c.toasts, "getChatMember", p)
	if err != nil {
		return false, err
	}
	var member struct {
		Status string `json:"status"`
	}
	err = json.Unmarshal(raw, &member)
	return member.Status == "creator" || member.Status == "administrator", err
}

// AnswerCallbackQuery answers a button that was pressed, with a text that is shown
// for a moment or with none.
func (c *Client) AnswerCallbackQuery(ctx context.Context, id, text string) error {
	_, err := c.Call(ctx, c.toasts, "answerCallbackQuery", Params{"callback_query_id": id, "text": text})
	return err
}

// MostBytes is the size of the largest recording that is fetched: a minute of
// speech is a quarter of a megabyte, a minute of music one.
const MostBytes = 2 << 20

// Fetch opens a file that somebody sent. Of a larger one than mostBytes the
// rest is cut off. Whoever calls closes it.
func (c *Client) Fetch(ctx context.Context, file string) (io.ReadCloser, error) {
	raw, err := c.Call(ctx, c.sends, "getFile", Params{"file_id": file})
	if err != nil {
		return nil, err
	}
	var at struct {
		Path string `json:"file_path"`
	}
	if err := json.Unmarshal(raw, &at); err != nil || at.Path == "" {
		return nil, fmt.Errorf("getFile: no path (%v)", err)
	}
	address, err := url.JoinPath(c.base, "file", "bot"+c.token, at.Path)
	if err != nil {
		return nil, errors.New("getFile: a path that is none")
	}
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, address, nil)
	if err != nil {
		return nil, errors.New("getFile: a path that is none")
	}
	response, err := c.http.Do(request)
	if err != nil {
		return nil, fmt.Errorf("file: %w", c.clean(err))
	}
	if response.StatusCode != http.StatusOK {
		response.Body.Close()
		return nil, &Refusal{Code: response.StatusCode, Description: "the file is not given out"}
	}
	return limited{io.LimitReader(response.Body, MostBytes), response.Body}, nil
}

// Typing shows in a chat that an answer is on its way, for five seconds.
func (c *Client) Typing(ctx context.Context, chat, thread int64) {
	p := Params{"action": "typing"}
	p.AddNonZero64("chat_id", chat)
	p.AddNonZero64("message_thread_id", thread)
	_, _ = c.Call(ctx, c.toasts, "sendChatAction", p) // a courtesy
}

// SetWebhook has the server call an address, and say the secret each time.
func (c *Client) SetWebhook(ctx context.Context, address, secret string) error {
	_, err := c.Call(ctx, c.sends, "setWebhook", Params{
		"url": address, "secret_token": secret, "allowed_updates": kinds,
	})
	return err
}

// DeleteWebhook goes back to polling.
func (c *Client) DeleteWebhook(ctx context.Context) error {
	_, err := c.Call(ctx, c.sends, "deleteWebhook", nil)
	return err
}

// Card is one answer that is offered to somebody who types behind our name.
type Card struct {
	Type    string  `json:"type"`
	ID      string  `json:"id"`
	Title   string  `json:"title"`
	About   string  `json:"description,omitempty"`
	Content Content `json:"input_message_content"`
}

// Content is the message that the card becomes.
type Content struct {
	Text string `json:"message_text"`
	Mode string `json:"parse_mode"`
}

// Hint stands above the cards, and leads to a chat with us.
type Hint struct {
	Text  string `json:"text"`
	Start string `json:"start_parameter"`
}
