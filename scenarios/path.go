package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// maxPath is the length of the longest path, in bytes.
const maxPath = 400

// roots are the words that a path can begin with.
var roots = []string{"line", "stations", "policy", "crew", "work"}

// spot is where in a tree a path leads.
type spot struct {
	station int      // index along the track, or -1 if it leads to no station
	keys    []string // from the station or from the root, one at least
}

// locate returns where a path leads, such as crew.operators or
// stations.letter.clear.lognormal.mean. Its last keys need not be there: whether they
// can be is for decode to say.
func locate(tree *node, path string) (spot, error) {
	root, rest, _ := strings.Cut(path, ".")
	keys := strings.Split(path, ".")
	switch {
	case len(path) > maxPath:
		return spot{}, fmt.Errorf("a path cannot be longer than %d characters", maxPath)
	case root == "stations":
		return locateStation(tree, rest)
	case !slices.Contains(roots, root):
		return spot{}, fmt.Errorf("no path begins with %q: %s", root, meant(root, roots))
	case root == "line" && len(keys) == 1:
		return spot{}, errors.New("the line as a whole cannot be set: want line.speed, line.restart or stations.NAME.KEY")
	case root == "line" && keys[1] == "stations":
		return spot{}, errors.New("want stations.NAME.KEY, without line")
	}
	return spot{-1, keys}, complete(keys)
}

// locateStation returns where a path leads from the name of a station on. A name may
// hold dots; the longest that fits is meant.
func locateStation(tree *node, path string) (spot, error) {
	best, length := -1, -1
	names := stationNames(tree)
	for i, name := range names {
		if (path == name || strings.HasPrefix(path, name+".")) && len(name) > length {
			best, length = i, len(name)
		}
	}
	switch {
	case path == "":
		return spot{}, errors.New("want stations.NAME.KEY")
	case best < 0:
		return spot{}, fmt.Errorf("no station is named %q: %s", misnamed(path, names), meant(misnamed(path, names), names))
	case len(path) == length:
		return spot{}, fmt.Errorf("%s is a whole station: say which key of it, such as stations.%s.at", path, path)
	}
	keys := strings.Split(path[length+1:], ".")
	return spot{best, keys}, complete(keys)
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

func complete(keys []string) error {
	if slices.Contains(keys, "") {
		return errors.New("a key is missing before or after a dot")
	}
	return nil
}

// put returns a copy of a tree with a value at the spot; keys that are added have a
// place in the file.
func (s spot) put(tree, v, place *node) (*node, error) {
	if s.station < 0 {
		return put(tree, s.keys, v, place)
	}
	stations := slices.Clone(stationsOf(tree).Content)
	changed, err := put(stations[s.station], s.keys, v, place)
	if err != nil {
		return nil, err
	}
	stations[s.station] = changed
	return withStations(tree, stations), nil
}

// before returns what is at the spot, in words.
func (s spot) before(tree *node) string {
	from := tree
	if s.station >= 0 {
		from = stationsOf(tree).Content[s.station]
	}
	path := strings.Join(s.keys, ".")
	if v, exact := find(from, path); exact {
		return brief(v)
	}
	if given := inherited(from, s.keys[0]); given != nil && child(from, s.keys[0]) == nil {
		if v, exact := find(given, strings.Join(s.keys[1:], ".")); exact || len(s.keys) == 1 {
			return brief(v) + " (preset " + child(from, "preset").Value + ")"
		}
	}
	return "not given"
}

// briefly is how many characters of a value are told in words.
const briefly = 80

// brief returns a value as it would be written, or the beginning of it.
func brief(n *node) string {
	text := []rune(written(n))
	if len(text) > briefly {
		text = append(text[:briefly-1], '…')
	}
	return string(text)
}
