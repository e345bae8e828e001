package store_test

import (
	"fmt"
	"net/url"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"dogleg/store"

	"pgregory.net/rapid"
)

// TestEverywhereIsAllOfAUser takes people through chats that are renamed and have
// them forgotten. Who is found by their user is who is found among all people, and
// whoever was forgotten stands nowhere, in no book either.
func TestEverywhereIsAllOfAUser(t *testing.T) {
	db := fresh(t)
	db.WithoutSync()
	chats := []store.Chat{
		store.ChatOf("telegram", "1"), store.ChatOf("telegram", "-1"), store.ChatOf("telegram", "-10"),
		store.ChatOf("telegram", "-1/0"), store.ChatOf("terminal", "1"),
	}
	users := []string{"1", "10", "1/0", "", "dana"}
	rapid.Check(t, func(rt *rapid.T) {
		update(t, db, func(tx *store.Tx) {
			for _, k := range tx.People() {
				tx.Person(k).Forget("")
			}
		})
		for range rapid.IntRange(1, 15).Draw(rt, "steps") {
			chat := rapid.SampledFrom(chats).Draw(rt, "chat")
			key := chat.Person(rapid.SampledFrom(users).Draw(rt, "user"))
			what := rapid.SampledFrom([]string{"job", "crew", "move", "forget"}).Draw(rt, "what")
			update(t, db, func(tx *store.Tx) {
				switch what {
				case "job":
					tx.Person(key).AddJob(store.Job{})
				case "crew":
					tx.Person(key).SetCrewTakeoff(sixteenths("pvc-dwv", "45", "2", rapid.SampledFrom(users).Draw(rt, "line"), 18))
				case "move":
					tx.MoveChat(chat, rapid.SampledFrom(chats).Draw(rt, "to"))
				case "forget":
					tx.Person(key).Forget("")
					if left := tx.Everywhere(key); len(left) > 0 {
						rt.Fatalf("%s is forgotten and found as %v", key, left)
					}
				}
			})
			view(t, db, func(tx *store.Tx) {
				for _, chat := range chats {
					for _, user := range users {
						comparePlaces(rt, tx, chats, chat, user)
					}
				}
			})
			if err := db.Check(); err != nil {
				rt.Fatal(err)
			}
		}
	})
}

// comparePlaces holds what is found by a user against a look at all people and all
// books.
func comparePlaces(t *rapid.T, tx *store.Tx, chats []store.Chat, chat store.Chat, user string) {
	var want []store.Key
	for _, other := range tx.People() {
		if transport(other.Chat()) == transport(chat) && other == other.Chat().Person(user) {
			want = append(want, other)
		}
	}
	for _, other := range chats {
		key := other.Person(user)
		set := slices.ContainsFunc(tx.Person(key).CrewTakeoffs(), func(o store.Takeoff) bool { return user != "" && o.Setter == url.PathEscape(user) })
		if set && transport(other) == transport(chat) && !slices.Contains(want, key) {
			want = append(want, key)
		}
	}
	slices.Sort(want)
	if got := tx.Everywhere(chat.Person(user)); !slices.Equal(want, got) {
		t.Fatalf("%s is found as %v, and stands among the people as %v", chat.Person(user), got, want)
	}
}

func transport(c store.Chat) string {
	return string(c[:slices.Index([]byte(c), '/')])
}

// TestIndexIsMadeOfWhatIsThere takes the index away, as in a file of version 3,
// and opens the file: who keeps something is found again, and so is who only set
// something for a crew.
func TestIndexIsMadeOfWhatIsThere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "juniper.db")
	db, err := store.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	sam, set := upstairs.Person("8"), sixteenths("pvc-dwv", "45", "2", "", 18)
	set.By = "Sam"
	update(t, db, func(tx *store.Tx) {
		tx.Person(dana).AddJob(store.Job{})
		tx.Person(sam).SetCrewTakeoff(set)
	})
	older(t, db, 3, "users")
	db = open(t, path)
	update(t, db, func(tx *store.Tx) {
		if got := tx.Everywhere(dana); len(got) != 1 || got[0] != dana {
			t.Errorf("Dana is found as %v", got)
		}
		tx.Person(store.ChatOf("telegram", "8").Person("8")).Forget("")
		if kept := tx.Person(dana).CrewTakeoffs(); len(kept) != 1 || kept[0].By != "" || kept[0].Setter != "" {
			t.Errorf("what Sam measured, who is forgotten: %+v", kept)
		}
	})
}

// BenchmarkForget forgets somebody of few people and of many.
func BenchmarkForget(b *testing.B) {
	for _, people := range []int{100, 10_000} {
		b.Run(fmt.Sprintf("%d people", people), func(b *testing.B) {
			db := fresh(b)
			db.WithoutSync()
			person := func(tx *store.Tx, n int) *store.Person {
				name := strconv.Itoa(n)
				return tx.Person(store.ChatOf("telegram", name).Person(name))
			}
			update(b, db, func(tx *store.Tx) {
				for n := range people {
					person(tx, n).AddJob(store.Job{Asked: "12 set 45s"})
				}
			})
			for b.Loop() {
				update(b, db, func(tx *store.Tx) {
					person(tx, people/2).Forget("")
					person(tx, people/2).AddJob(store.Job{Asked: "12 set 45s"})
				})
			}
		})
	}
}
