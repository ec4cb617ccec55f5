package workbench

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

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
	At    int    `json:"at"`    // of move: the pitch; of plan: the place of the job on its line, from 0

	Edits   []json.RawMessage `json:"edits"`   // of type: changes of the text, one after the other, as the editor writes them
	Text    string            `json:"text"`    // of open: the text
	Choices []string          `json:"choices"` // of design: names of choices, all but the first ones; of choose: of what is optional in the plan
	Pin     int               `json:"pin"`     // of rename, drop, base and take: which pin, from 0

	Save  string                `json:"save"` // of save: under which name, in the directory of the file; "" for the file itself
	found []scenarios.LineOrder // of plan: the order that was found for the text; nil if none is known

	Over bool `json:"over"` // of save: over what somebody else has made of the file, which is kept as a pin
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
	"pin": (*work).addPin, "before": (*work).pinOpened, "variants": (*work).pinVariants, "rename": (*work).renamePin, "drop": (*work).dropPin, "base": (*work).firstPin, "take": (*work).takePin, "prices": (*work).pricePins, "design": (*work).pinDesign,
	"save": (*work).save, "plan": (*work).moveJob, "choose": (*work).choose,
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
	with = w.unlike(with)
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
