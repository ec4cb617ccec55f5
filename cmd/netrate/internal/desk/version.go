package desk

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"sync"
)

// Version returns what the build knows of itself: version, revision, Go.
func Version() string {
	info, _ := debug.ReadBuildInfo()
	return versionOf(info)
}

func versionOf(info *debug.BuildInfo) string {
	if info == nil {
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

// build returns what no other build of the program is called: two that differ might answer otherwise.
var build = sync.OnceValues(func() (string, error) {
	info, _ := debug.ReadBuildInfo()
	return buildOf(info, executableSum)
})

// buildOf returns the version of a build made of one revision as it is; that of any other, of which the
// version does not say what it is made of, with the sum of the executable.
func buildOf(info *debug.BuildInfo, executable func() (string, error)) (string, error) {
	if info != nil {
		settings := map[string]string{}
		for _, s := range info.Settings {
			settings[s.Key] = s.Value
		}
		if settings["vcs.revision"] != "" && settings["vcs.modified"] == "false" {
			return versionOf(info), nil
		}
	}
	sum, err := executable()
	if err != nil {
		return "", Wrong("--shard and merge want to know which build this is, and its executable cannot be read: %v", err)
	}
	return versionOf(info) + " executable " + sum, nil
}

// executableSum returns the SHA-256 of the executable that runs.
func executableSum() (string, error) {
	path, err := os.Executable()
	if err != nil {
		return "", err
	}
	if runtime.GOOS == "linux" {
		path = "/proc/self/exe" // itself, also where another has taken its name
	}
	from, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer func() { _ = from.Close() }() // it was only read
	sum := sha256.New()
	if _, err := io.Copy(sum, from); err != nil {
		return "", err
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
