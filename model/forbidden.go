package model

import (
	"fmt"
	"slices"
	"strings"
)

// Forbidden is a response that no station may have to a fault, whatever it would bring.
type Forbidden struct {
	Fault    Fault
	Response Response
}

func (x Forbidden) String() string { return x.Fault.key() + "=" + x.Response.String() }

// key returns the fault in one word, as a scenario file has it.
func (f Fault) key() string { return strings.ReplaceAll(f.String(), " ", "_") }

// forbidding are the faults that leave a choice.
var forbidding = []Fault{Misfeed, Double, Flap, NoRead, Mismatch}

// AllForbidden returns everything that may be forbidden, in order of faults and responses. A
// mismatch is never shipped in any case.
func AllForbidden() []Forbidden {
	var all []Forbidden
	for _, f := range forbidding {
		for r := range Response(len(responseNames)) {
			all = append(all, Forbidden{f, r})
		}
	}
	return all
}

// ForbiddenOf returns what a text such as double=ship forbids.
func ForbiddenOf(text string) (Forbidden, error) {
	for _, x := range AllForbidden() {
		if x.String() == text {
			return x, nil
		}
	}
	var faults []string
	for _, f := range forbidding {
		faults = append(faults, f.key())
	}
	return Forbidden{}, fmt.Errorf("want FAULT=RESPONSE such as double=ship, of the faults %s and the responses %s", OneOf(faults), OneOf(Responses()))
}

// Permitted returns decisions without the responses that are forbidden.
func Permitted(among []Decision, never []Forbidden) []Decision {
	all := slices.Clone(among)
	for k, d := range all {
		all[k].Responses = slices.DeleteFunc(slices.Clone(d.Responses), func(r Response) bool {
			return slices.Contains(never, Forbidden{d.Fault, r})
		})
	}
	return all
}

// Breach returns why the line cannot do without what is forbidden at one of its jobs, as a sentence;
// "" if it can.
func (a *AtJobs) Breach(never []Forbidden) string {
	for _, l := range a.Jobs {
		if why := l.Breach(never); why != "" {
			return why
		}
	}
	return ""
}

// Breach returns why the line cannot do without what is forbidden, as a sentence: a station
// has such a response, or has no other; "" if it can.
func (l *Line) Breach(never []Forbidden) string {
	for i, s := range l.Stations {
		for _, f := range l.Faults(i) {
			possible := Decision{Station: i, Fault: f}
			for r := range Response(len(responseNames)) {
				if l.Refusal(i, f, r) == "" {
					possible.Responses = append(possible.Responses, r)
				}
			}
			own := Forbidden{f, l.Answer(i, f)}
			switch {
			case len(Permitted([]Decision{possible}, never)[0].Responses) == 0:
				return fmt.Sprintf("%s could answer no %s at all", s.Where().Name, f)
			case slices.Contains(never, own):
				return fmt.Sprintf("%s has the response %s to a %s", s.Where().Name, own.Response, f)
			}
		}
	}
	return ""
}
