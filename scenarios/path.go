package scenarios

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// maxPath is the length of the longest path, in bytes.
const maxPath = 400

// roots are the words that a path can begin with.
var roots = []string{"line", "lines", "stations", "policy", "crew", "work", "jobs", "changeover", "calendar", "season", "plan", "costs", "target"}

// spot is where in a tree a path leads: the keys of its mappings, and of its lists what
// the items go by.
type spot []string

// locate returns where a path leads, such as crew.operators or
// stations.letter.clear.lognormal.mean. Its last keys need not be there: whether they
// can be is for decode to say.
func locate(tree *node, path string) (spot, error) {
	root, rest, _ := strings.Cut(path, ".")
	below, _, _ := strings.Cut(rest, ".")
	several := child(tree, "lines") != nil
	switch {
	case len(path) > maxPath:
		return nil, fmt.Errorf("a path cannot be longer than %d characters", maxPath)
	case !slices.Contains(roots, root):
		return nil, fmt.Errorf("no path begins with %q: %s", root, meant(root, roots))
	case several && (root == "line" || root == "stations"):
		return nil, errors.New("there are several lines: want lines.NAME.KEY or lines.NAME.stations.NAME.KEY")
	case !several && root == "lines":
		return nil, errors.New("there is one line, in line: want line.KEY or stations.NAME.KEY")
	case root == "lines" && rest == "":
		return nil, errors.New("the lines as a whole cannot be set: want lines.NAME.KEY or lines.NAME.stations.NAME.KEY")
	case root == "line" && rest == "":
		return nil, errors.New("the line as a whole cannot be set: want line.speed, line.restart or stations.NAME.KEY")
	case root == "line" && below == "stations":
		return nil, errors.New("want stations.NAME.KEY, without line")
	case root == "stations" && rest == "":
		return nil, errors.New("want stations.NAME.KEY")
	case root == "stations":
		return walk(tree, "line."+path)
	}
	return walk(tree, path)
}

// walk returns the keys of a path through a tree.
func walk(tree *node, path string) (spot, error) {
	var keys spot
	for n, rest, more := tree, path, true; more; {
		key, err := leads(n, keys.last(), rest)
		switch {
		case err != nil:
			return nil, lacking(err, n, keys.last(), path, rest)
		case key == oneMore && keys.grows() && key != rest:
			return nil, fmt.Errorf("what is one more is set as a whole: want %s={…}", strings.TrimSuffix(path, strings.TrimPrefix(rest, oneMore)))
		}
		if list, listed := entries[keys.last()]; listed && key == rest && key != oneMore && n != nil && n.Kind == sequenceNode {
			whole := strings.TrimPrefix(path, "line.")
			return nil, fmt.Errorf("%s is a whole %s: say which key of it, such as %s.%s", key, list.item, whole, list.key)
		}
		keys = append(keys, key)
		n = step(n, key)
		rest, more = strings.CutPrefix(rest[len(key):], ".")
	}
	if keys.last() == "stations" {
		return nil, fmt.Errorf("want %s.NAME.KEY", path)
	}
	return keys, nil
}

// oneMore stands in a path for one more item of a list, behind all that there are.
const oneMore = "+"

// grows reports whether a spot is a list of items that can be one longer. Lines have stations of their own, and stations
// places on the track.
func (s spot) grows() bool {
	_, listed := entries[s.last()]
	return listed && s.last() != "lines" && s.last() != "stations"
}

// lacking returns why a path leads to no item of a list; of what a plan often has one more of, also how.
func lacking(err error, n *node, list, path, rest string) error {
	if n == nil || n.Kind != sequenceNode {
		return err
	}
	item := "{line: NAME, day: 1, start: \"06:00\", length: 1 h}"
	switch list {
	case "staff":
		wrong := misnamed(rest, namesIn(n))
		key := strings.TrimPrefix(strings.TrimPrefix(rest, wrong), ".")
		item = fmt.Sprintf("{name: %s, %s: …}", wrong, cmp.Or(key, entries[list].key))
	case "down":
	default:
		return err
	}
	return fmt.Errorf("%w (for one item more set %s to all of it, such as %s)", err, strings.TrimSuffix(path, rest)+oneMore, item)
}

// leads returns the first key of a path on from a node, which is the value of another key.
// Keys and names may hold dots; the longest that fits is meant.
func leads(n *node, of, path string) (string, error) {
	first, _, _ := strings.Cut(path, ".")
	list, listed := entries[of]
	switch {
	case n == nil || n.Kind == scalarNode:
	case n.Kind == mappingNode:
		if key := longest(keysOf(n), path); key != "" {
			return key, nil
		}
	case listed && first == oneMore && (spot{of}).grows():
		return oneMore, nil
	case listed:
		names := namesIn(n)
		name := longest(names, path)
		if name == "" {
			wrong := misnamed(path, names)
			return "", fmt.Errorf("no %s is named %q: %s", list.item, wrong, meant(wrong, names))
		}
		return name, nil
	}
	if first == "" {
		return "", errors.New("a key is missing before or after a dot")
	}
	return first, nil
}

// last returns the last key, or "".
func (s spot) last() string {
	if len(s) == 0 {
		return ""
	}
	return s[len(s)-1]
}

// misnamed returns the part of a path that was most likely meant for a name.
func misnamed(path string, names []string) string {
	for i, c := range path {
		if c == '.' && Nearest(path[:i], names) != "" {
			return path[:i]
		}
	}
	first, _, _ := strings.Cut(path, ".")
	return first
}

// keysOf returns the keys of a mapping.
func keysOf(n *node) []string {
	var keys []string
	for i := 0; i < len(n.Content); i += 2 {
		keys = append(keys, n.Content[i].Value)
	}
	return keys
}

// before returns what is at the spot, in words.
func (s spot) before(tree *node) string {
	n, from := s.found(tree)
	if n == nil {
		return "not given"
	}
	return inPlace(tree, n, brief) + from
}

// found returns what is at the spot, and in words where it comes from if it is not given in
// the file itself; nil if it is not given at all.
func (s spot) found(tree *node) (n *node, from string) {
	n = tree
	for i, key := range s {
		if i > 0 {
			n = longForm(s[i-1], n)
		}
		next := step(n, key)
		if given := inherited(n, key); next == nil && given != nil {
			next, from = given, " (preset "+child(n, "preset").Value+")"
		}
		if next == nil {
			return nil, ""
		}
		n = next
	}
	return n, from
}

// briefly is how many characters of a value are shown.
const briefly = 80

// brief returns a value as it would be written, or the beginning of it.
func brief(n *node) string {
	text := []rune(written(n))
	if len(text) > briefly {
		text = append(text[:briefly-1], '…')
	}
	return string(text)
}
