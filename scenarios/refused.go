package scenarios

import (
	"cmp"
	"errors"
	"strings"

	"netrate/model"
)

// Refused returns the line of a file that Load refuses for nothing but responses that the
// line cannot have, so that it can be shown which ones it can; else nil. The line does not
// pass its Check. Of several lines it is the first.
func Refused(file string, data []byte) *model.Line {
	data = withoutMark(data)
	r := newReader(file, data)
	tree := r.parse(data)
	if tree == nil || len(data) > maxBytes {
		return nil
	}
	_, tracks := r.scenario(without(tree, "variants"))
	if len(r.problems) > 0 {
		return nil
	}
	var refused *model.Line
	for _, t := range tracks {
		for _, err := range t.Check() {
			var p *model.Problem
			if !errors.As(err, &p) || !strings.HasPrefix(p.Field, "policy.") {
				return nil
			}
			refused = cmp.Or(refused, t.Line)
		}
	}
	return refused
}
