package desk

import (
	"cmp"
	"path/filepath"
	"runtime"
)

// StateDir returns the directory in which a program of this user keeps what it must not forget,
// below the name of the program: XDG_STATE_HOME (XDG Base Directory Specification, version 0.8),
// on Windows %LocalAppData%, on macOS ~/Library/Application Support. It is "" where the environment
// names no home. It is not made.
func StateDir(getenv func(string) string) string {
	return stateDir(runtime.GOOS, getenv)
}

func stateDir(system string, getenv func(string) string) string {
	home := getenv("HOME")
	var dir string
	switch system {
	case "windows":
		dir = cmp.Or(getenv("LocalAppData"), below(getenv("USERPROFILE"), "AppData", "Local"))
	case "darwin":
		dir = below(home, "Library", "Application Support")
	default:
		if dir = getenv("XDG_STATE_HOME"); !filepath.IsAbs(dir) { // relative ones are to be ignored, says the specification
			dir = below(home, ".local", "state")
		}
	}
	return below(dir, "netrate")
}

// below returns a path below a directory; "" if that is not known.
func below(dir string, names ...string) string {
	if dir == "" {
		return ""
	}
	return filepath.Join(append([]string{dir}, names...)...)
}

// SaveFile writes a whole file that a user names outside the command line, or none.
func SaveFile(e Env, path, text string) error {
	f, err := Create(e, "", path)
	if err != nil {
		return err
	}
	if _, err := f.WriteString(text); err != nil {
		f.Drop()
		return f.failed(err)
	}
	return f.Finish()
}
