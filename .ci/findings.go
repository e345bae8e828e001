//go:build ignore

// Findings reads what govulncheck prints as JSON and lists the findings outside
// the standard library, and what is called of those in it. It exits with 1 if there is
// any of the first, or if a Go that mends one of the second can be had: then go.mod's
// toolchain is to ask for it.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"log"
	"os"
	"os/exec"
	"runtime"
	"strings"
)

type message struct {
	Finding *struct {
		OSV   string `json:"osv"`
		Fixed string `json:"fixed_version"` // of Go: v1.26.10
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
	ours, modules := 0, 0
	called, mends := map[string]bool{}, map[string]bool{}
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
			if at.Function != "" && !called[m.Finding.OSV] {
				called[m.Finding.OSV], mends[m.Finding.Fixed] = true, true
				fmt.Println(m.Finding.OSV, "is called of", at.Package, at.Function, "of Go", at.Version, "mended by", m.Finding.Fixed)
			}
			continue
		}
		ours++
		fmt.Println(m.Finding.OSV, at.Module, at.Version, at.Package, at.Function)
	}
	if modules == 0 {
		log.Fatal("no list of modules: govulncheck did not run to its end")
	}
	fmt.Printf("%d modules, %d findings outside the standard library, %d called in it\n", modules, ours, len(called))
	if late := available(mends); ours > 0 || late {
		os.Exit(1)
	}
}

// available says whether a Go that mends something can be had as a toolchain, from where
// modules come.
func available(versions map[string]bool) (any bool) {
	for version := range versions {
		release := "go" + strings.TrimPrefix(version, "v")
		toolchain := "golang.org/toolchain@v0.0.1-" + release + "." + runtime.GOOS + "-" + runtime.GOARCH
		if version != "" && exec.Command("go", "list", "-m", toolchain).Run() == nil {
			fmt.Println(release, "can be had: put \"toolchain", release+"\" into go.mod")
			any = true
		}
	}
	return any
}
