package learn

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/model"
	"netrate/model/study"
	"netrate/scenarios/stoplog"
)

// strangers says which stations only one side has.
func (t *target) strangers(x *fitting) (text []string) {
	var theirs, ours, alone []string
	for _, s := range t.Stations {
		if _, is := x.Log.KindNamed(s.Kind); x.Log.Find(s.Name) == nil {
			alone = append(alone, s.Name)
			if is {
				ours = append(ours, s.Name)
			}
		}
	}
	for _, name := range x.Log.Names() {
		if t.KindOf(name) != "" {
			continue
		}
		if near := stoplog.NearestName(name, alone); near != "" {
			name += " (did you mean " + near + "?)"
		}
		theirs = append(theirs, name)
	}
	if len(theirs) > 0 {
		text = append(text, fmt.Sprintf("In the log and the counts, but not in %s: %s.", t.File, say.List(theirs)))
	}
	if len(ours) > 0 {
		text = append(text, fmt.Sprintf("In %s, but not in the log and the counts, so left as before: %s.", t.File, say.List(ours)))
	}
	return text
}

// left says what of the stations on both sides is as it was before, and why.
func (t *target) left(x *fitting) (text []string) {
	for i := range x.Stations {
		s := &x.Stations[i]
		kind := t.KindOf(s.Name)
		if kind == "" || s.As.Name == "" {
			continue
		}
		if kind != s.As.Name {
			text = append(text, fmt.Sprintf("%s is %s, whose rates are not estimated, so left as before.", s.Name, withArticle(kind)))
			continue
		}
		_, parts := stoplog.Rates(x.FitAnswer, s)
		if s.Feeds == 0 {
			parts = append(parts, "all rates (its feeds are not counted)")
		}
		switch {
		case s.Clearing.Chosen == nil:
			parts = append(parts, "clear ("+s.Clearing.None+")")
		case t.ByFault(s.Name) && !s.ByFault.Shown():
			parts = append(parts, "clear (it has times by fault, and the log does not show that faults differ)")
		}
		if len(parts) > 0 {
			text = append(text, s.Name+", as before: "+strings.Join(parts, "; ")+".")
		}
	}
	return text
}

// grows reports whether the growth of a station with the speed is learnt too.
func (x *fitting) grows(station string) bool {
	for i := range x.Stations {
		if x.Stations[i].Name == station {
			return x.Stations[i].Growth != nil
		}
	}
	return false
}

// jobs says which jobs have rates of their own now, and which of the log the scenario does not
// have.
func (t *target) jobs(x *fitting) (text []string) {
	var differ, written []string
	for i := range x.Stations {
		s := &x.Stations[i]
		if jobs := t.Written(s); len(jobs) > 0 {
			differ = append(differ, s.Name)
			for _, j := range jobs {
				if !slices.Contains(written, j) {
					written = append(written, j)
				}
			}
		}
	}
	if len(differ) > 0 {
		text = append(text, "Jobs differ at "+say.List(differ)+": the rates of each are written for "+say.List(written)+".")
	}
	if missing := t.Unwritten(x.FitAnswer); len(missing) > 0 {
		text = append(text, "Jobs of the log that differ and are no jobs of "+t.File+": "+say.List(missing)+". Their faults are in the rates of all jobs, which hold for none of them.")
	}
	return text
}

// outBy says how many of the faults of a station that was logged at one speed a forecast has at that
// speed, if their rates are taken for those at the rated speed and grow; "" if it was not.
func (x *fitting) outBy(station string, rated, growth float64) string {
	speed := 0.0
	for _, c := range x.Log.Find(station).Counts {
		if c.Speed == 0 || speed != 0 && c.Speed != speed {
			return ""
		}
		speed = c.Speed
	}
	if speed == 0 || rated == 0 {
		return ""
	}
	return fmt.Sprintf(": at %s it has %.2g times as many faults of %s as the log", study.LogSpeed(speed), math.Pow(speed/rated, growth), station)
}

// besides says what else of the scenario works on what was learnt.
func (t *target) besides(x *fitting, line *model.Line, learnt []string) (text []string) {
	var growing, factored []string
	out := ""
	for _, s := range line.Stations {
		name := s.Where().Name
		if !slices.Contains(learnt, name) {
			continue
		}
		for _, u := range s.Usual() {
			switch {
			case u.Name == "growth" && u.Value != 0 && !x.Log.OnlyAt(s.Where().Rated) && !x.grows(name):
				growing = append(growing, name)
				out = cmp.Or(out, x.outBy(name, s.Where().Rated, u.Value))
			case u.Name == "material" && u.Value != 1:
				factored = append(factored, name)
			}
		}
	}
	if len(growing) > 0 {
		text = append(text, "The scenario has a growth of "+say.List(growing)+": its rates are those at the rated speed, and the log has them at its own, so that the forecast is out"+out+". Take the rated speed alone with --speed, or take the growth out.")
	}
	if len(factored) > 0 {
		text = append(text, "The scenario has a factor for the material of "+say.List(factored)+", by which the estimates are multiplied.")
	}
	if line.Restart.Mean() > 0 || line.Crew.Walk.Mean() > 0 {
		text = append(text, "The scenario has walk or restart besides: if the lengths of the log count them, take them out, or they count twice.")
	}
	return text
}
