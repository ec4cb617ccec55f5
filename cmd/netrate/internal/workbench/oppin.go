package workbench

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"netrate/scenarios"
)

// addPin keeps what is there as an alternative.
func (w *work) addPin(op Op) (done, error) {
	sc, err := w.load()
	if err != nil {
		return done{}, errors.New("the text is no scenario yet: mend it first")
	}
	return w.pinned(pin{Name: cmp.Or(strings.TrimSpace(op.Name), w.pinName(sc.Name)), Text: w.text, Job: w.job})
}

// pinOpened keeps the line as it was when its file was opened, so that the changes since then are seen.
func (w *work) pinOpened(Op) (done, error) {
	text, job := w.atOpening()
	if text == w.text && job == w.job {
		return done{}, errors.New("the line is as it was when it was opened")
	}
	if _, err := scenarios.Load(w.Title, []byte(text)); err != nil {
		return done{}, errors.New("the text was no scenario when it was opened")
	}
	d, err := w.pinned(pin{Name: w.pinName("as it was"), Text: text, Job: job})
	d.said = "The line as it was opened is pinned, and compared with what stands in the text under Alternatives."
	return d, err
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

// pinName returns a name that no pin has, and none of those that are taken.
func (w *work) pinName(wanted string, taken ...string) string {
	taken = append(taken, nowName)
	name := wanted
	for n := 2; w.pinNamed(name) >= 0 || slices.Contains(taken, name); n++ {
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

var errNoPin = errors.New("there is no such alternative any more")

// pinOf returns which pin an operation is about.
func (w *work) pinOf(op Op) (pins []pin, err error) {
	if op.Pin < 0 || op.Pin >= len(w.pins) {
		return nil, errNoPin
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

// takePin makes the text that of a pin, set up for its job, to go on from there; of a variant that with
// its changes made.
func (w *work) takePin(op Op) (done, error) {
	if _, err := w.pinOf(op); err != nil {
		return done{}, err
	}
	p := w.pins[op.Pin]
	if p.Variant == "" {
		return w.stepWith(p.Text, "", beside{Job: &p.Job})
	}
	text, err := scenarios.VariantText(p.Name, []byte(p.Text), p.Variant)
	if err != nil {
		return done{}, plainly(err)
	}
	d, err := w.stepWith(string(text), "", beside{Job: &p.Job})
	d.said = fmt.Sprintf("The text is %s now, with its changes made. Comments of the file are not in it; Undo brings them back.", p.Name)
	return d, err
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
