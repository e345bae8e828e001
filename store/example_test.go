package store_test

import (
	"fmt"
	"log"
	"os"
	"path/filepath"

	"dogleg/store"
)

// One message comes in from the house on Juniper Street: the job, the reply
// and the mark that it is done are kept together or not at all.
func Example() {
	dir, err := os.MkdirTemp("", "juniper")
	if err != nil {
		log.Fatal(err)
	}
	defer os.RemoveAll(dir)
	db, err := store.Open(filepath.Join(dir, "dogleg.db"))
	if err != nil {
		log.Fatal(err)
	}
	defer db.Close()

	crew := store.ChatOf("telegram", "1207")
	err = db.Update(func(tx *store.Tx) error {
		if tx.Done("727334708") {
			return nil
		}
		tx.Person(crew.Person("7")).AddJob(store.Job{Name: "laundry", Asked: "10 set 45s 2 pvc"})
		tx.Queue(crew, []byte("the reply"))
		tx.MarkDone("727334708")
		return nil
	})
	if err != nil {
		log.Fatal(err)
	}

	err = db.View(func(tx *store.Tx) error {
		for _, job := range tx.Person(crew.Person("7")).Jobs() {
			fmt.Printf("%d. %s: %s\n", job.Number, job.Name, job.Asked)
		}
		for _, entry := range tx.Outbox() {
			fmt.Printf("to %s: %s\n", entry.Chat, entry.Payload)
		}
		return nil
	})
	if err != nil {
		log.Fatal(err)
	}
	// Output:
	// 1. laundry: 10 set 45s 2 pvc
	// to telegram/1207: the reply
}
