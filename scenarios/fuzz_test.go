package scenarios

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Whatever the bytes, Load returns problems or a line that its own check passes.
func FuzzLoad(f *testing.F) {
	for _, pattern := range []string{"testdata/bad/*.yaml", "testdata/*.yaml", "examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			f.Fatal(pattern, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Add([]byte(everything))
	f.Add([]byte(personal))
	f.Add([]byte(seasonal))
	f.Add([]byte(groupFile))
	f.Add([]byte(unsureFile))
	f.Add([]byte(sharedFile))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := Load("fuzz.yaml", data)
		if err != nil {
			problems, ok := errors.AsType[Problems](err)
			if s != nil || !ok || len(problems) == 0 || problems.Error() == "" {
				t.Fatalf("scenario %v with error %#v", s, err)
			}
			return
		}
		if errs := checked(&s.Shop); len(errs) > 0 {
			t.Fatalf("a line that cannot run: %v", errs)
		}
		for _, v := range s.Variants {
			if errs := checked(&v.Shop); len(errs) > 0 || v.Name == "" {
				t.Fatalf("variant %q cannot run: %v", v.Name, errs)
			}
		}
		if line, err := s.WithAll(nil); err != nil || len(line.Check()) > 0 {
			t.Fatalf("the tree that is kept is not that of the line: %v", err)
		}
		if !(s.Run.Precision > 0 && s.Run.Min >= 2 && s.Run.Min <= s.Run.Max) {
			t.Fatalf("settings %+v", s.Run)
		}
	})
}

// checked returns what the model has against what a file describes.
func checked(s *Shop) []error {
	errs := s.Line.CheckAmong(s.lines())
	if s.LineGroup != nil {
		errs = append(errs, s.LineGroup.Check()...)
	}
	if s.Calendar != nil {
		errs = append(errs, s.Calendar.Check()...)
	}
	if s.Season == nil {
		return errs
	}
	if s.Season.Calendar == nil || len(s.Season.Weeks) == 0 {
		errs = append(errs, errors.New("a season without time"))
	}
	for _, w := range s.Season.Weeks {
		if len(w.Sets) != len(s.Products) || w.Name == "" {
			errs = append(errs, errors.New("a week of other jobs"))
		}
	}
	return errs
}

// Whatever the path and the value, With returns problems or a line that passes its check.
func FuzzWith(f *testing.F) {
	data, err := os.ReadFile("testdata/good.yaml")
	if err != nil {
		f.Fatal(err)
	}
	var all []*Scenario
	for _, text := range []string{string(data), personal, seasonal, groupFile, unsureFile} {
		s, err := Load("x", []byte(text))
		if err != nil {
			f.Fatal(err)
		}
		all = append(all, s)
	}
	for _, path := range []string{"crew.operators", "policy.flap", "policy.match", "work.remakes", "stations.letter.clear.gamma.mean", "stations.exit gate.at", "stations.camera.verifies", "stations.channel.pages.table.2", "stations.envelopes.stream.half", "stations..", "line.stations", "jobs.Letters.envelope.stream", "season.weeks.first.sets.Odd", "calendar.shifts.1.start", "changeover.height", "lines.letters.stations.letter.jam", "lines.letters.policy", "stations.no. 1.5.misfeed", "stations.no. 1.5.clear.lognormal.cv", "crew.walk.constant"} {
		for _, value := range []string{"2", "1/4000", "{gamma: {mean: 4 s, cv: 1}}", "[1 s", "divert", "in line", "[sequence]", "{by_hand: 1/s}", "&a {", "C5", "06:00", "{time: 4 s, automatic: true}", "{seen: 3, of: 4000}", "{about: 4 s, se: 1 s}", "{low: 0, likely: 0.5, high: 2}"} {
			f.Add(path, value)
		}
	}
	f.Fuzz(func(t *testing.T, path, value string) {
		for _, s := range all {
			shop, err := s.ShopWith([]Setting{{path, value}})
			if err != nil {
				problems, ok := errors.AsType[Problems](err)
				if shop != nil || !ok || len(problems) == 0 || !strings.Contains(problems.Error(), path) {
					t.Fatalf("%v with error %#v", shop, err)
				}
			} else if errs := checked(shop); len(errs) > 0 {
				t.Fatalf("a line that cannot run: %v", errs)
			}
		}
	})
}

// Whatever the text, the numbers of a range are those of its texts, each another one.
func FuzzParseRange(f *testing.F) {
	for _, text := range []string{"a=1:4:4", "a=0/1:1/1e308:9", "a=5%:7.5%:3", "a=1 s:2 min:7", "a=stop,divert", "a=1/3,2/7", "a=1e-320:1.0:3"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseRange(text)
		if err != nil {
			return
		}
		seen := map[float64]bool{}
		for i, v := range r.Values {
			form, number, err := formOf(v.Text)
			if err != nil || form.unit != r.Unit || form.valueKind != wordKind && number != v.Number || seen[v.Number] {
				t.Fatalf("value %d is %v: %v", i, v, err)
			}
			seen[v.Number] = true
		}
	})
}

// A time is read or refused, whatever the text; the schema takes the same texts but for their size, and a value of
// the form in which it is written is the time again.
func FuzzTime(f *testing.F) {
	for _, text := range []string{"5 h 30 min", "1 h 5 min 10 s", "1h20min", "5 h 60 min", "30 min 5 h", "1.5 h 20 min", "1 h 1 h", "5 min 1.5 s", "744 h 1 s", "05 h 3 s", "1 h", "1 h ", " 1 h 2 s"} {
		f.Add(text)
	}
	schema := regexp.MustCompile(times.pattern())
	f.Fuzz(func(t *testing.T, text string) {
		var x seconds
		if err := x.read(text); err != nil {
			return
		}
		if !(x >= 0 && x <= maxDays*24*3600) || !schema.MatchString(text) {
			t.Fatalf("%q is %v s, by the schema %v", text, x, schema.MatchString(text))
		}
		form, number, err := formOf(text)
		if err != nil || form.valueKind != timeKind || number != float64(x) {
			t.Fatalf("%q is %v s, and %v of the form %v: %v", text, x, number, form, err)
		}
		if again := form.value(number); number > 1e-3 && math.Abs(again.Number-number) > 1e-5*number {
			t.Fatalf("%q is %v s, and %q %v", text, x, again.Text, again.Number)
		}
	})
}
