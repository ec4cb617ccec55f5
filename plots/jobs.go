package plots

// jobHues are the hues of the jobs of a week, which are drawn in light tints, so that
// letters can be read on them.
var jobHues = []colour{sky, green, purple, night, blue}

// jobPatterns is how many patterns there are: plain, rules, stripes, a zigzag, dots.
const jobPatterns = 5

// jobs are those of a week, in the order in which they come. Each has a letter, and a
// tint with a pattern: none is shown by its colour alone. After 25 the looks come again.
type jobs struct{ letters }

// index returns which job it is, from 0 on; −1 if it is not one of them.
func (j *jobs) index(name string) int {
	for i, w := range j.words {
		if w == name {
			return i
		}
	}
	return -1
}

// tintOf returns the ground of job i, and the darker shade of its pattern.
func tintOf(i int) (ground, lines colour) {
	hue := jobHues[i%len(jobHues)]
	return tint(hue, 0.3), tint(hue, 0.7)
}

// draw returns a bar of job i. The pattern moves on by one with each round of the tints.
func (j *jobs) draw(i int, b box, tip string) []mark {
	ground, lines := tintOf(i)
	marks := []mark{area{corners: rect(b.left, b.top, b.right, b.bottom), fill: ground, tip: tip}}
	middle, high := (b.top+b.bottom)/2, b.bottom-b.top
	across := func(y, width float64, dashes ...float64) {
		marks = append(marks, stroke{
			points: []point{{b.left, y}, {b.right, y}}, pen: pen{colour: lines, width: width, dashes: dashes},
		})
	}
	switch (i + i/len(jobHues)) % jobPatterns {
	case 1:
		across(middle-high/4, 0.7)
		across(middle+high/4, 0.7)
	case 2:
		marks = append(marks, zigzag(b, 4, 0, pen{colour: lines, width: 0.7}))
	case 3:
		marks = append(marks, zigzag(b, 0, 5, pen{colour: lines, width: 0.7}))
	case 4:
		across(middle-high/4, 1.4, 1.4, 3)
		across(middle+high/4, 1.4, 1.4, 3)
	}
	return marks
}

// zigzag returns a line up and down between the long sides of a bar: it runs along them
// for a while each time, and the way across takes as long as it says.
func zigzag(b box, along, aslant float64, p pen) mark {
	s := stroke{points: []point{{b.left, b.bottom}}, pen: p}
	y, other := b.bottom, b.top
	for x := b.left; x+along+aslant <= b.right; y, other = other, y {
		if along > 0 {
			s.points = append(s.points, point{x + along, y})
		}
		s.points = append(s.points, point{x + along + aslant, other})
		x += along + aslant
	}
	return s
}

// jobs sets the jobs below the chart, each with its letter and its look.
func (f *Figure) jobs(j jobs) {
	f.listed(j.letters, func(i int, b box) []mark { return j.draw(i, b, "") })
}
