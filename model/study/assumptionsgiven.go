package study

import (
	"slices"
	"strings"

	"netrate/model"
)

// statedAssumptions are statements by line, station and key.
type statedAssumptions map[[3]string]AssumptionStatement

// speed returns where the speed of a line comes from, which is limited by stations, or "" for the
// speed asked for; "" if it is not stated of all.
func (g statedAssumptions) speed(line string, limits []string) string {
	var all []string
	for _, station := range limits {
		key := "rated"
		if station == "" {
			key = "line.speed"
		}
		switch source := g[[3]string{line, station, key}].Source; {
		case source == "":
			return ""
		case !slices.Contains(all, source):
			all = append(all, source)
		}
	}
	return strings.Join(all, "; ")
}

// responses returns what a station answers to each fault that has a choice.
func (g statedAssumptions) responses(line string, s model.Station) []assumed {
	var all []assumed
	for _, f := range s.Counts() {
		answer := s.Answer(f)
		if answer == nil {
			continue
		}
		a := assumed{kind: AssumptionDefault, key: f.String(), text: answer.String()}
		if by, is := g.answer(line, s, f, answer.String()); is {
			a.kind, a.source = AssumptionResponse, by.Source
		}
		all = append(all, a)
	}
	return all
}

// recoveries are the responses of what is matched, in the words of a scenario file.
var recoveries = map[string]string{"by hand": model.Stop.String(), "in line": model.Divert.String()}

// answer returns the statement by which a station answers so to a fault: its own, that of all that
// is matched, or that of the line. There is none where nothing is said and the fault stops the line,
// or where the response was chosen by somebody else, as by a search.
func (g statedAssumptions) answer(line string, s model.Station, f model.Fault, response string) (AssumptionStatement, bool) {
	fault := strings.NewReplacer(" ", "_", "-", "_").Replace(f.String())
	for _, at := range [][3]string{
		{line, s.Where().Name, "policy." + fault},
		{line, "", "line.policy.match"},
		{line, "", "line.policy." + fault},
		{"", "", "policy.match"},
		{"", "", "policy." + fault},
	} {
		by, is := g[at]
		if strings.HasSuffix(at[2], ".match") {
			is = is && (s.Carries() != nil || f == model.Mismatch)
			by.Value = recoveries[by.Value]
		}
		if is && by.Value == response {
			return by, true
		}
	}
	return AssumptionStatement{}, false
}
