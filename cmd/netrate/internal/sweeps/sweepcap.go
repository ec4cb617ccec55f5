package sweeps

import (
	"fmt"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
)

// A sweep may ask for speeds that the stations of the line do not allow.

// speedPath is the path of the speed that is asked for.
const speedPath = "line.speed"

// asksFor returns the speed that a point asks for, in cycles an hour; 0 if none is swept.
func (s *sweep) asksFor(p point) float64 {
	for i, r := range s.vary {
		if r.Path == speedPath {
			return p.values[i].Number
		}
	}
	return 0
}

// capped reports whether the line does not reach the speed that a point asks for.
func (s *sweep) capped(p point) bool { return s.asksFor(p) > p.study.Line.RunSpeed() }

// reached returns the value of the first path that a point comes to: not that which is asked
// for where the stations allow less.
func (s *sweep) reached(p point) float64 {
	if s.vary[0].Path == speedPath {
		return min(p.values[0].Number, p.study.Line.RunSpeed())
	}
	return p.values[0].Number
}

// atCap reports whether a point asks for as much speed as the stations allow, or more.
func (s *sweep) atCap(i int) bool {
	asked, l := s.asksFor(s.points[i]), *s.points[i].study.Line
	l.Speed = 0
	return asked > 0 && asked >= l.RunSpeed()
}

// capFinding says where the line runs no faster, though it is asked to.
func (s *sweep) capFinding() string {
	most, vain := "", false
	for i, p := range s.points {
		if s.atCap(i) {
			l := *p.study.Line
			l.Speed = 0
			most = fmt.Sprintf("%s/h, the most that %s", say.Exact(l.RunSpeed()), allows(strings.Split(page.Limits(&l), ", ")))
		}
		vain = vain || s.capped(p)
	}
	switch {
	case most == "":
		return ""
	case vain:
		return " Asked for more, the line runs at " + most + "."
	}
	return " It cannot run faster than " + most + "."
}

// allows returns who allows it: "letter allows", "letter and card allow".
func allows(names []string) string {
	if len(names) == 1 {
		return names[0] + " allows"
	}
	return say.List(names) + " allow"
}
