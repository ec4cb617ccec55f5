package study

import (
	"errors"
	"fmt"
)

// errNoLine says that a question is about no line.
var errNoLine = errors.New("the question has no line")

// ofLines returns why alternatives cannot be run: one is of no line, of both a line and a line
// group, or of a group without lines.
func ofLines(alternatives ...Alternative) error {
	for i := range alternatives {
		switch a := &alternatives[i]; {
		case a.Line == nil && a.Group == nil:
			return errNoLine
		case a.Line != nil && a.Group != nil:
			return errors.New("an alternative is one line or several with one crew, and has both")
		case a.Group != nil && len(a.Group.Lines) == 0:
			return errors.New("a group of lines has no lines")
		}
	}
	return nil
}

// namedApart returns why alternatives cannot be told apart: two have one name.
func namedApart(alternatives []Alternative) error {
	named := map[string]bool{}
	for i := range alternatives {
		name := alternatives[i].Name
		if named[name] {
			return fmt.Errorf("two alternatives are called %q: want names that tell them apart", name)
		}
		named[name] = true
	}
	return nil
}
