package workbench

import (
	"errors"
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios"
)

// set gives a value of the file another one, or takes it away.
func (w *work) set(op Op) (done, error) {
	value := strings.TrimSpace(op.Value)
	if value == "" {
		text, err := scenarios.EditedWithout(w.Title, []byte(w.text), op.Path)
		return w.edited(op, text, err)
	}
	text, err := scenarios.Edited(w.Title, []byte(w.text), []scenarios.Edit{{Path: op.Path, Value: value}})
	if err != nil && !strings.ContainsAny(value, "{[\"'\n") { // a sentence with a colon or a comma
		quoted := "'" + strings.ReplaceAll(value, "'", "''") + "'"
		if again, wrong := scenarios.Edited(w.Title, []byte(w.text), []scenarios.Edit{{Path: op.Path, Value: quoted}}); wrong == nil {
			text, err = again, nil
		}
	}
	return w.edited(op, text, err)
}

// add puts in a station of the palette.
func (w *work) add(op Op) (done, error) {
	part, known := partNamed(op.Part)
	if !known {
		return done{}, fmt.Errorf("nothing of the palette is called %q", op.Part)
	}
	sc, err := w.load()
	if err != nil {
		return done{}, errors.New("the text is no scenario yet: mend it first")
	}
	name := w.newName(part.Station)
	keys, err := part.keys(sc, op.Line, name)
	if err != nil {
		return done{}, err
	}
	text, err := scenarios.EditedRow(w.Title, []byte(w.text), scenarios.RowEdit{
		Line: op.Line,
		Add:  &scenarios.RowStation{Keys: keys, Name: name, After: op.After},
	})
	d, err := w.edited(op, text, err)
	d.said = name
	if after, wrong := w.load(); err == nil && wrong == nil {
		d.note = slowedBy(name, lineNamed(sc, op.Line), lineNamed(after, op.Line))
	}
	return d, err
}

// slowedBy says that a station that was put in slows its line; "" if it does not.
func slowedBy(name string, before, after *model.Line) string {
	if v := after.RunSpeed(); v < before.RunSpeed() {
		return fmt.Sprintf("The line now runs at %s/h, the most %s allows.", say.Exact(v), name)
	}
	return ""
}

// lineNamed returns a line of a scenario; "" names the only one.
func lineNamed(sc *scenarios.Scenario, name string) *model.Line {
	if sc.LineGroup != nil {
		for _, l := range sc.LineGroup.Lines {
			if l.Name == name {
				return l
			}
		}
		return sc.LineGroup.Lines[0]
	}
	return sc.Line
}

// newName returns a name that the text does not have yet.
func (w *work) newName(kind string) string {
	for n := 1; ; n++ {
		name := "new " + kind
		if n > 1 {
			name += fmt.Sprint(" ", n)
		}
		if !strings.Contains(w.text, name) {
			return name
		}
	}
}

func (w *work) move(op Op) (done, error) {
	text, err := scenarios.EditedRow(w.Title, []byte(w.text), scenarios.RowEdit{Line: op.Line, Move: &scenarios.RowPlace{Name: op.Name, At: op.At}})
	return w.edited(op, text, err)
}

func (w *work) remove(op Op) (done, error) {
	text, err := scenarios.EditedRow(w.Title, []byte(w.text), scenarios.RowEdit{Line: op.Line, Remove: op.Name})
	return w.edited(op, text, err)
}
