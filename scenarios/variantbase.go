package scenarios

import (
	"slices"
	"strings"
)

// buildAll returns the variants in their order, each built on the file or on the variant that it
// names; one that cannot be has no tree, and why is noted.
func (r *reader) buildAll(given []variant, base *node, sound bool) []Variant {
	built := make([]Variant, len(given))
	for _, i := range r.buildingOrder(given) {
		v, on := &given[i], Variant{tree: base}
		if v.BuildsOn != nil {
			on = built[slices.IndexFunc(given, v.isBuiltOn)]
		}
		if on.tree == nil { // noted there
			built[i].Name = string(or(v.Name, ""))
			continue
		}
		from := len(r.problems)
		built[i] = v.build(r, on, sound)
		v.entitle(r.problems[from:])
	}
	return built
}

// isBuiltOn reports whether the variant builds on another.
func (v *variant) isBuiltOn(other variant) bool {
	return v.BuildsOn != nil && other.node != nil && or(other.Name, "") == *v.BuildsOn
}

// buildingOrder returns the numbers of the variants, each after the one that it builds on. It
// notes those that build on none that there is, or in a circle, and leaves them out.
func (r *reader) buildingOrder(given []variant) []int {
	var order []int
	done := map[int]bool{}
	for i := range given {
		var chain []int
		for at := i; at >= 0 && !done[at]; at = r.below(given, at) {
			if n := slices.Index(chain, at); n >= 0 {
				r.circle(given, chain[n:])
				for _, k := range chain {
					done[k] = true // noted, or built on what was
				}
				chain = nil
				break
			}
			chain = append(chain, at)
		}
		for _, at := range slices.Backward(chain) {
			done[at] = true
			if v := &given[at]; v.node != nil && !r.baseless(given, at) {
				order = append(order, at)
			}
		}
	}
	return order
}

// below returns the number of the variant that one builds on; -1 if it is none.
func (r *reader) below(given []variant, i int) int {
	return slices.IndexFunc(given, given[i].isBuiltOn)
}

// baseless reports whether a variant builds on one that there is not, and notes it.
func (r *reader) baseless(given []variant, i int) bool {
	v := &given[i]
	at := child(v.node, "builds_on")
	switch {
	case v.BuildsOn == nil:
		return at != nil // noted
	case r.below(given, i) >= 0:
		return false
	}
	var names []string
	for k := range given {
		if k != i {
			names = append(names, string(or(given[k].Name, "")))
		}
	}
	switch wrong := string(*v.BuildsOn); {
	case plainWord(wrong) == BaseName:
		r.note(at, "builds_on is %s, which every variant builds on: leave it out", wrong)
	case names == nil:
		r.note(at, "no variant is named %q: there is no other", wrong)
	default:
		r.note(at, "no variant is named %q: %s", wrong, r.meant(wrong, names))
	}
	return true
}

// circle notes variants that build on each other, once: at the one that comes first in the file.
func (r *reader) circle(given []variant, of []int) {
	first := slices.Index(of, slices.Min(of))
	of = slices.Concat(of[first:], of[:first])
	at := child(given[of[0]].node, "builds_on")
	if len(of) == 1 {
		r.note(at, "variant %q builds on itself: leave builds_on out", string(*given[of[0]].Name))
		return
	}
	var names []string
	for _, i := range of {
		names = append(names, "“"+string(*given[i].Name)+"”")
	}
	r.note(at, "variants build on each other in a circle: %s → %s", strings.Join(names, " → "), names[0])
}
