package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"golang.org/x/term"

	"netrate/cmd/netrate/internal/desk"
)

// A file manager starts a program without arguments, or with the file that was dropped on it, and
// without a terminal. Then the workbench is what is wanted.

// started returns the arguments as if they had been typed: those of the workbench where a file manager
// gave them.
func started(args []string, onDesktop bool) []string {
	switch {
	case len(args) == 0 && onDesktop:
		return []string{"open"}
	case len(args) == 1 && dropped(args[0]):
		return []string{"open", args[0]}
	}
	return args
}

// dropped reports whether an argument is a scenario file that is there, and no verb.
func dropped(arg string) bool {
	if _, err := verbNamed(arg); err == nil {
		return false
	}
	ext := strings.ToLower(filepath.Ext(arg))
	info, err := os.Stat(arg)
	return (ext == ".yaml" || ext == ".yml") && err == nil && info.Mode().IsRegular()
}

// onDesktop reports whether the program was started from a desktop and not from a shell: none of
// its three streams is a terminal, and there is a screen. On Windows a program that is started by a
// double click has a console of its own.
func onDesktop(getenv func(string) string) bool {
	for _, f := range []*os.File{os.Stdin, os.Stdout, os.Stderr} {
		if term.IsTerminal(int(f.Fd())) {
			return desk.OwnConsole()
		}
	}
	return runtime.GOOS == "darwin" && getenv("XPC_SERVICE_NAME") != "" && getenv("CI") == "" || getenv("DISPLAY") != "" || getenv("WAYLAND_DISPLAY") != ""
}
