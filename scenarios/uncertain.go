package scenarios

import (
	"slices"
	"strings"

	"netrate/model"
)

// noUncertainty says what can be uncertain, of a number that cannot.
const noUncertainty = "cannot be uncertain: rates of stations can, and constant, mean or cv of their times, of line.restart and of crew.walk; how often a station breaks down; of, cv, bad and times of lots, cv and level of days; cycles, at, within and for of slow cycles; shares of attributes, and how often operators err. What is on a rating plate or is decided, such as speeds, capacities, shares, people and work, is varied with sweep, --set or variants"

// hasUncertainInput reports whether a value is written as one with its uncertainty is.
func hasUncertainInput(n *node) bool {
	return child(n, "seen") != nil || child(n, "about") != nil || child(n, "likely") != nil
}

// uncertain inputs gives a line what is not known of it for certain, in the order of the file, and
// returns where each is said, by its path. The line has a name if there are several. A station about which something was noted has no
// uncertain inputs: what the model would say of them follows from that.
func (r *reader) uncertain(l *model.Line, line string, tree *node) map[string]*node {
	said := map[string]*node{}
	add := func(station string, n *node, keys ...string) {
		if r.spoilt(n) {
			return
		}
		r.eachUncertainInput(n, keys, func(keys []string, n *node) {
			d := model.UncertainInput{Station: station}
			d.Name, d.Part = numberAt(keys)
			d.Of = model.Bounded(d.Name, r.priors[n])
			r.identify(&d, line, n)
			l.UncertainInputs = append(l.UncertainInputs, d)
			said[d.Path()] = n
		})
	}
	eachOf(tree, func(root string, n *node) {
		if root != "line" && root != "crew" {
			return
		}
		eachOf(n, func(key string, n *node) {
			if key != "stations" {
				add("", n, root, key)
				return
			}
			for _, station := range n.Content {
				add(nameOf(station), station)
			}
		})
	})
	return said
}

// certain notes uncertain inputs of what is no number of a line.
func (r *reader) certain(tree *node) {
	eachOf(tree, func(root string, n *node) {
		if !slices.Contains([]string{"line", "lines", "crew"}, root) {
			r.eachUncertainInput(n, []string{root}, func(keys []string, n *node) {
				if root == "jobs" && len(keys) == 5 && keys[2] == "rates" {
					return
				}
				r.note(n, "%s %s", strings.Join(keys, "."), noUncertainty)
			})
		}
	})
}

// eachUncertainInput calls f with each number at or below a node that was given with its uncertainty, and
// the keys that lead to it.
func (r *reader) eachUncertainInput(n *node, keys []string, f func(keys []string, n *node)) {
	if c := r.stands[n]; c != nil {
		n = c
	}
	if r.priors[n] != nil {
		f(keys, n)
		return
	}
	below := func(key string, n *node) { r.eachUncertainInput(n, append(slices.Clip(keys), key), f) }
	if n.Kind == sequenceNode {
		for i, name := range namesIn(n) {
			below(name, n.Content[i])
		}
	}
	eachOf(n, below)
}

// numberAt returns which number of the model some keys lead to: of clear, lognormal, mean it
// is the mean of clear. A constant is its own mean.
func numberAt(keys []string) (string, model.Part) {
	last, part := len(keys), model.NoPart
	switch keys[last-1] {
	case "constant":
		last, part = last-1, model.MeanPart
	case "mean":
		last, part = last-2, model.MeanPart
	case "cv":
		if keys[last-2] != "lots" && keys[last-2] != "days" { // of factors, not of a time
			last, part = last-2, model.CVPart
		}
	}
	if keys[last-1] == otherFaults {
		last-- // of clear: the model knows it as the usual one
	}
	return strings.Join(keys[:last], "."), part
}
