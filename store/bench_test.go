package store_test

import (
	"fmt"
	"strconv"
	"testing"

	"dogleg/store"
)

// BenchmarkMessages measures what one message costs to keep, by how many share
// a transaction: a commit waits for the disk, a write doesn't.
func BenchmarkMessages(b *testing.B) {
	for _, together := range []int{1, 10, 100} {
		b.Run(fmt.Sprintf("%d together", together), func(b *testing.B) {
			db := fresh(b)
			for n := 0; n < b.N; n += together {
				update(b, db, func(tx *store.Tx) {
					for i := n; i < n+together; i++ {
						chat := store.ChatOf("telegram", strconv.Itoa(i%1000))
						tx.Person(chat.Person("7")).AddJob(store.Job{Name: "laundry", Asked: "10 set 45s 2 pvc"})
						tx.StrikeOff(tx.Queue(chat, []byte("the reply")))
						tx.MarkDone(strconv.Itoa(i))
					}
				})
			}
		})
	}
}
