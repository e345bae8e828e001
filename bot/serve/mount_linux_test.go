package serve

import (
	"path/filepath"
	"testing"
)

func TestMountedFileIsKnown(t *testing.T) {
	const table = `22 1 0:21 / /proc rw - proc proc rw
30 22 8:1 /home/ada/juniper\040street.db /data/juniper\040street.db rw,relatime - ext4 /dev/sda1 rw
`
	for path, want := range map[string]bool{
		"/data/juniper street.db": true, "/data": false, "/proc": true, "/home/ada/juniper street.db": false,
	} {
		if got := hasMount(table, path); got != want {
			t.Errorf("%s is mounted: %t", path, got)
		}
	}
	if !isMount("/proc") || isMount(filepath.Join(t.TempDir(), "juniper.db")) {
		t.Error("what is mounted here isn't known")
	}
}
