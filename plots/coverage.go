package plots

import (
	"fmt"
	"strings"
)

// CoverageData shows which jobs run on which lines.
type CoverageData struct {
	Head
	Lines []string    // or configurations of one line, from left to right
	Jobs  []string    // from top to bottom
	Cells [][]Ability // a row for each job, with a cell for each line
}

// An Ability is how a line runs a job, or that it cannot.
type Ability struct {
	Runs bool
	Says string // such as "12,000/h"; if it is empty, "runs" or "cannot"
	Why  string // what limits the speed, or why it cannot; may be empty
}

// mostLines is how many columns have room.
const mostLines = 8

// Coverage draws a table with a cell for each job and line: filled where the line runs
// the job, hollow where it cannot. Where the cells are too narrow for all the reasons,
// letters stand for them, and the reasons stand below.
func Coverage(d CoverageData) (*Figure, error) {
	c := d.check()
	f, err := begin(d.Head, c, len(d.Jobs) > 0 && len(d.Lines) > 0)
	if err != nil || f.done() {
		return f, err
	}
	f.legend(
		key{name: "the line runs the job", look: func(b box) []mark { return Ability{Runs: true}.draw(b, "") }},
		key{name: "it cannot", look: func(b box) []mark { return Ability{}.draw(b, "") }})
	t := d.lay(f)
	f.heads(d.Lines, t.left, t.wide)
	t.stand(f)
	f.names(t.column)
	for i, cells := range d.Cells {
		for k, a := range cells {
			says, why := a.words()
			if why != "" {
				says += ", " + why
			}
			f.ability(a, t.cells[i][k], t.place(i, k), t.face, d.Jobs[i]+", "+d.Lines[k]+": "+says)
		}
		f.told = append(f.told, d.Jobs[i]+": "+d.runsOn(i))
	}
	f.sums(d, t)
	f.list(t.reasons)
	return f.end("Filled: the line runs the job, at the speed in bold and limited by what stands below it. Hollow: it cannot."), nil
}

func (d CoverageData) check() (c check) {
	if n := len(d.Lines); n > mostLines {
		c.note("%d lines, want %d at most", n, mostLines)
	}
	if len(d.Cells) != len(d.Jobs) {
		c.note("%d rows of cells for %d jobs", len(d.Cells), len(d.Jobs))
		return c
	}
	for i, cells := range d.Cells {
		if len(cells) != len(d.Lines) {
			c.note("%s: %d cells for %d lines", d.Jobs[i], len(cells), len(d.Lines))
		}
	}
	return c
}

// words returns what is said of an ability, and why.
func (a Ability) words() (says, why string) {
	switch {
	case a.Says != "":
		return a.Says, a.Why
	case a.Runs:
		return "runs", a.Why
	}
	return "cannot", a.Why
}

// runsOn names the lines that run a job.
func (d CoverageData) runsOn(job int) string {
	var lines []string
	for k, a := range d.Cells[job] {
		if a.Runs {
			lines = append(lines, d.Lines[k])
		}
	}
	if len(lines) == 0 {
		return "no line runs it"
	}
	return "runs on " + strings.Join(lines, ", ")
}

const jobsItRuns = "jobs it runs"

// sums says below the table how many jobs each line runs.
func (f *Figure) sums(d CoverageData, t coverageTable) {
	n := make([]int, len(d.Lines))
	for _, cells := range d.Cells {
		for k, a := range cells {
			if a.Runs {
				n[k]++
			}
		}
	}
	f.y += 4
	y := f.y + textFace.leading()/2
	f.beside(margin, y, 0, jobsItRuns, textFace)
	var sums []string
	for k := range d.Lines {
		sums = append(sums, fmt.Sprintf("%d of %d", n[k], len(d.Jobs)))
	}
	face := fitted(nameFace, 5, t.wide-8, sums...)
	for k, sum := range sums {
		at := t.place(0, k)
		f.draw(f.centred((at.left+at.right)/2, y+face.middle(), sum, face, ink))
	}
	f.y += textFace.leading() + 2
}
