package film

// The tables of a film, column by column. Packing and unpacking go through the same list, and the
// page reads it from the head of the data.

// A table is the rows of one kind in a reel, or in one of its lines.
type table struct {
	Name    string   `json:"name"`
	Reel    int      `json:"reel"`
	Line    int      `json:"line"` // -1 for what is of the reel
	Rows    int      `json:"rows"`
	Columns []column `json:"columns"`
}

// A column has a name and says how its values are written.
type column struct {
	Name string  `json:"name"`
	As   writing `json:"as"`
}

// writing is how the values of a column are written.
type writing string

const (
	whole  writing = "whole"  // differences from the value before, as variable-length integers
	moment writing = "moment" // the same, of ms
	word   writing = "word"   // the same, of places in the list of words
	exact  writing = "exact"  // IEEE 754, 8 bytes, the lowest first
)

// columns goes through all columns of all tables.
func (c *coder) columns(f *Film) {
	for r := range f.Reels {
		reel := &f.Reels[r]
		for l := range reel.Lines {
			c.reel, c.line = r, l
			c.lineColumns(&reel.Lines[l])
		}
		c.reel, c.line = r, -1
		tasks := rows(c, "tasks", &reel.Tasks)
		numbers(c, tasks, "line", func(x *Task) *int { return &x.Line })
		numbers(c, tasks, "station", func(x *Task) *int { return &x.Station })
		words(c, tasks, "work", func(x *Task) *string { return &x.Work })
		moments(c, tasks, "called", func(x *Task) *float64 { return &x.Called })
		moments(c, tasks, "from", func(x *Task) *float64 { return &x.From })
		moments(c, tasks, "arrives", func(x *Task) *float64 { return &x.Arrives })
		moments(c, tasks, "to", func(x *Task) *float64 { return &x.To })
		numbers(c, tasks, "operator", func(x *Task) *int { return &x.Operator })
		present := rows(c, "present", &reel.Present)
		moments(c, present, "at", func(x *Present) *float64 { return &x.At })
		numbers(c, present, "operators", func(x *Present) *int { return &x.Operators })
	}
}

func (c *coder) lineColumns(l *Line) {
	runs := rows(c, "runs", &l.Runs)
	exacts(c, runs, "from", func(x *Run) *float64 { return &x.From })
	moments(c, runs, "to", func(x *Run) *float64 { return &x.To })
	numbers(c, runs, "cycle", func(x *Run) *int64 { return &x.Cycle })
	numbers(c, runs, "last", func(x *Run) *int64 { return &x.Last })
	exacts(c, runs, "each", func(x *Run) *float64 { return &x.Each })

	stood := rows(c, "stood", &l.Stood)
	moments(c, stood, "from", func(x *Stretch) *float64 { return &x.From })
	moments(c, stood, "to", func(x *Stretch) *float64 { return &x.To })
	numbers(c, stood, "station", func(x *Stretch) *int { return &x.Station })
	words(c, stood, "cause", func(x *Stretch) *string { return &x.Cause })
	words(c, stood, "phase", func(x *Stretch) *string { return &x.Phase })

	stops := rows(c, "stops", &l.Stops)
	moments(c, stops, "from", func(x *Stop) *float64 { return &x.From })
	moments(c, stops, "to", func(x *Stop) *float64 { return &x.To })
	numbers(c, stops, "station", func(x *Stop) *int { return &x.Station })
	words(c, stops, "cause", func(x *Stop) *string { return &x.Cause })
	numbers(c, stops, "cycle", func(x *Stop) *int64 { return &x.Cycle })

	c.setColumns(l)

	levels := rows(c, "levels", &l.Levels)
	numbers(c, levels, "station", func(x *Level) *int { return &x.Station })
	moments(c, levels, "at", func(x *Level) *float64 { return &x.At })
	numbers(c, levels, "cycle", func(x *Level) *int64 { return &x.Cycle })
	numbers(c, levels, "left", func(x *Level) *int64 { return &x.Left })
	numbers(c, levels, "filled", func(x *Level) *int64 { return &x.Filled })
}

func (c *coder) setColumns(l *Line) {
	sets := rows(c, "sets", &l.Sets)
	numbers(c, sets, "number", func(x *Set) *int64 { return &x.Number })
	words(c, sets, "fate", func(x *Set) *string { return &x.Fate })
	numbers(c, sets, "station", func(x *Set) *int { return &x.Station })
	numbers(c, sets, "gone", func(x *Set) *int64 { return &x.Gone })
	numbers(c, sets, "flawed", func(x *Set) *int64 { return &x.Flawed })
	numbers(c, sets, "condemned", func(x *Set) *int64 { return &x.Condemned })

	notes := rows(c, "notes", &l.Notes)
	numbers(c, notes, "set", func(x *Note) *int64 { return &x.Set })
	numbers(c, notes, "cycle", func(x *Note) *int64 { return &x.Cycle })
	numbers(c, notes, "station", func(x *Note) *int { return &x.Station })
	words(c, notes, "text", func(x *Note) *string { return &x.Text })
}
