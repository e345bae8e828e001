package cluster

import (
	"fmt"
	"testing"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
)

// JetStream without a leader answers 503 with the code 10008, as its list of errors
// has it. Through either interface of the client that passes.
func TestNoLeaderPasses(t *testing.T) {
	c := open(t, sharedServers(t, 1))
	for _, err := range []error{
		&jetstream.APIError{Code: 503, ErrorCode: 10008, Description: "JetStream system temporarily unavailable"},
		&nats.APIError{Code: 503, ErrorCode: 10008, Description: "JetStream system temporarily unavailable"},
	} {
		if !c.passing(fmt.Errorf("a copy of the database: %w", err)) {
			t.Errorf("%T does not pass", err)
		}
	}
}
