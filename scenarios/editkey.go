package scenarios

import (
	"errors"
	"regexp"
)

// EditedWithout returns the text of a scenario file without the value at a path, as of
// [Scenario.With], so that it is as if it had never been given; all else is as it was, byte for
// byte. A mapping of which nothing is left goes too. The path may be variants, for all of them. The
// result passes [Load]; an error is of type [Problems], as that of [Edited].
func EditedWithout(file string, text []byte, path string) ([]byte, error) {
	return rewrite(file, text, func(s *script) (*script, error) {
		at, err := locate(s.tree, path)
		if path == variantsKey {
			at, err = spot{path}, nil
		}
		if err != nil {
			return nil, err
		}
		return s.without(at)
	})
}

// without returns the script without what is at a spot.
func (s *script) without(at spot) (*script, error) {
	of, found := follow(s.tree, at[:len(at)-1])
	if !found || of.Kind != mappingNode || child(of, at.last()) == nil {
		return nil, errors.New("it is not given")
	}
	if len(of.Content) == 2 && len(at) > 1 {
		return s.without(at[:len(at)-1])
	}
	wanted := without(of, at.last())
	if len(at) > 1 {
		var err error
		if wanted, err = put(s.tree, at[:len(at)-1], wanted, wanted); err != nil {
			return nil, err
		}
	}
	next := newScript(spliced(s.text, []splice{s.cut(of, at.last())}))
	if next == nil || !same(next.tree, wanted) {
		return nil, errOddlyWritten
	}
	return next, nil
}

// variantsKey is the key of the variants, which no path leads to.
const variantsKey = "variants"

var (
	commaBefore = regexp.MustCompile(`,[ \t]*$`)
	commaAfter  = regexp.MustCompile(`^[ \t]*,[ \t]*`)
)

// cut returns what of the text is a key with its value: of a block its lines, between brackets
// with one comma.
func (s *script) cut(of *node, key string) splice {
	i := 0
	for of.Content[i].Value != key {
		i += 2
	}
	k, v := of.Content[i], of.Content[i+1]
	from, to := s.start(k), s.end(v, of)
	if !s.inBlock(of) {
		if after := commaAfter.FindString(s.text[to:]); after != "" {
			return splice{from, to + len(after), ""}
		}
		return splice{from - len(commaBefore.FindString(s.text[:from])), to, ""}
	}
	end := s.lineEnd(to)
	end += len(lineBreak.FindString(s.text[end:]))
	if i == 0 && len(of.Content) > 2 && s.text[s.from[k.Line-1]:from] != "" && s.dashed(k) { // - kind: the next key takes its place
		return splice{from, s.start(of.Content[2]), ""}
	}
	return splice{s.from[k.Line-1], end, ""}
}

// dashed reports whether a key stands behind the dash of a list.
func (s *script) dashed(k *node) bool {
	for _, c := range s.text[s.from[k.Line-1]:s.start(k)] {
		if c == '-' {
			return true
		}
	}
	return false
}
