package scenarios

import (
	"slices"
	"strings"

	"netrate/model"
)

// finding is what the model has against a line, at the node that brought it about.
type finding struct {
	at   *node
	text string

	// A response that is refused is refused at several stations at once, and for several faults
	// for the same reason: where a gate is missing, at all of them.
	stations []string // nil if the text is all
	faults   []string // nil where it is the recovery of all that is matched
	why      string   // "with divert: …" or "in line: …"
}

// said returns the finding as a sentence.
func (f finding) said() string {
	if f.stations == nil {
		return f.text
	}
	why := f.why
	if len(f.stations) > 1 {
		why = strings.ReplaceAll(why, "this station", "these stations")
	}
	what := " cannot recover "
	if f.faults != nil {
		what = " cannot answer a " + strings.Join(f.faults, " or a ") + " "
	}
	return model.Listed(f.stations) + what + why
}

// refused returns that a station cannot answer a fault as the policy of its line has it.
func refused(l *model.Line, p *model.Problem, policy *node) finding {
	fault, found := faultOf(l, p)
	if !found {
		return finding{at: policy, text: p.Text}
	}
	r := l.Answer(p.Station, fault)
	return finding{
		at: policy, stations: []string{l.Stations[p.Station].Where().Name}, faults: []string{fault.String()},
		why: "with " + r.String() + ": " + l.Refusal(p.Station, fault, r),
	}
}

// noRecovery returns that a station cannot recover as the line is to. It is the same for a
// misfeed and for a double.
func noRecovery(l *model.Line, p *model.Problem, match *node) finding {
	fault, found := faultOf(l, p)
	var way recovery
	if err := way.read(match.Value); err != nil || !found { // an error is noted
		return finding{at: match, text: p.Text}
	}
	return finding{
		at: match, stations: []string{l.Stations[p.Station].Where().Name},
		why: match.Value + ": " + l.Refusal(p.Station, fault, model.Response(way)),
	}
}

// faultOf returns the fault whose response is the problem.
func faultOf(l *model.Line, p *model.Problem) (model.Fault, bool) {
	for _, fault := range l.Faults(p.Station) {
		if p.Field == "policy."+fault.String() {
			return fault, true
		}
	}
	return 0, false
}

// gathered returns the findings, those as one that differ in nothing but the stations or, of the
// same stations, in nothing but the faults.
func gathered(all []finding) []finding {
	byStation := gatheredBy(all, func(a, b *finding) bool {
		return a.at == b.at && slices.Equal(a.faults, b.faults)
	}, func(f *finding) *[]string { return &f.stations })
	return gatheredBy(byStation, func(a, b *finding) bool {
		return a.faults != nil && b.faults != nil && slices.Equal(a.stations, b.stations)
	}, func(f *finding) *[]string { return &f.faults })
}

// gatheredBy adds what each finding lists to that of the first which is alike.
func gatheredBy(all []finding, alike func(a, b *finding) bool, list func(*finding) *[]string) []finding {
	var kept []finding
	for _, f := range all {
		i := slices.IndexFunc(kept, func(k finding) bool {
			return k.stations != nil && f.stations != nil && k.why == f.why && alike(&k, &f)
		})
		if i < 0 {
			kept = append(kept, f)
			continue
		}
		for _, word := range *list(&f) {
			if !slices.Contains(*list(&kept[i]), word) {
				*list(&kept[i]) = append(*list(&kept[i]), word)
			}
		}
	}
	return kept
}
