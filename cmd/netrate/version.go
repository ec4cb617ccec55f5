package main

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/pflag"
)

func versionVerb() verb {
	return verb{
		name: "version", about: "print the version",
		prepare: func(*pflag.FlagSet) action { return printVersion },
	}
}

func printVersion(e env, args []string) error {
	if err := noArguments("version", args); err != nil {
		return err
	}
	_, err := fmt.Fprintln(e.out, "netrate", version())
	return err
}

// version returns what the build knows of itself: version, revision, Go.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	text := info.Main.Version
	if text == "" {
		text = "(devel)"
	}
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			text += " " + s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			text += " modified"
		}
	}
	return text + " " + info.GoVersion
}
