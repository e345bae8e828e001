//go:build ignore

// Findings reads what govulncheck prints as JSON and lists the findings outside
// the standard library. It exits with 1 if there are any.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"os"
)

type message struct {
	Finding *struct {
		OSV   string `json:"osv"`
		Trace []struct {
			Module   string `json:"module"`
			Version  string `json:"version"`
			Package  string `json:"package"`
			Function string `json:"function"`
		} `json:"trace"`
	} `json:"finding"`
	SBOM *struct {
		Modules []json.RawMessage `json:"modules"`
	} `json:"SBOM"`
}

func main() {
	log.SetFlags(0)
	ours, others, modules := 0, 0, 0
	for in := json.NewDecoder(os.Stdin); ; {
		var m message
		err := in.Decode(&m)
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			log.Fatal(err)
		}
		if m.SBOM != nil {
			modules = len(m.SBOM.Modules)
		}
		if m.Finding == nil || len(m.Finding.Trace) == 0 {
			continue
		}
		at := m.Finding.Trace[0]
		if at.Module == "stdlib" {
			others++
			continue
		}
		ours++
		fmt.Println(m.Finding.OSV, at.Module, at.Version, at.Package, at.Function)
	}
	if modules == 0 {
		log.Fatal("no list of modules: govulncheck did not run to its end")
	}
	fmt.Printf("%d modules, %d findings outside the standard library, %d in it\n", modules, ours, others)
	if ours > 0 {
		os.Exit(1)
	}
}
