//go:build proxy

package main

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"dogleg/bot/telegram/loopback"
)

// The reverse proxies are real, with the configuration of deploy/ in which only
// names, ports and files are others. .ci/deploy/run installs them.

// hostName is the bot's in the configurations.
const hostName = "bot.example.org"

func TestProxyNginx(t *testing.T) {
	throughProxy(t, func(t *testing.T, s site) *exec.Cmd {
		config := replaced(t, "nginx.conf",
			"listen 443 ssl", "listen "+s.front+" ssl",
			"server 127.0.0.1:8080", "server "+s.behind,
			"/etc/letsencrypt/live/bot.example.org/fullchain.pem", s.certificate,
			"/etc/letsencrypt/live/bot.example.org/privkey.pem", s.key,
		)
		path := written(t, s.folder, "nginx.conf", fmt.Sprintf(
			"daemon off; pid %[1]s/pid; error_log %[1]s/error.log; events {} http { access_log off; client_body_temp_path %[1]s/body; proxy_temp_path %[1]s/proxy; fastcgi_temp_path %[1]s/f; uwsgi_temp_path %[1]s/u; scgi_temp_path %[1]s/s;\n%[2]s}",
			s.folder, config))
		return exec.Command("nginx", "-p", s.folder, "-c", path)
	})
}

func TestProxyCaddy(t *testing.T) {
	throughProxy(t, func(t *testing.T, s site) *exec.Cmd {
		_, port, _ := net.SplitHostPort(s.front)
		config := replaced(t, "Caddyfile",
			"bot.example.org {", "bot.example.org:"+port+" {\n\ttls "+s.certificate+" "+s.key,
			"127.0.0.1:8080", s.behind,
			"{\n\t# What Caddy", "{\n\tadmin off\n\tauto_https disable_redirects\n\tdefault_bind 127.0.0.1\n\t# What Caddy",
		)
		path := written(t, s.folder, "Caddyfile", config)
		command := exec.Command("caddy", "run", "--config", path, "--adapter", "caddyfile")
		command.Env = append(os.Environ(), "HOME="+s.folder, "XDG_DATA_HOME="+s.folder, "XDG_CONFIG_HOME="+s.folder)
		return command
	})
}

// site is where a proxy is, and what it has.
type site struct {
	front, behind            string
	folder, certificate, key string
}

// throughProxy has people write while dogleg is stopped, killed and started
// behind the proxy: everyone is answered, in order, and strangers get nowhere.
func throughProxy(t *testing.T, command func(*testing.T, site) *exec.Cmd) {
	const people, messages = 20, 6
	s := site{front: freePort(t), behind: freePort(t), folder: t.TempDir()}
	authority := certify(t, &s)
	proxyLog := startProxy(t, command(t, s))
	server := loopback.New()
	defer server.Close()
	if !server.Await(patience/4, func() bool { return reachable(s.front) }) {
		t.Fatal("the proxy is not there")
	}
	client := clientOf(s, authority)
	server.CallThrough(client)
	db := filepath.Join(s.folder, "dogleg.db")

	began := time.Now()
	for n := range messages {
		process := serveBehind(t, server, s, db)
		if n == 0 {
			if !server.Await(patience, func() bool { return len(server.Calls("setWebhook")) > 0 }) {
				t.Fatal("the webhook was never set")
			}
			turnAway(t, client, server)
		}
		for chat := range int64(people) {
			server.Say(chat+1, fmt.Sprintf("set %d 45s", 10+n))
		}
		switch n % 3 {
		case 0: // goes down with calls under way
			_ = process.Process.Kill()
		case 1: // ends in order, with calls under way
			_ = process.Process.Signal(syscall.SIGTERM)
		case 2:
			if !server.Await(patience, func() bool { return len(server.Unconfirmed()) == 0 }) {
				t.Errorf("%d updates were never taken", len(server.Unconfirmed()))
			}
			_ = process.Process.Signal(syscall.SIGTERM)
		}
		_ = process.Wait()
	}
	calls := len(server.Calls("setWebhook"))
	process := serveBehind(t, server, s, db)
	all := server.Await(patience, func() bool {
		return len(server.Calls("setWebhook")) > calls && len(server.Unconfirmed()) == 0 && inOrder(server, people, messages) == people
	})
	_ = process.Process.Signal(syscall.SIGTERM)
	if err := process.Wait(); err != nil {
		t.Errorf("it did not end in order: %v", err)
	}
	if !all {
		t.Errorf("%d of %d people have all their answers in order; %d updates not taken",
			inOrder(server, people, messages), people, len(server.Unconfirmed()))
	}
	if n := len(server.Calls("getUpdates")); n != 0 {
		t.Errorf("polled %d times", n)
	}
	if secret := server.Calls("setWebhook")[0].Params["secret_token"]; strings.Contains(text(t, proxyLog), secret) {
		t.Error("the secret is in the proxy's log")
	}
	t.Logf("%d updates through the proxy, dogleg down %d times: %v", people*messages, messages, time.Since(began).Round(time.Millisecond))
}

func reachable(address string) bool {
	connection, err := net.Dial("tcp", address)
	if err == nil {
		connection.Close()
	}
	return err == nil
}

// turnAway makes calls as strangers do.
func turnAway(t *testing.T, client *http.Client, server *loopback.Server) {
	t.Helper()
	secret := server.Calls("setWebhook")[0].Params["secret_token"]
	for _, c := range []struct {
		method, path, secret string
		size                 int
		want                 []int
	}{
		{"POST", "/juniper", "", 2, []int{401}},
		{"POST", "/juniper", strings.Repeat("0", len(secret)), 2, []int{401}},
		{"GET", "/juniper", secret, 0, []int{403, 404, 405}},
		{"POST", "/elsewhere", secret, 2, []int{404}},
		{"GET", "/healthz", "", 0, []int{404}},
		{"GET", "/readyz", "", 0, []int{404}},
		{"GET", "/metrics", "", 0, []int{404}},
		{"POST", "/juniper", secret, 3 << 20, []int{413, 502}}, // 502: Caddy breaks off in the middle
	} {
		request, err := http.NewRequest(c.method, "https://"+hostName+c.path, strings.NewReader(strings.Repeat(" ", c.size)))
		if err != nil {
			t.Fatal(err)
		}
		request.Header.Set("X-Telegram-Bot-Api-Secret-Token", c.secret)
		response, err := client.Do(request)
		if err != nil {
			t.Errorf("%s %s: %v", c.method, c.path, err)
			continue
		}
		response.Body.Close()
		if !slices.Contains(c.want, response.StatusCode) {
			t.Errorf("%s %s with %d bytes: status %d, want %v", c.method, c.path, c.size, response.StatusCode, c.want)
		}
	}
}

// inOrder counts the people who have the answers to all their messages, each
// after the one before, however often one came.
func inOrder(server *loopback.Server, people, messages int) (count int) {
	for _, texts := range replies(server) {
		all, at := strings.Join(texts, "\n"), 0
		for n := range messages {
			i := strings.Index(all[at:], fmt.Sprintf("Set %d, two 45s", 10+n))
			if i < 0 {
				at = -1
				break
			}
			at += i
		}
		if at >= 0 {
			count++
		}
	}
	return count
}

func serveBehind(t *testing.T, server *loopback.Server, s site, db string) *exec.Cmd {
	t.Helper()
	process := exec.Command("dogleg", "serve", "--db", db)
	process.Env = append(os.Environ(),
		"DOGLEG_TOKEN="+loopback.Token, "DOGLEG_API_ENDPOINT="+server.Base(),
		"DOGLEG_WEBHOOK_URL=https://"+hostName+"/juniper", "DOGLEG_WEBHOOK_LISTEN="+s.behind)
	process.Stderr = t.Output()
	if err := process.Start(); err != nil {
		t.Fatal(err)
	}
	return process
}

// startProxy keeps the proxy up until the test ends, and returns where its log is.
func startProxy(t *testing.T, proxy *exec.Cmd) (logFile string) {
	t.Helper()
	log, err := os.Create(filepath.Join(t.TempDir(), "proxy.log"))
	if err != nil {
		t.Fatal(err)
	}
	proxy.Stderr = log
	if err := proxy.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = proxy.Process.Signal(syscall.SIGTERM)
		_ = proxy.Wait()
		log.Close()
		if said := text(t, log.Name()); t.Failed() {
			t.Log(said[max(0, len(said)-4000):])
		}
	})
	return log.Name()
}

// certify makes a certificate authority and has it certify the host.
func certify(t *testing.T, s *site) *x509.CertPool {
	t.Helper()
	in := func(name string) string { return filepath.Join(s.folder, name) }
	s.certificate, s.key = in("site.pem"), in("site.key")
	for _, args := range [][]string{
		{"req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-days", "2", "-subj", "/CN=Juniper Street", "-keyout", in("ca.key"), "-out", in("ca.pem")},
		{"req", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-subj", "/CN=" + hostName, "-keyout", s.key, "-out", in("site.csr")},
		{"x509", "-req", "-in", in("site.csr"), "-CA", in("ca.pem"), "-CAkey", in("ca.key"), "-CAcreateserial", "-days", "2", "-extfile", written(t, s.folder, "names", "subjectAltName=DNS:"+hostName+"\n"), "-out", s.certificate},
	} {
		if said, err := exec.Command("openssl", args...).CombinedOutput(); err != nil {
			t.Fatalf("openssl %s: %v\n%s", args[0], err, said)
		}
	}
	pool := x509.NewCertPool()
	if !pool.AppendCertsFromPEM([]byte(text(t, in("ca.pem")))) {
		t.Fatal("the authority's certificate can't be read")
	}
	return pool
}

// clientOf calls the bot's host wherever the proxy listens, and trusts that
// authority alone.
func clientOf(s site, authority *x509.CertPool) *http.Client {
	return &http.Client{Timeout: 40 * time.Second, Transport: &http.Transport{
		TLSClientConfig: &tls.Config{RootCAs: authority, MinVersion: tls.VersionTLS12},
		DialContext: func(ctx context.Context, _, _ string) (net.Conn, error) {
			return new(net.Dialer).DialContext(ctx, "tcp", s.front)
		},
		MaxIdleConnsPerHost: 40,
	}}
}

// replaced is a file of deploy/ with other words in it, each of which has to be
// there.
func replaced(t *testing.T, name string, pairs ...string) string {
	t.Helper()
	config := text(t, filepath.Join(root, "deploy", name))
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(config, pairs[i]) {
			t.Fatalf("%s lacks %q", name, pairs[i])
		}
	}
	return strings.NewReplacer(pairs...).Replace(config)
}

func written(t *testing.T, folder, name, content string) string {
	t.Helper()
	path := filepath.Join(folder, name)
	if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func text(t *testing.T, path string) string {
	t.Helper()
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(content)
}
