package workbench

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"

	"netrate/cmd/netrate/internal/desk"
	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/scenarios"
)

// Op is one operation on the work in hand, as a page asks for it.
type Op struct {
	Kind  string `json:"kind"`
	Tab   string `json:"tab"`   // which page asks
	Group string `json:"group"` // operations of one group, one right after the other, are undone at once
	Rev   int    `json:"rev"`   // of type: the revision of the text that was changed

	Path  string `json:"path"` // of set: a value by its path, and the value; "" takes it away
	Value string `json:"value"`

	Line  string `json:"line"`  // of add, move and remove: the line, where there are several
	Name  string `json:"name"`  // the station; of example, open, pin and job the name
	After string `json:"after"` // of add: behind which station; "" for the first
	Part  string `json:"part"`  // of add: what of the palette
	At    int    `json:"at"`    // of move: the pitch

	Edits []json.RawMessage `json:"edits"` // of type: changes of the text, one after the other, as the editor writes them
	Text  string            `json:"text"`  // of open: the text
	Pin   int               `json:"pin"`   // of rename, drop, base and take: which pin, from 0

	Save string `json:"save"` // of save: under which name, in the directory of the file; "" for the file itself
	Over bool   `json:"over"` // of save: over what somebody else has made of the file, which is kept as a pin
}

// errStale says that a text was changed which is not that of the server any more.
var errStale = errors.New("the text was changed meanwhile")

// done is what an operation did.
type done struct {
	edits []json.RawMessage // of the text, one revision each
	text  bool              // the text has changed
	shown bool              // something else has that the page shows
	said  string            // to be told to whoever asked; may be empty
	note  string            // what else came of it
}

// operations are what can be asked for, by kind.
var operations = map[string]func(*work, Op) (done, error){
	"set": (*work).set, "add": (*work).add, "move": (*work).move, "remove": (*work).remove,
	"type": (*work).typed, "undo": (*work).undone, "redo": (*work).redone,
	"example": (*work).example, "open": (*work).opened, "theirs": (*work).takeTheirs, "fitted": (*work).fitted, "job": (*work).forJob,
	"pin": (*work).addPin, "variants": (*work).pinVariants, "rename": (*work).renamePin, "drop": (*work).dropPin, "base": (*work).firstPin, "take": (*work).takePin, "prices": (*work).pricePins,
	"save": (*work).save,
}

// do does an operation. On an error nothing has changed.
func (w *work) do(op Op) (done, error) {
	act := operations[op.Kind]
	if act == nil {
		return done{}, fmt.Errorf("no operation is called %q", op.Kind)
	}
	return act(w, op)
}

// step makes the text another one.
func (w *work) step(text, group string) (done, error) { return w.stepWith(text, group, beside{}) }

// stepWith does so together with what stands beside the text: one step, that is undone at once.
func (w *work) stepWith(text, group string, with beside) (done, error) {
	if len(text) > largest {
		return done{}, errors.New("a scenario cannot be larger than 1 MiB")
	}
	before := w.text
	c, changed := w.to(text, group, with)
	if !changed {
		return done{}, nil
	}
	w.keep(record{To: &toText{group, c, with}})
	return w.stepped(before, c), nil
}

// stepped says what a step did that led here from another text.
func (w *work) stepped(before string, c change) done {
	if w.text == before {
		return done{shown: true}
	}
	return done{edits: []json.RawMessage{c.asEdit(before)}, text: true}
}

// edited makes the text what one of the edits of scenarios made of it.
func (w *work) edited(op Op, text []byte, err error) (done, error) {
	if err != nil {
		return done{}, plainly(err)
	}
	return w.step(string(text), op.Group)
}

// plainly returns what is wrong in the words of netrate check, without the place in a text that
// nobody sees.
func plainly(err error) error {
	var problems scenarios.Problems
	if !errors.As(err, &problems) {
		return err
	}
	var all []string
	variants := true
	for _, p := range problems[:min(len(problems), 3)] {
		all = append(all, p.Text)
		variants = variants && strings.HasPrefix(p.Text, "variant ")
	}
	if variants {
		all = append(all, "The variants of the file count on the line as it is: under Alternatives they can be pinned and taken out of the text.")
	}
	return errors.New(strings.Join(all, "\n"))
}

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

// typed makes changes of the text itself, which need not leave a scenario.
func (w *work) typed(op Op) (done, error) {
	text := w.text
	for _, e := range op.Edits {
		next, err := edited(text, e)
		if err != nil {
			return done{}, err
		}
		text = next
	}
	d, err := w.step(text, op.Group)
	if err == nil {
		d.edits = op.Edits // one revision each, also where together they change nothing
	}
	return d, err
}

func (w *work) undone(Op) (done, error) { return w.turned(w.undo, record{Undo: true}) }
func (w *work) redone(Op) (done, error) { return w.turned(w.redo, record{Redo: true}) }

func (w *work) turned(turn func() (change, bool), r record) (done, error) {
	before, file := w.text, w.File
	c, changed := turn()
	if !changed {
		return done{}, nil
	}
	w.keep(r)
	if w.File != file {
		w.hasTheirs, w.theirs = false, ""
	}
	return w.stepped(before, c), nil
}

// example takes the text of an example; opened that of another file, which the page has read.
// Neither has a place on the disk: saving asks for one. The pins were of another line. What was there,
// with its pins and its file, comes back with undo.
func (w *work) example(op Op) (done, error) {
	x, err := scenarios.ExampleNamed(op.Name)
	if err != nil {
		return done{}, err
	}
	return w.begin(x.Name, string(x.Data))
}

func (w *work) opened(op Op) (done, error) { return w.begin(op.Name, op.Text) }

func (w *work) begin(title, data string) (done, error) {
	to := place{Title: cmp.Or(title, "untitled")}
	text, err := to.read(data)
	if err != nil {
		return done{}, err
	}
	to.Saved = ""
	d, err := w.stepWith(text, "", beside{Pins: new([]pin), Place: &to, Job: new(string)})
	if err != nil {
		return d, err
	}
	w.hasTheirs, w.theirs = false, ""
	d.shown = true
	return d, nil
}

// takeTheirs takes what somebody else has made of the file. What was there comes back with undo.
func (w *work) takeTheirs(Op) (done, error) {
	if !w.hasTheirs {
		return done{}, errors.New("nobody has changed the file")
	}
	to := place{File: w.File, Title: w.Title}
	text, err := to.read(w.theirs)
	if err != nil {
		return done{}, err
	}
	d, err := w.step(text, "")
	if err != nil {
		return d, err
	}
	w.place, w.hasTheirs, w.theirs = to, false, ""
	w.keep(record{Place: &to})
	d.shown = true
	return d, nil
}

// forJob says for which job the line is set up.
func (w *work) forJob(op Op) (done, error) {
	w.job = op.Name
	w.keep(record{Job: &w.job})
	return done{text: true, shown: true}, nil // the answer is of other work
}

// addPin keeps what is there as an alternative.
func (w *work) addPin(op Op) (done, error) {
	sc, err := w.load()
	if err != nil {
		return done{}, errors.New("the text is no scenario yet: mend it first")
	}
	return w.pinned(pin{Name: cmp.Or(strings.TrimSpace(op.Name), w.pinName(sc.Name)), Text: w.text, Job: w.job})
}

// pinVariants keeps the file and its variants as alternatives, and takes the variants out of the
// text, which can then be changed whatever they count on.
func (w *work) pinVariants(Op) (done, error) {
	sc, err := w.load()
	if err != nil {
		return done{}, errors.New("the text is no scenario yet: mend it first")
	}
	if len(sc.Variants) == 0 {
		return done{}, errors.New("the file has no variants")
	}
	text, err := scenarios.EditedWithout(w.Title, []byte(w.text), "variants")
	if err != nil {
		return done{}, plainly(err)
	}
	all := []pin{{Name: w.pinName(scenarios.BaseName), Text: w.text, Job: w.job}}
	for _, v := range sc.Variants {
		all = append(all, pin{Name: w.pinName(v.Name), Text: w.text, Variant: v.Name, Job: w.job})
	}
	pins, err := w.withMore(all...)
	if err != nil {
		return done{}, err
	}
	d, err := w.stepWith(string(text), "", beside{Pins: &pins})
	d.shown, d.said = true, "The variants stand beside the text as alternatives, and are out of it."
	return d, err
}

// pinName returns a name that no pin has.
func (w *work) pinName(wanted string) string {
	name := wanted
	for n := 2; w.pinNamed(name) >= 0; n++ {
		name = fmt.Sprint(wanted, " ", n)
	}
	return name
}

func (w *work) pinNamed(name string) int {
	return slices.IndexFunc(w.pins, func(p pin) bool { return p.Name == name })
}

func (w *work) pinned(more ...pin) (done, error) {
	pins, err := w.withMore(more...)
	if err != nil {
		return done{}, err
	}
	return w.withPins(pins)
}

// withMore returns the pins and some more.
func (w *work) withMore(more ...pin) ([]pin, error) {
	pins := slices.Clone(w.pins)
	for _, p := range more {
		if err := w.goodName(p.Name, -1); err != nil {
			return nil, err
		}
		pins = append(pins, p)
	}
	if len(pins) > mostPins {
		return nil, fmt.Errorf("at most %d alternatives are kept: drop some", mostPins)
	}
	return pins, nil
}

func (w *work) withPins(pins []pin) (done, error) {
	return w.stepWith(w.text, "", beside{Pins: &pins})
}

// goodName returns what is wrong with the name of a pin other than that of a number.
func (w *work) goodName(name string, but int) error {
	switch i := w.pinNamed(name); {
	case name == "" || len(name) > 100 || strings.ContainsFunc(name, unicode.IsControl):
		return errors.New("want a name of 1 to 100 characters")
	case name == nowName:
		return fmt.Errorf("%q is what stands in the text", name)
	case i >= 0 && i != but:
		return fmt.Errorf("an alternative is called %q already", name)
	}
	return nil
}

// pinOf returns which pin an operation is about.
func (w *work) pinOf(op Op) (pins []pin, err error) {
	if op.Pin < 0 || op.Pin >= len(w.pins) {
		return nil, errors.New("there is no such alternative any more")
	}
	return slices.Clone(w.pins), nil
}

func (w *work) renamePin(op Op) (done, error) {
	pins, err := w.pinOf(op)
	name := strings.TrimSpace(op.Name)
	if err == nil {
		err = w.goodName(name, op.Pin)
	}
	if err != nil {
		return done{}, err
	}
	pins[op.Pin].Name = name
	return w.withPins(pins)
}

func (w *work) dropPin(op Op) (done, error) {
	pins, err := w.pinOf(op)
	if err != nil {
		return done{}, err
	}
	return w.withPins(slices.Delete(pins, op.Pin, op.Pin+1))
}

// firstPin makes a pin the base, against which all others are set.
func (w *work) firstPin(op Op) (done, error) {
	pins, err := w.pinOf(op)
	if err != nil {
		return done{}, err
	}
	p := pins[op.Pin]
	return w.withPins(slices.Insert(slices.Delete(pins, op.Pin, op.Pin+1), 0, p))
}

// takePin makes the text that of a pin, to go on from there; a variant is taken as it is within its file.
func (w *work) takePin(op Op) (done, error) {
	if _, err := w.pinOf(op); err != nil {
		return done{}, err
	}
	p := w.pins[op.Pin]
	if p.Variant != "" {
		return done{}, fmt.Errorf("%s is a variant within a file: take the file, and change its variant there", p.Name)
	}
	return w.step(p.Text, "")
}

// ownPrices are the costs that each alternative has for itself.
var ownPrices = []string{"price", "residual", "upkeep", "source"}

// pricePins gives all pins the costs of the text, but for what an alternative costs to have: lines are
// weighed against each other at the same prices, volumes and life.
func (w *work) pricePins(Op) (done, error) {
	var edits []scenarios.Edit
	for _, f := range scenarios.Fields([]byte(w.text), "costs") {
		if f.Given && !slices.Contains(ownPrices, f.Name) {
			edits = append(edits, scenarios.Edit{Path: f.Path, Value: f.Value})
		}
	}
	if len(edits) == 0 {
		return done{}, errors.New("the text says nothing of costs: see Money")
	}
	pins := slices.Clone(w.pins)
	for i := range pins {
		text, err := scenarios.Edited(pins[i].Name, []byte(pins[i].Text), edits)
		if err != nil {
			return done{}, fmt.Errorf("%s: %w", pins[i].Name, plainly(err))
		}
		pins[i].Text = string(text)
	}
	d, err := w.withPins(pins)
	d.said = "All alternatives have the prices and volumes of the text, and their own price, residual and upkeep."
	return d, err
}

// save writes the file; under another name of the same directory where one is given.
func (w *work) save(op Op) (done, error) {
	to := w.File
	if op.Save != "" {
		path, err := w.saveAs(op.Save)
		if err != nil {
			return done{}, err
		}
		to = path
	}
	if to == "" {
		return done{}, errors.New("it has no file yet: say under which name to save it")
	}
	data := w.bytes()
	if to == w.File {
		w.look()
		if w.hasTheirs && !op.Over {
			return done{shown: true}, errors.New("somebody else has changed the file meanwhile: take theirs, save under another name, or save over it, which keeps theirs as an alternative")
		}
		if w.hasTheirs {
			_ = w.keepTheirs() // what is no text cannot be a pin, and was no scenario
		}
	}
	if err := desk.SaveFile(w.env, to, data); err != nil {
		return done{}, err
	}
	w.place = place{File: to, Title: filepath.Base(to), Saved: sumOf(data), Mark: w.Mark, CRLF: w.CRLF}
	w.hasTheirs, w.theirs, w.restored = false, "", false
	w.keep(record{Place: &w.place})
	return done{shown: true, said: "Saved " + desk.Shown(to)}, nil
}

// keepTheirs keeps what somebody else has made of the file as a pin.
func (w *work) keepTheirs() error {
	var as place
	text, err := as.read(w.theirs)
	if err != nil {
		return err
	}
	_, err = w.pinned(pin{Name: w.pinName("from the disk"), Text: text})
	return err
}

// saveAs returns the path of a new file beside that of the work, or in the directory in which the
// program was started.
func (w *work) saveAs(name string) (string, error) {
	if strings.TrimSpace(name) == "" || name != filepath.Base(name) || strings.ContainsAny(name, `/\:`) || strings.ContainsFunc(name, unicode.IsControl) || strings.HasPrefix(name, ".") {
		return "", errors.New("want the name of a file, without a directory, such as my-line.yaml")
	}
	if ext := strings.ToLower(filepath.Ext(name)); ext != ".yaml" && ext != ".yml" {
		name += ".yaml"
	}
	path := name
	if w.File != "" {
		path = filepath.Join(filepath.Dir(w.File), name)
	}
	if _, err := os.Lstat(path); err == nil && path != w.File {
		return "", fmt.Errorf("%s is there already: choose another name", desk.Shown(path))
	}
	return path, nil
}
