package scenarios

import "netrate/model"

// doing is the sorts of work that somebody does: one word, or a list of them.
type doing model.Doing

func (x *doing) decode(r *reader, n *node, key string) {
	words := n.Content
	switch {
	case n.Kind == scalarNode:
		words = []*node{n}
	case n.Kind == mappingNode:
		r.note(n, "%s is %s, want %s, or a list of them", key, shown(n), model.OneOf(model.DoingNames()))
		return
	case len(words) == 0:
		r.note(n, "%s is an empty list, want %s", key, model.OneOf(model.DoingNames()))
	}
	for _, word := range words {
		x.add(r, word, key, len(words) == 1)
	}
}

// add takes one word, the only one or one of several.
func (x *doing) add(r *reader, n *node, key string, alone bool) {
	if n.Kind == aliasNode { // noted by plain
		return
	}
	d, found := model.DoingOf(n.Value)
	switch {
	case !found || n.Kind != scalarNode:
		r.note(n, "%s is %s, %s", key, shown(n), meant(n.Value, model.DoingNames()))
	case d == model.Anything && !alone:
		r.note(n, "%s has %s beside others: that is all of them", key, n.Value)
	case d != model.Anything && model.Doing(*x)&d != 0:
		r.note(n, "%s has %s twice", key, n.Value)
	}
	*x |= doing(d)
}
