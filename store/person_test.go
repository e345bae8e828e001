package store_test

import (
	"testing"

	"dogleg/catalog"
	"dogleg/geometry"
	"dogleg/store"
)

// sixteenths is a takeoff measured with a tape on one fitting.
func sixteenths(system, fitting string, size catalog.Size, line string, n int) store.Takeoff {
	return store.Takeoff{
		System: system, Fitting: fitting, Size: size, Line: line,
		Length: geometry.Length(n) / 16, How: "center to stop", When: noon,
	}
}

func TestKeysKeepPeopleApart(t *testing.T) {
	keys := map[store.Key]string{}
	for _, who := range [][3]string{
		{"telegram", "12", "7"},
		{"telegram", "1", "27"},
		{"telegram", "12/7", ""},
		{"telegram", "", "12/7"},
		{"telegram/12", "7", ""},
		{"terminal", "12", "7"},
		{"telegram", "12", "7%2F"},
		{"telegram", "12", "7/"},
	} {
		key := store.ChatOf(who[0], who[1]).Person(who[2])
		if before, twice := keys[key]; twice {
			t.Errorf("%v and %v share the key %s", who, before, key)
		}
		keys[key] = who[0] + " " + who[1] + " " + who[2]
		if got, want := key.Chat(), store.ChatOf(who[0], who[1]); got != want {
			t.Errorf("chat of %s: %s, want %s", key, got, want)
		}
	}
}
