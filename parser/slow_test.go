package parser_test

import (
	"fmt"
	"os"
	"testing"
	"time"

	"dogleg/parser"
)

func TestSlow(t *testing.T) {
	if os.Getenv("SLOW") == "" {
		t.Skip()
	}
	for name, text := range worst() {
		for _, n := range []int{256, 1024, 4096} {
			s := text[:min(n, len(text))]
			done := make(chan bool)
			at := time.Now()
			go func() { parser.Parse(s); close(done) }()
			select {
			case <-done:
				fmt.Printf("%-14s %5d %v\n", name, n, time.Since(at))
			case <-time.After(3 * time.Second):
				fmt.Printf("%-14s %5d TIMEOUT\n", name, n)
				goto next
			}
		}
	next:
	}
}
