package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// BenchmarkStart starts the program for one message, cold but for the disk, and
// beside it one that only says hello.
func BenchmarkStart(b *testing.B) {
	program := built(b, ".")
	hello := built(b, helloWorld(b))
	var ours, floor []time.Duration
	for b.Loop() {
		floor = append(floor, timed(func() { started(b, hello) }))
		ours = append(ours, timed(func() { started(b, program, "ask", "12 set 45s 1-1/2 pvc") }))
	}
	compared(b, "start of ask, against hello world", middle(ours), middle(floor), "of-hello", "≤ 3 ×")
}

// helloWorld is the source of a program that does nothing else.
func helloWorld(b *testing.B) string {
	source := filepath.Join(b.TempDir(), "hello.go")
	const text = "package main\n\nimport \"fmt\"\n\nfunc main() { fmt.Println(\"hello, world\") }\n"
	if err := os.WriteFile(source, []byte(text), 0o600); err != nil {
		b.Fatal(err)
	}
	return source
}

// built builds a program as it is shipped.
func built(b *testing.B, source string) (program string) {
	program = filepath.Join(b.TempDir(), "program")
	if text, err := exec.Command("go", "build", "-trimpath", "-o", program, source).CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, text)
	}
	return program
}

func started(b *testing.B, program string, args ...string) {
	if text, err := exec.Command(program, args...).CombinedOutput(); err != nil {
		b.Fatalf("%v\n%s", err, text)
	}
}
