package scenarios

import (
	"cmp"
	"errors"
	"fmt"
	"strings"
)

// EditedVariant returns the text of a scenario file in which a variant makes the edits, too, as
// changes that it sets after its others; all else of the file is as it was, byte for byte. Of
// the edits of a station, that of its source becomes the source of each of them.
//
// The variant must have changes. An error is of type [Problems], as that of [Edited].
func EditedVariant(file string, text []byte, name string, edits []Edit) ([]byte, error) {
	plain := withoutMark(text)
	mark := text[:len(text)-len(plain)]
	s := newScript(string(plain))
	if s == nil { // then it cannot be loaded either
		_, err := Load(file, text)
		return nil, err
	}
	r := newReader(file, nil)
	next, err := s.withChanges(name, edits)
	if err != nil {
		r.noteAt(0, 0, "variant %q: %v", name, err)
		return nil, r.problems
	}
	edited := []byte(string(mark) + next)
	if _, err := Load(file+" (edited)", edited); err != nil {
		return nil, err
	}
	return edited, nil
}

// withChanges returns the text in which a variant has changes more.
func (s *script) withChanges(name string, edits []Edit) (string, error) {
	list := changesOf(s.tree, name)
	if list == nil || len(list.Content) == 0 {
		return "", errors.New("it has no changes to which others can be added: write one by hand")
	}
	had := len(list.Content)
	at := s.end(list.Content[had-1], list)
	text, added := s.text[:at], ""
	if block := s.inBlock(list); block {
		at = s.lineEnd(at)
		text = s.text[:at]
		indented := cmp.Or(lineBreak.FindString(s.text), "\n") + strings.Repeat(" ", list.Column-1) + "- "
		for _, c := range changesFor(edits) {
			added += indented + c.Value + commented("", c.Comment)
		}
	} else {
		for _, c := range changesFor(edits) {
			added += ", " + c.Value
		}
	}
	text += added + s.text[at:]
	next := newScript(text)
	if next != nil {
		if now := changesOf(next.tree, name); now != nil && len(now.Content) > had {
			now.Content = now.Content[:had]
		}
	}
	if next == nil || !same(next.tree, s.tree) {
		return "", errors.New("the file is written in a way that cannot be edited here: write the changes into it by hand")
	}
	return text, nil
}

// changesOf returns the list of the changes of a variant; nil if there is none.
func changesOf(tree *node, variant string) *node {
	variants := child(tree, "variants")
	if variants == nil || variants.Kind != sequenceNode {
		return nil
	}
	of, _ := entry(variants, variant)
	if of == nil {
		return nil
	}
	list := child(of, "changes")
	if list == nil || list.Kind != sequenceNode {
		return nil
	}
	return list
}

// changesFor returns edits as changes of a variant, with the sources of their stations.
func changesFor(edits []Edit) (changes []Edit) {
	sources := map[string]string{} // by the path of the station, with the last dot
	for _, e := range edits {
		if of, is := strings.CutSuffix(e.Path, sourceKey); is {
			sources[of] = e.Value
		}
	}
	for _, e := range edits {
		of := e.Path[:strings.LastIndex(e.Path, ".")+1]
		if e.Path == of+sourceKey {
			continue
		}
		text := fmt.Sprintf("{set: '%s', to: %s", strings.ReplaceAll(e.Path, "'", "''"), e.Value)
		if source := sources[of]; source != "" {
			text += ", source: " + source
		}
		changes = append(changes, Edit{Path: e.Path, Value: text + "}", Comment: e.Comment})
	}
	return changes
}
