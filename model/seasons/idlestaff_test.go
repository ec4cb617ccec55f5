package seasons

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"netrate/model"
)

// What is optional changes nobody if those who are there are the same with it and without, whatever else is chosen.
func TestIdleStaffByHand(t *testing.T) {
	crew := model.Crew{Operators: 3, People: []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}, {Name: "Carl", Operators: 1}}}
	late := Staffed{Name: "late", Shifts: []int{2}, Operators: AsElse, Absent: []string{"Anna", "Ben", "Carl"}}
	idle := Staffed{Name: "Carl comes", Shifts: []int{2}, Operators: AsElse, Absent: []string{"Anna", "Ben"}, Optional: true}
	for _, c := range []struct {
		name  string
		staff []Staffed
		idle  []string
	}{
		{"he is absent either way", []Staffed{late, idle}, []string{"Carl comes"}},
		{"he is absent only in the first week", []Staffed{{Name: "late", Weeks: []int{1}, Operators: AsElse, Absent: []string{"Anna", "Ben", "Carl"}}, idle}, nil},
		{"as many as there are", []Staffed{{Name: "three", Operators: 3, Optional: true}}, []string{"three"}},
		{"said again later", []Staffed{{Name: "two", Operators: 2, Optional: true}, {Name: "three", Operators: 3}}, []string{"two"}},
		{"one of them alone changes it", []Staffed{{Name: "two", Operators: 2, Optional: true}, {Name: "also two", Operators: 2, Optional: true}}, nil},
		{"it undoes what is chosen", []Staffed{{Name: "two", Operators: 2, Optional: true}, {Name: "three", Operators: 3, Optional: true}}, nil},
		{"what is not optional", []Staffed{{Name: "three", Operators: 3}}, nil},
	} {
		p := &Plan{Crew: crew, Calendar: &Calendar{Days: 5, Shifts: []ShiftTime{{Start: 6 * hour, Length: 8 * hour}, {Start: 14 * hour, Length: 8 * hour}}}, Staffed: c.staff}
		assert.Equal(t, c.idle, p.IdleStaff(), c.name)
	}
}

// An item that is not optional changes nobody where the same are there without it, whatever is chosen.
func TestIdleItemsByHand(t *testing.T) {
	crew := model.Crew{Operators: 3, People: []model.Person{{Name: "Anna", Operators: 1}, {Name: "Ben", Operators: 1}, {Name: "Carl", Operators: 1}}}
	off := Staffed{Name: "late", Shifts: []int{2}, Operators: AsElse, Absent: []string{"Anna", "Carl"}}
	for _, c := range []struct {
		name  string
		staff []Staffed
		idle  []string
	}{
		{"absent already", []Staffed{off, {Name: "Carl is ill", Days: []int{1}, Shifts: []int{2}, Operators: AsElse, Absent: []string{"Carl"}}}, []string{"Carl is ill"}},
		{"absent in the early shift too", []Staffed{off, {Name: "Carl is ill", Days: []int{1}, Operators: AsElse, Absent: []string{"Carl"}}}, nil},
		{"as many as there are", []Staffed{{Name: "three", Operators: 3}}, []string{"three"}},
		{"fewer", []Staffed{{Name: "two", Operators: 2}}, nil},
		{"undone by the next", []Staffed{{Name: "two", Operators: 2}, {Name: "three", Operators: 3}}, []string{"two"}},
		{"as it was, but for what may be chosen", []Staffed{{Name: "two", Operators: 2, Optional: true}, {Name: "three", Operators: 3}}, nil},
	} {
		p := &Plan{Crew: crew, Calendar: &Calendar{Days: 5, Shifts: []ShiftTime{{Start: 6 * hour, Length: 8 * hour}, {Start: 14 * hour, Length: 8 * hour}}}, Staffed: c.staff}
		assert.Equal(t, c.idle, p.IdleItems(), c.name)
	}
}

// The hours of people are the same with what changes nobody, with any choice of the rest.
func TestIdleStaffPaysNobody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := skilled()
		for range rapid.IntRange(1, 4).Draw(t, "items") {
			s := Staffed{Name: string(rune('a' + len(p.Staffed))), Days: []int{rapid.IntRange(1, 2).Draw(t, "day")}, Optional: rapid.Bool().Draw(t, "optional")}
			s.Operators = rapid.SampledFrom([]int{AsElse, 1, 2}).Draw(t, "there")
			if s.Operators == AsElse {
				s.Absent = []string{rapid.SampledFrom([]string{"Anna", "Ben"}).Draw(t, "who")}
			}
			p.Staffed = append(p.Staffed, s)
		}
		var options, with []int
		idle := map[int]bool{}
		for _, name := range p.IdleStaff() {
			idle[int(name[0]-'a')] = true
		}
		for i := range p.Staffed {
			if p.Staffed[i].Optional && rapid.Bool().Draw(t, "chosen") {
				if with = append(with, i); !idle[i] {
					options = append(options, i)
				}
			}
		}
		a, _ := p.Chosen(options)
		b, _ := p.Chosen(with)
		assert.Equal(t, a.Horizon().staffing(), b.Horizon().staffing())
	})
}
