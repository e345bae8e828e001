package serve

import (
	"strings"
	"testing"
)

func TestDataFolder(t *testing.T) {
	for _, test := range []struct {
		system string
		env    []string
		want   string // empty: an error that says what to do
	}{
		// The XDG base directory specification: the default is
		// $HOME/.local/share, and a relative path is to be ignored.
		{"linux", []string{"XDG_DATA_HOME", "/data", "HOME", "/home/sam"}, "/data"},
		{"linux", []string{"XDG_DATA_HOME", "data", "HOME", "/home/sam"}, "/home/sam/.local/share"},
		{"linux", []string{"HOME", "/home/sam"}, "/home/sam/.local/share"},
		{"linux", nil, ""},
		{"darwin", []string{"HOME", "/Users/sam"}, "/Users/sam/Library/Application Support"},
		{"windows", []string{"LocalAppData", `C:\Users\sam\AppData\Local`}, `C:\Users\sam\AppData\Local`},
	} {
		got, err := dataFolder(test.system, environment(test.env...))
		if got != test.want || (err == nil) != (test.want != "") {
			t.Errorf("%s with %q: %q, %v; want %q", test.system, test.env, got, err, test.want)
		}
		if err != nil && !strings.Contains(err.Error(), "--db") {
			t.Errorf("%v does not say what to do", err)
		}
	}
}
