package plots

import "strings"

// RecoveryData shows one incident on the track, cycle by cycle.
type RecoveryData struct {
	Head
	Stations []string // along the track, from left to right
	Cycles   []Cycle  // from top to bottom
}

// A Cycle is where the pockets are when the cycle ends.
type Cycle struct {
	Name    string
	Pockets []Pocket // at each station
	Note    string   // what the cycle shows; may be empty
}

// A Pocket is what stands at a station. The zero Pocket is not drawn.
type Pocket struct {
	Set       string // such as "set 4", the same words in each cycle; may be empty
	Text      string // what there is to say of it
	Condition Condition
}

// mostStations is how many columns have room for words.
const mostStations = 12

// Recovery draws a table of the pockets with a row for each cycle. A line leads from
// each set to where it stands next. Notes stand at the right, or below their row
// where the pockets need the width; they are also said to those who do not see the
// drawing.
func Recovery(d RecoveryData) (*Figure, error) {
	c, used := d.check()
	f, err := begin(d.Head, c, len(d.Cycles) > 0 && len(d.Stations) > 0)
	if err != nil || f.done() {
		return f, err
	}
	var keys []key
	for k, u := range used {
		if u {
			keys = append(keys, key{name: conditionLooks[k].name, look: func(b box) []mark { return Condition(k).draw(b, "") }})
		}
	}
	if len(keys) > 0 {
		f.legend(keys...)
	}
	t := d.lay(f)
	f.heads(d.Stations, t.left, t.wide)
	t.stand(f)
	f.trails(d, t)
	for i, c := range d.Cycles {
		f.cycle(d, c, t, i)
		if c.Note != "" {
			f.told = append(f.told, c.Name+": "+c.Note)
		}
	}
	return f.end("Rows: cycles, one after the other. Columns: stations along the track. Thin lines follow a set to where it stands next."), nil
}

// check also tells which conditions occur.
func (d RecoveryData) check() (c check, used [conditions]bool) {
	if n := len(d.Stations); n > mostStations {
		c.note("%d stations, want %d at most", n, mostStations)
	}
	for i, cycle := range d.Cycles {
		if len(cycle.Pockets) != len(d.Stations) {
			c.note("%d pockets in cycle %d, want %d", len(cycle.Pockets), i+1, len(d.Stations))
		}
		seen := map[string]bool{}
		for k, p := range cycle.Pockets {
			if p.Condition < 0 || p.Condition >= conditions {
				c.note("cycle %d, pocket %d: condition %d, and there is none", i+1, k+1, p.Condition)
				continue
			}
			if p.Set != "" && seen[p.Set] {
				c.note("cycle %d: %s stands at two stations", i+1, p.Set)
			}
			seen[p.Set] = true
			used[p.Condition] = used[p.Condition] || p != Pocket{}
		}
	}
	return c, used
}

// tip returns what is said of a pocket under the pointer.
func (p Pocket) tip(cycle, station string) string {
	said := []string{conditionLooks[p.Condition].name}
	for _, s := range []string{p.Set, p.Text} {
		if s != "" {
			said = append(said, s)
		}
	}
	return cycle + ", " + station + ": " + strings.Join(said, ", ")
}
