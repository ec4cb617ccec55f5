package model

import (
	"pgregory.net/rapid"

	"netrate/sim"
)

// breaksDown has every station of a line break down, and gives it technicians.
func breaksDown(l *Line, technicians int) {
	for i, s := range l.Stations {
		*s.Downtime() = Breakdowns{Every: sim.Seconds(500 + 150*i), Comes: lognormal(20, 0.5), Repair: lognormal(60, 0.9)}
	}
	l.Crew.Technicians = technicians
}

// rests gives a crew two breaks, in the second of which somebody remains.
func rests(l *Line, stands bool) {
	l.Crew.Breaks = []Break{
		{After: 300.33, Length: 120.4, Stands: stands},
		{After: 900.77, Length: 150.3, Remain: 1, Stands: stands},
	}
}

// agreePeople are lines that differ in who is there.
func agreePeople() []agreeCase {
	return []agreeCase{
		{"breakdowns, technicians as needed", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			respond(l, Stop)
			breaksDown(l, 0)
		})},
		{"breakdowns, one technician, small hoppers", changed(func(l *Line) {
			low(l, 1)
			breaksDown(l, 1)
			for _, s := range l.Stations {
				s.Downtime().Every /= 8
			}
			firstOf[*Feeder](l).Streak = Streak{Given: true, Again: 0.5, StopAfter: 2}
			firstOf[*Feeder](l).Misfeed = 0.02
		})},
		{"breaks in which the line runs on", changed(func(l *Line) {
			faulty(l, 0.001, 0.001, 0.0002)
			low(l, 2)
			l.Shift = 1500.1
			rests(l, false)
		})},
		{"breaks for which the line stands", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.001)
			respond(l, Stop)
			low(l, 2)
			breaksDown(l, 1)
			l.Shift = 1500.1
			rests(l, true)
		})},
		{"breaks for which a line with documents stands", personal(1, Stop, func(l *Line, _ []*Feeder) {
			documents(l, 24_000, geometricPages(2), 2, Stop).Jam = 0.002
			l.Shift = 1500.1
			rests(l, true)
		})},
		{"a crew that changes, and half an operator", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			low(l, 1)
			l.Shift = 1500.1
			l.Crew.Part, l.Crew.Block = 0.5, 200.3
			l.Crew.Later = []Presence{{After: 500.7, Operators: 2}, {After: 900.1, Part: 0.8}, {After: 1300.9, Operators: 3}}
			l.Crew.Breaks = []Break{{After: 700.3, Length: 60.7, Remain: 1}, {After: 1000.3, Length: 60.7}}
		})},
		{"two at one fault", changed(func(l *Line) {
			faulty(l, 0.02, 0.02, 0.01)
			respond(l, Stop)
			low(l, 3)
			l.Crew.Help = 2.5
		})},
		{"two at one fault, documents", personal(2, Stop, func(l *Line, _ []*Feeder) {
			documents(l, 24_000, geometricPages(2), 2, Stop).Jam = 0.002
			l.Crew.Operators, l.Crew.Help = 2, 1.6
		})},
		{"skills, and one who stays", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.001)
			respond(l, Stop)
			low(l, 4)
			inserter := firstOf[*Inserter](l).Name
			l.Crew.People = []Person{
				{Name: "stays", Operators: 1, Stays: inserter, Elsewhere: true},
				{Name: "loads", Operators: 1, Only: Filling},
				{Name: "all", Operators: 1},
				{Name: "some", Operators: 1, Only: Clearing, Stations: []string{"1", "2", inserter}},
			}
		})},
		{"skills, help and hours", changed(func(l *Line) {
			faulty(l, 0.01, 0.005, 0.001)
			respond(l, Stop)
			low(l, 3)
			l.Shift = 1500.1
			inserter := firstOf[*Inserter](l).Name
			l.Crew.People = []Person{
				{Name: "all", Operators: 1},
				{Name: "stays", Operators: 1, Stays: inserter},
				{Name: "both", Operators: 2, Only: Clearing},
			}
			l.Crew.Help = 2
			l.Crew.Part, l.Crew.Block = 0.5, 300.3
			l.Crew.Later = []Presence{{After: 700.3, Operators: 2}}
			rests(l, false)
		})},
		{"a job with a quarter of an operator", changed(func(l *Line) {
			faulty(l, 0.002, 0.001, 0.0005)
			respond(l, Stop)
			low(l, 0)
			l.Shift, l.Job.Sets = 0, 2000
			l.Crew.Part, l.Crew.Block = 0.25, 90.3
		})},
	}
}

// anyPeopledLine returns a line as anyLine does, one in two with what anyPeople gives it.
func anyPeopledLine(t *rapid.T) *Line {
	l := anyLineWithLots(t)
	if rapid.Bool().Draw(t, "people") {
		anyPeople(t, l)
	}
	return l
}

// anyPeople gives a line breakdowns and, if it works for a shift, a crew that changes and breaks.
func anyPeople(t *rapid.T, l *Line) {
	for _, s := range l.Stations {
		if rapid.IntRange(0, 2).Draw(t, "breaks down") == 0 {
			*s.Downtime() = Breakdowns{
				Every: sim.Seconds(rapid.Float64Range(0.1, 1000).Draw(t, "every")), Comes: anyDuration(t, "comes"), Repair: anyDuration(t, "repair"),
			}
		}
	}
	l.Crew.Technicians = rapid.IntRange(0, 2).Draw(t, "technicians")
	part := func() float64 { return rapid.SampledFrom([]float64{0, 0.5, 0.99}).Draw(t, "part") }
	l.Crew.Part, l.Crew.Block = part(), sim.Seconds(rapid.Float64Range(1, 500).Draw(t, "block"))
	if rapid.Bool().Draw(t, "help") {
		l.Crew.Help = rapid.Float64Range(1, 4).Draw(t, "faster")
	}
	if l.Job.Sets == 0 {
		anyHours(t, l, part)
	}
	if rapid.Bool().Draw(t, "skills") {
		anySkills(t, l)
	}
}

// anySkills says of each operator what he may do: of the first, all.
func anySkills(t *rapid.T, l *Line) {
	l.Crew.People = []Person{{Name: "all", Operators: 1}}
	for range l.Crew.Most() - 1 {
		p := Person{Name: "p", Operators: 1, Only: Doing(rapid.IntRange(0, 2).Draw(t, "only"))}
		for _, s := range l.Stations {
			switch rapid.IntRange(0, 5).Draw(t, "station") {
			case 0:
				p.Stations = append(p.Stations, s.Where().Name)
			case 1:
				p.Stays = s.Where().Name
			}
		}
		p.Elsewhere = p.Stays != "" && rapid.Bool().Draw(t, "elsewhere")
		l.Crew.People = append(l.Crew.People, p)
	}
}

// anyHours gives a shift changes of the crew and breaks.
func anyHours(t *rapid.T, l *Line, part func() float64) {
	at := sim.Seconds(0)
	next := func(name string) sim.Seconds {
		at += sim.Seconds(rapid.Float64Range(0.001, 0.3).Draw(t, name)) * l.Shift
		return at
	}
	for next("later") < l.Shift {
		l.Crew.Later = append(l.Crew.Later, Presence{at, rapid.IntRange(0, 3).Draw(t, "operators later"), part()})
	}
	for at = 0; next("break") < l.Shift; {
		b := Break{After: at, Remain: rapid.IntRange(0, 2).Draw(t, "remain"), Stands: rapid.Bool().Draw(t, "stands")}
		if b.Length = next("length") - b.After; at < l.Shift {
			l.Crew.Breaks = append(l.Crew.Breaks, b)
		}
	}
}
