package serve

import (
	"os"
	"strconv"
	"strings"
)

// isMount says whether a file is mounted by itself, as a container may have it: then
// no other can take its place.
func isMount(path string) bool {
	mounts, err := os.ReadFile("/proc/self/mountinfo")
	return err == nil && hasMount(string(mounts), path)
}

// hasMount reads the table of proc(5): the fifth field of a line is where something is
// mounted, with a backslash and three octal digits for a blank.
func hasMount(table, path string) bool {
	for line := range strings.Lines(table) {
		fields := strings.Fields(line)
		if len(fields) < 5 {
			continue
		}
		if at, err := strconv.Unquote(`"` + strings.ReplaceAll(fields[4], `"`, `\"`) + `"`); err == nil && at == path {
			return true
		}
	}
	return false
}
