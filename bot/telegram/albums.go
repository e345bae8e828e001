package telegram

import (
	"sync"

	"dogleg/bot/telegram/wire"
)

// albums remembers of pictures that were sent together which came first: one answer is
// enough for all of them.
type albums struct {
	mu    sync.Mutex
	heads map[album]int64 // by which update the first came
}

type album struct {
	chat int64
	id   string
}

// mostAlbums is how many are remembered before all are forgotten.
const mostAlbums = 1024

// first says whether a message is the first of its album, however often it is asked,
// or in none.
func (a *albums) first(m *wire.Message, update int64) bool {
	if m.Album == "" {
		return true
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	its := album{m.Chat.ID, m.Album}
	head, known := a.heads[its]
	if !known {
		if a.heads == nil || len(a.heads) >= mostAlbums {
			a.heads = map[album]int64{}
		}
		a.heads[its], head = update, update
	}
	return head == update
}
