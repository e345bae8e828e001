package main

import (
	"fmt"
	"net"
	"net/url"
	"os"
	"os/exec"
	"os/signal"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/nats-io/nats-server/v2/server"
)

// natsForTests is the program nats-for-tests: one server of NATS with JetStream,
// in a cluster with others where routes are named.
//
//	nats-for-tests NAME ADDRESS FOLDER [ADDRESS-FOR-ROUTES ROUTE…]
func natsForTests() {
	if err := runNATS(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func runNATS(args []string) error {
	options := &server.Options{ServerName: args[0], JetStream: true, StoreDir: args[2], NoSigs: true, NoLog: true}
	var err error
	if options.Host, options.Port, err = hostAndPort(args[1]); err != nil {
		return err
	}
	if len(args) > 3 {
		options.Cluster.Name = "juniper"
		if options.Cluster.Host, options.Cluster.Port, err = hostAndPort(args[3]); err != nil {
			return err
		}
		for _, route := range args[4:] {
			options.Routes = append(options.Routes, &url.URL{Scheme: "nats", Host: route})
		}
	}
	s, err := server.NewServer(options)
	if err != nil {
		return err
	}
	s.Start()
	ended := make(chan os.Signal, 1)
	signal.Notify(ended, syscall.SIGTERM, os.Interrupt)
	<-ended
	s.Shutdown()
	return nil
}

func hostAndPort(address string) (host string, port int, err error) {
	host, number, err := net.SplitHostPort(address)
	if err != nil {
		return "", 0, err
	}
	port, err = strconv.Atoi(number)
	return host, port, err
}

// network is where the servers of a cluster are: on ports of this machine, or
// each on a host of its own, with one network for those who use them and another
// for the servers among themselves.
type network struct {
	clients, routes [natsServers]string
	apart           bool
}

func newNetwork(t *testing.T) (n network) {
	n.apart = *drillNetwork
	for i := range natsServers {
		if n.apart {
			n.clients[i], n.routes[i] = fmt.Sprintf("10.213.1.%d:4222", 10+i), fmt.Sprintf("10.213.2.%d:6222", 10+i)
			continue
		}
		n.clients[i], n.routes[i] = freePort(t), freePort(t)
	}
	if n.apart {
		n.build(t)
	}
	return n
}

// build makes the hosts, each with a leg in both networks.
func (n network) build(t *testing.T) {
	t.Helper()
	n.raze()
	t.Cleanup(n.raze)
	ip(t, "link add dl-clients type bridge")
	ip(t, "link add dl-routes type bridge")
	ip(t, "addr add 10.213.1.1/24 dev dl-clients")
	ip(t, "link set dl-clients up")
	ip(t, "link set dl-routes up")
	for i := range natsServers {
		host := fmt.Sprint("dl-nats", i)
		ip(t, "netns add "+host)
		ip(t, "-n "+host+" link set lo up")
		for leg, address := range map[string]string{"clients": n.clients[i], "routes": n.routes[i]} {
			ours, theirs := fmt.Sprint("dl-", leg, i), "dl-"+leg
			only, _, _ := strings.Cut(address, ":")
			ip(t, "link add "+ours+" type veth peer name "+theirs+" netns "+host)
			ip(t, "link set "+ours+" master dl-"+leg+" up")
			ip(t, "-n "+host+" addr add "+only+"/24 dev "+theirs)
			ip(t, "-n "+host+" link set "+theirs+" up")
		}
	}
}

// raze takes away what build made, as far as it is there.
func (network) raze() {
	for i := range natsServers {
		_ = exec.Command("ip", "netns", "del", fmt.Sprint("dl-nats", i)).Run()
	}
	for _, bridge := range []string{"dl-clients", "dl-routes"} {
		_ = exec.Command("ip", "link", "del", bridge).Run()
	}
}

func ip(t testing.TB, arguments string) {
	t.Helper()
	if said, err := exec.Command("ip", strings.Fields(arguments)...).CombinedOutput(); err != nil {
		t.Fatalf("ip %s: %v: %s", arguments, err, said)
	}
}

// cut cuts a server off the others, or joins it to them again. Those who use it
// reach it all the time.
func (network) cut(t testing.TB, i int, state string) {
	t.Helper()
	ip(t, fmt.Sprintf("link set dl-routes%d %s", i, state))
}

// address is that of all servers, as DOGLEG_STORE has it.
func (n network) address() string { return "nats://" + strings.Join(n.clients[:], ",") }

// server is the command that runs one of them.
func (n network) server(i int, folder string) *exec.Cmd {
	arguments := []string{"nats-for-tests", fmt.Sprint("server", i), n.clients[i], folder, n.routes[i]}
	for other := range natsServers {
		if other != i {
			arguments = append(arguments, n.routes[other])
		}
	}
	if n.apart {
		arguments = append([]string{"ip", "netns", "exec", fmt.Sprint("dl-nats", i)}, arguments...)
	}
	return exec.Command(arguments[0], arguments[1:]...)
}
