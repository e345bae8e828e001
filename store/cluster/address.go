package cluster

import (
	"fmt"
	"net/url"
	"slices"
	"strings"
)

// addresses are those of the servers.
type addresses struct {
	urls  []string
	shown string // for people: without users
}

// CheckAddress says whether a text could be the address of servers. The error is
// an [ErrAddress], and holds nothing of the text.
func CheckAddress(text string) error {
	_, err := parseAddresses(text)
	return err
}

// schemes are those that NATS knows.
var schemes = []string{"nats", "tls", "ws", "wss"}

// parseAddresses reads servers, divided by commas. The user of the first that
// has one is that of those that have none. Errors don't repeat the text: a
// password may be anywhere in it.
func parseAddresses(text string) (addresses, error) {
	var parsed []*url.URL
	parts := strings.Split(text, ",")
	for i, part := range parts {
		u, err := parseAddress(strings.TrimSpace(part))
		if err != nil {
			return addresses{}, fmt.Errorf("%w: server %d of %d %w; it is like nats://a:4222,b:4222,c:4222",
				ErrAddress, i+1, len(parts), err)
		}
		parsed = append(parsed, u)
	}
	return joined(parsed), nil
}

// parseAddress reads one server's.
func parseAddress(text string) (*url.URL, error) {
	if text == "" {
		return nil, fmt.Errorf("is empty")
	}
	if !strings.Contains(text, "://") {
		text = "nats://" + text
	}
	u, err := url.Parse(text)
	switch {
	case err != nil:
		return nil, fmt.Errorf("can't be read (a : / ? # or @ in a password is written %%3A %%2F %%3F %%23 %%40)")
	case !slices.Contains(schemes, u.Scheme):
		return nil, fmt.Errorf("begins with none of nats, tls, ws, wss")
	case u.Hostname() == "":
		return nil, fmt.Errorf("has no host")
	case u.Path != "" && u.Path != "/" && !strings.HasPrefix(u.Scheme, "ws"), u.RawQuery != "", u.Fragment != "":
		return nil, fmt.Errorf("has something behind the host and port")
	}
	return u, nil
}

func joined(parsed []*url.URL) addresses {
	var all addresses
	var hosts []string
	user := firstUser(parsed)
	for _, u := range parsed {
		hosts = append(hosts, u.Host)
		if u.User == nil {
			u.User = user
		}
		all.urls = append(all.urls, u.String())
	}
	all.shown = strings.Join(hosts, ", ")
	return all
}

func firstUser(parsed []*url.URL) *url.Userinfo {
	for _, u := range parsed {
		if u.User != nil {
			return u.User
		}
	}
	return nil
}
