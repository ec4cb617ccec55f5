package desk

import "runtime/debug"

// Version returns what the build knows of itself: version, revision, Go.
func Version() string {
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
