// Command mutate plants mistakes, one at a time, and runs the tests that shall notice them.
// A mistake that all tests pass is a missing test. Nothing in the repository is changed: the
// compiler is given another text for the file.
//
// The mistakes stand in planted.txt: a line with the file, the package and the tests, then
// the text as it is, after "-", and as it is planted, after "+"; an empty line ends each. Give as
// little of the text as is found once: what stands beside it may change. The test of this package says
// which mistakes can no longer be planted.
//
//	go run ./tools/mutate               all of them
//	go run ./tools/mutate model/ study  those of files whose names have one of these in them
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// mistake is one that is planted.
type mistake struct {
	file, pkg, tests string
	before, after    string
}

func main() {
	survived, err := run(os.Args[1:])
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutate: "+err.Error())
		os.Exit(2)
	}
	if survived > 0 {
		os.Exit(1)
	}
}

// run plants the mistakes of some files, all if none are named, and returns how many nobody noticed.
func run(files []string) (survived int, err error) {
	text, err := os.ReadFile("tools/mutate/planted.txt")
	if err != nil {
		return 0, err
	}
	all, err := read(string(text))
	if err != nil {
		return 0, err
	}
	all = slices.DeleteFunc(all, func(m mistake) bool {
		named := func(part string) bool { return strings.Contains(m.file, part) }
		return len(files) > 0 && !slices.ContainsFunc(files, named)
	})
	for _, m := range all {
		noticed, err := m.plant()
		if err != nil {
			return survived, err
		}
		fmt.Printf("%-9s %s: %s\n", map[bool]string{true: "seen", false: "SURVIVED"}[noticed], m.file, first(m.after))
		if !noticed {
			survived++
		}
	}
	fmt.Printf("%d planted, %d survived\n", len(all), survived)
	return survived, nil
}

// read returns the mistakes of a list.
func read(text string) (all []mistake, err error) {
	for part := range strings.SplitSeq(strings.TrimSpace(text), "\n\n") {
		var m mistake
		for line := range strings.SplitSeq(part, "\n") {
			switch {
			case strings.HasPrefix(line, "#"):
			case strings.HasPrefix(line, "-"):
				m.before += line[1:] + "\n"
			case strings.HasPrefix(line, "+"):
				m.after += line[1:] + "\n"
			default:
				fields := strings.Fields(line)
				if len(fields) != 3 {
					return nil, fmt.Errorf("%q: want a file, a package and tests", line)
				}
				m.file, m.pkg, m.tests = fields[0], fields[1], fields[2]
			}
		}
		if m.file != "" {
			m.before, m.after = strings.TrimSuffix(m.before, "\n"), strings.TrimSuffix(m.after, "\n")
			all = append(all, m)
		}
	}
	return all, nil
}

// in returns the text of the file, in a directory with the repository, with the mistake in it.
func (m mistake) in(root string) (string, error) {
	text, err := os.ReadFile(filepath.Join(root, m.file))
	if err != nil {
		return "", err
	}
	if n := strings.Count(string(text), m.before); n != 1 {
		return "", fmt.Errorf("%s holds %d times, want once: %s", m.file, n, m.before)
	}
	return strings.Replace(string(text), m.before, m.after, 1), nil
}

// plant runs the tests with the mistake and reports whether one fails.
func (m mistake) plant() (noticed bool, err error) {
	text, err := m.in(".")
	if err != nil {
		return false, err
	}
	dir, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return false, err
	}
	defer func() { _ = os.RemoveAll(dir) }() // it is of no use any more
	planted, overlay := filepath.Join(dir, "planted.go"), filepath.Join(dir, "overlay.json")
	whole, err := filepath.Abs(m.file)
	if err != nil {
		return false, err
	}
	list, err := json.Marshal(map[string]any{"Replace": map[string]string{whole: planted}})
	if err != nil {
		return false, err
	}
	if err := os.WriteFile(planted, []byte(text), 0o600); err != nil {
		return false, err
	}
	if err := os.WriteFile(overlay, list, 0o600); err != nil {
		return false, err
	}
	if out, err := exec.Command("go", "vet", "-overlay", overlay, "./"+filepath.Dir(m.file)).CombinedOutput(); err != nil {
		return false, fmt.Errorf("%s: what is planted is no Go: %s", m.file, out)
	}
	if out, err := exec.Command("go", "test", "-run", m.tests, m.pkg).CombinedOutput(); err != nil {
		return false, fmt.Errorf("%s fails without a mistake too: %s", m.tests, out)
	}
	out, err := exec.Command("go", "test", "-overlay", overlay, "-run", m.tests, m.pkg).CombinedOutput()
	if err == nil && strings.Contains(string(out), "no tests to run") {
		return false, fmt.Errorf("%s: no test of %s is called %s", m.file, m.pkg, m.tests)
	}
	return err != nil, nil
}

// first returns the first line of a text that says something.
func first(text string) string {
	for line := range strings.SplitSeq(text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			return line
		}
	}
	return "(a line is left out)"
}
