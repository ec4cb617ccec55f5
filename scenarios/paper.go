package scenarios

import (
	"errors"
	"fmt"

	"netrate/model"
	"netrate/model/formats"
)

// sheet is cut paper and what becomes of it when it is folded.
type sheet struct {
	Paper *paper     `yaml:"paper,omitempty" jsonschema_description:"weight or thickness of one sheet, such as 80 g/m2, 20 lb bond or 0.1 mm; not known if not given"`
	Size  *sheetSize `yaml:"size,omitempty" jsonschema_description:"of a sheet before it is folded; not known if not given"`
	Fold  *fold      `yaml:"fold,omitempty" jsonschema_description:"how it is folded; none if not given"`
}

// folded returns the height and length of the sheet when it is folded, in mm; 0 if its
// size is not known.
func (x *sheet) folded() (height, length float64) {
	if x.Size == nil || !(x.Size.sheet.Height > 0 && x.Size.sheet.Width > 0) {
		return 0, 0
	}
	length, height = or(x.Fold, 0).of().Size(x.Size.sheet)
	return height, length
}

func (x *sheet) layers() int { return or(x.Fold, 0).of().Layers() }

// sheetSize is the size of a sheet: a standard one by its name, or its measures.
type sheetSize struct {
	Height *side `yaml:"height" jsonschema_description:"such as 297 mm; folds run across it"`
	Length *side `yaml:"length" jsonschema_description:"the other side, such as 210 mm"`

	sheet formats.Sheet
}

func (x *sheetSize) decode(r *reader, n *node, key string) {
	if n.Kind != scalarNode {
		r.inside(n, key, x)
		x.sheet = formats.Sheet{Height: float64(or(x.Height, 0)), Width: float64(or(x.Length, 0))}
		return
	}
	var text string
	if r.text(&text, n, key, maxName); text == "" { // noted
		return
	}
	known := false
	if x.sheet, known = formats.SheetNamed(text); !known {
		r.note(n, "%s is %s, which is not a standard size of paper: %s; or give {height: …, length: …}", key, shown(n), meant(text, sheetNames()))
	}
}

func sheetNames() []string {
	var names []string
	for _, s := range formats.Sheets() {
		names = append(names, s.Name)
	}
	return names
}

// fold is how a sheet is folded.
type fold formats.Fold

func (x fold) of() formats.Fold { return formats.Fold(x) }

func foldNames() []string {
	var names []string
	for f := formats.NoFold; f <= formats.QuarterFold; f++ {
		names = append(names, f.String())
	}
	return names
}

func (x *fold) read(text string) error {
	for i, name := range foldNames() {
		if name == text {
			*x = fold(i)
			return nil
		}
	}
	var why error
	if f, err := formats.ParseFold(text); err == nil {
		why = fmt.Errorf("this fold is written %s", f)
	} else {
		why = guess(text, foldNames())
	}
	return want(model.OneOf(foldNames()), why)
}

// side is a length above 0, in millimetres.
type side float64

func (x *side) read(text string) error {
	if err := lengths.into((*float64)(x), text); err != nil {
		return err
	}
	if *x == 0 {
		return errors.New("want more than 0")
	}
	return nil
}

// paper is the thickness of one sheet in millimetres.
type paper float64

func (x *paper) read(text string) error {
	if err := papers.into((*float64)(x), text); err != nil {
		return err
	}
	if *x == 0 {
		return errors.New("want more than 0")
	}
	return nil
}

// papers measures the thickness of paper, which follows from its weight with a bulk that is
// typical.
var papers = measure{
	wanted: "the weight or thickness of a sheet, such as 80 g/m2, 20 lb bond or 0.1 mm",
	most:   5, mostIs: "5 mm", glue: " ", bare: "%s g/m2, lb bond or mm",
	units: append(grades(), lengths.units...),
}

// grades returns the weights of paper, each with the thickness of one of its units.
func grades() []unit {
	list := []unit{{"g/m2", formats.Caliper(1, formats.TypicalBulk), "g gsm g/m² g/m^2"}}
	for b := formats.Bond; b <= formats.Tag; b++ {
		list = append(list, unit{"lb " + b.String(), formats.Caliper(b.Grammage(1), formats.TypicalBulk), b.String()})
	}
	return list
}
