package main

import (
	"fmt"
	"runtime"
	"runtime/debug"
)

type versionCommand struct{}

// Run prints the module's version, the commit it was built from where the build
// recorded one, and the Go release.
func (versionCommand) Run(world streams) error {
	version, commit := "(devel)", ""
	if info, ok := debug.ReadBuildInfo(); ok {
		version, commit = info.Main.Version, commitOf(info.Settings)
	}
	_, err := fmt.Fprintf(world.out, "dogleg %s%s, %s %s/%s\n",
		version, commit, runtime.Version(), runtime.GOOS, runtime.GOARCH)
	return err
}

// commitOf is the commit among the settings of a build, with a space before it;
// empty where there is none, as under go run.
func commitOf(settings []debug.BuildSetting) string {
	for _, setting := range settings {
		if setting.Key == "vcs.revision" {
			return " " + setting.Value
		}
	}
	return ""
}
