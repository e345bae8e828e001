//go:build cluster

package cluster

import (
	"testing"

	"dogleg/store"
	"dogleg/store/storetest"
)

// TestContractOnThreeServers is TestContract on a cluster, where making the
// streams for each rule takes its time.
func TestContractOnThreeServers(t *testing.T) {
	storetest.Test(t, func(t *testing.T) *store.DB { return shipped(t, sharedServers(t, 3)) })
}
