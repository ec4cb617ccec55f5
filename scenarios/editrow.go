package scenarios

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// RowEdit is a change of the row of stations of a line, made in the text of its file. All else
// of the text is as it was, byte for byte; comments stay where they are.
type RowEdit struct {
	Line string // the name of the line where a file has several; "" of the only one

	// One of these three.
	Add    *RowStation // a station more
	Move   *RowPlace   // a station to another pitch, past others if it has to
	Remove string      // the name of a station to take out
}

// RowStation is a station to put in.
type RowStation struct {
	Keys  string // between the braces of its mapping, without name and at: kind: feeder, preset: rotary
	Name  string
	After string // the station behind which it stands; "" for the first
}

// RowPlace is where a station is to stand.
type RowPlace struct {
	Name string
	At   int // pitches
}

// rowGap is how far a station that is added stands behind the one before it, and before the one
// behind it: as much of the track as a feeder takes. Common practice, no source.
const rowGap = 2

// EditedRow returns the text of a scenario file with an edit of a row of stations made. A station
// that is added pushes on those behind it where it has no room. The result passes [Load]; an error
// is of type [Problems], as that of [Edited].
func EditedRow(file string, text []byte, e RowEdit) ([]byte, error) {
	return rewrite(file, text, func(s *script) (*script, error) {
		r, err := s.row(e.Line)
		if err != nil {
			return nil, err
		}
		switch {
		case e.Add != nil:
			return r.added(*e.Add)
		case e.Move != nil:
			return r.moved(*e.Move)
		default:
			return r.removed(e.Remove)
		}
	})
}

// rewrite returns a text with what edit makes of it, if that passes [Load].
func rewrite(file string, text []byte, edit func(*script) (*script, error)) ([]byte, error) {
	plain := withoutMark(text)
	mark := text[:len(text)-len(plain)]
	s := newScript(string(plain))
	if s == nil { // then it cannot be loaded either
		_, err := Load(file, text)
		return nil, err
	}
	next, err := edit(s)
	if err != nil {
		r := newReader(file, nil)
		r.noteAt(0, 0, "%v", err)
		return nil, r.problems
	}
	edited := []byte(string(mark) + next.text)
	if _, err := Load(file+" (edited)", edited); err != nil {
		return nil, err
	}
	return edited, nil
}

// writtenRow is the row of stations of a line in the text of a file.
type writtenRow struct {
	*script
	path spot
	list *node
}

// row returns the row of the line of a name.
func (s *script) row(line string) (*writtenRow, error) {
	path := spot{"line", "stations"}
	switch several := child(s.tree, "lines") != nil; {
	case several && line == "":
		return nil, errors.New("there are several lines: say which it is")
	case several:
		path = spot{"lines", line, "stations"}
	case line != "":
		return nil, errors.New("there is one line, without a name")
	}
	list, found := follow(s.tree, path)
	if !found || list.Kind != sequenceNode || len(list.Content) == 0 {
		return nil, fmt.Errorf("%s has no stations", cmp.Or(line, "the line"))
	}
	if !s.inBlock(list) {
		return nil, errOddlyWritten
	}
	return &writtenRow{s, path, list}, nil
}

var errOddlyWritten = errors.New("the file is written in a way that cannot be edited here: do it in the text")

// index returns which station has a name.
func (r *writtenRow) index(name string) (int, error) {
	names := namesIn(r.list)
	i := slices.Index(names, name)
	if i < 0 {
		return 0, fmt.Errorf("no station is named %q: %s", name, meant(name, names))
	}
	return i, nil
}

// at returns the pitch of a station; one that is no number is 0.
func (r *writtenRow) at(i int) int {
	var at pitch
	if n := child(r.list.Content[i], "at"); n != nil {
		_ = at.read(n.Value) // Load says what is wrong with it
	}
	return int(at)
}

// span returns from where to where the lines of a station reach, line breaks included.
func (r *writtenRow) span(i int) (from, to int) {
	n := r.list.Content[i]
	from = r.from[n.Line-1]
	to = r.lineEnd(r.end(n, r.list))
	return from, to + len(lineBreak.FindString(r.text[to:]))
}

// splice is a part of a text, and what takes its place.
type splice struct {
	from, to int
	with     string
}

// spliced returns a text with parts of it replaced, which do not overlap.
func spliced(text string, all []splice) string {
	slices.SortStableFunc(all, func(a, b splice) int { return cmp.Compare(b.from, a.from) })
	for _, x := range all {
		text = text[:x.from] + x.with + text[x.to:]
	}
	return text
}

// placedAt returns how the pitch of a station is rewritten.
func (r *writtenRow) placedAt(i, at int) ([]splice, *node, error) {
	old := child(r.list.Content[i], "at")
	if old == nil {
		return nil, nil, fmt.Errorf("%s has no pitch", nameOf(r.list.Content[i]))
	}
	value := strconv.Itoa(at)
	return []splice{{r.start(old), r.end(old, r.list.Content[i]), value}}, replace(r.list.Content[i], "at", scalar(value, old), old), nil
}

// pushed returns how all stations from one on are moved on, so that it stands at a pitch or
// behind it.
func (r *writtenRow) pushed(stations []*node, from, least int) (all []splice, err error) {
	by := 0
	if from < len(stations) {
		by = max(0, least-r.at(from))
	}
	for i := from; by > 0 && i < len(stations); i++ {
		x, n, err := r.placedAt(i, r.at(i)+by)
		if err != nil {
			return nil, err
		}
		all, stations[i] = append(all, x...), n
	}
	return all, nil
}

// added returns the script with a station more.
func (r *writtenRow) added(x RowStation) (*script, error) {
	before, at := -1, 0
	if x.After != "" {
		i, err := r.index(x.After)
		if err != nil {
			return nil, err
		}
		before, at = i, r.at(i)+rowGap
	}
	entry := fmt.Sprintf("{%s, name: %s, at: %d}", x.Keys, quotedName(x.Name), at)
	of := newScript("{a: " + entry + "}")
	if of == nil || len(of.tree.Content) != 2 || of.tree.Content[1].Kind != mappingNode {
		return nil, fmt.Errorf("%s is no station", brief(scalar(entry, &node{})))
	}
	stations := slices.Clone(r.list.Content)
	all, err := r.pushed(stations, before+1, at+rowGap)
	if err != nil {
		return nil, err
	}
	first, _ := r.span(0)
	indent := r.text[first : first+strings.Index(r.text[first:], "-")]
	entry = indent + "- " + entry
	if before < 0 {
		all = append(all, splice{first, first, entry + r.lineBreak()})
	} else {
		to := r.lineEnd(r.end(stations[before], r.list))
		all = append(all, splice{to, to, r.lineBreak() + entry})
	}
	return r.written(all, slices.Insert(stations, before+1, of.tree.Content[1]))
}

// lineBreak returns how the lines of the file end.
func (s *script) lineBreak() string { return cmp.Or(lineBreak.FindString(s.text), "\n") }

// quotedName returns a name as YAML has it anywhere.
func quotedName(name string) string {
	if wordPattern.MatchString(name) {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", "''") + "'"
}

// removed returns the script with a station less.
func (r *writtenRow) removed(name string) (*script, error) {
	i, err := r.index(name)
	if err != nil {
		return nil, err
	}
	from, to := r.span(i)
	return r.written([]splice{{from, to, ""}}, slices.Delete(slices.Clone(r.list.Content), i, i+1))
}

// moved returns the script with a station at another pitch.
func (r *writtenRow) moved(x RowPlace) (*script, error) {
	i, err := r.index(x.Name)
	if err != nil {
		return nil, err
	}
	all, n, err := r.placedAt(i, x.At)
	if err != nil {
		return nil, err
	}
	stations := slices.Delete(slices.Clone(r.list.Content), i, i+1)
	to := 0 // how many of the others stand before it
	for k := range r.list.Content {
		if k != i && (r.at(k) < x.At || r.at(k) == x.At && k < i) {
			to++
		}
	}
	if to == i {
		return r.written(all, slices.Insert(stations, to, n))
	}
	from, end := r.span(i)
	lines := spliced(r.text[from:end], []splice{{all[0].from - from, all[0].to - from, all[0].with}})
	if lineBreak.FindString(lines) == "" { // the last line of the file
		lines += r.lineBreak()
	}
	target := to
	if to > i {
		target++ // as the row is written still
	}
	var at int
	if target < len(r.list.Content) {
		at, _ = r.span(target)
	} else {
		_, at = r.span(target - 1)
	}
	return r.written([]splice{{from, end, ""}, {at, at, lines}}, slices.Insert(stations, to, n))
}

// written returns the text with splices made, which must hold the row of stations that was meant
// and nothing else new.
func (r *writtenRow) written(all []splice, stations []*node) (*script, error) {
	list := *r.list
	list.Content = stations
	wanted, err := put(r.tree, r.path, &list, &list)
	if err != nil {
		return nil, err
	}
	next := newScript(spliced(r.text, all))
	if next == nil || !same(next.tree, wanted) {
		return nil, errOddlyWritten
	}
	return next, nil
}
