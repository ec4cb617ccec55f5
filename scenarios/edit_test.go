package scenarios

import (
	"errors"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
)

// editable is a file around the station that is edited.
func editable(station string) string {
	return "name: Edited\nline:\n  restart: 4 s\n  stations:\n" + station +
		"    - {kind: inserter, name: inserter, at: 4, rated: 9000/h, hopper: {pieces: 1000, warn: 10%, refill: 5 s}, envelope_misfeed: 1/900, flap: 1/700, jam: 1/800, clear: 9 s}\n" +
		"    - {kind: delivery, name: delivery, at: 6, belt: {envelopes: 100, warn: 10, sweep: 30 s}}\n" +
		"crew: {operators: 1, walk: 12 s}\nwork: {shift: 8 h}\n"
}

const blockHead = "    - kind: feeder\n      name: letter\n      at: 0\n      preset: rotary\n      hopper: {pieces: 900, warn: 10%, refill: 9 s}\n"

// Every way in which a value may stand in a block station: the lines before and after.
func TestEditedBlock(t *testing.T) {
	misfeed := Edit{"stations.letter.misfeed", "{seen: 3, of: 4000}", ""}
	about := Edit{misfeed.Path, misfeed.Value, "about 1/1333"}
	clearing := Edit{"stations.letter.clear", "{exponential: {mean: 50 s}}", ""}
	timed := Edit{clearing.Path, clearing.Value, "31 stops"}
	for _, c := range []struct {
		name   string
		edit   Edit
		before string
		after  string
	}{
		{"plain", misfeed, "      misfeed: 1/900\n", "      misfeed: {seen: 3, of: 4000}\n"},
		{"plain, with blanks around it", misfeed, "      misfeed:   1/900  \n", "      misfeed:   {seen: 3, of: 4000}  \n"},
		{"plain, a comment kept", misfeed, "      misfeed: 1/900   # a guess\n", "      misfeed: {seen: 3, of: 4000}   # a guess\n"},
		{"plain, a comment replaced", about, "      misfeed: 1/900 # a guess\n", "      misfeed: {seen: 3, of: 4000}  # about 1/1333\n"},
		{"plain, a comment new", about, "      misfeed: 1/900\n", "      misfeed: {seen: 3, of: 4000}  # about 1/1333\n"},
		{"no value yet", about, "      misfeed:\n", "      misfeed: {seen: 3, of: 4000}  # about 1/1333\n"},
		{"no value but a comment", misfeed, "      misfeed:   # to be learnt\n", "      misfeed: {seen: 3, of: 4000}   # to be learnt\n"},
		{"folded", misfeed, "      misfeed: 1 /\n        900 # a guess\n", "      misfeed: {seen: 3, of: 4000} # a guess\n"},
		{"single quotes", misfeed, "      misfeed: '1/900' # a guess\n", "      misfeed: {seen: 3, of: 4000} # a guess\n"},
		{"double quotes", misfeed, "      misfeed: \"1\\x2f900\"\n", "      misfeed: {seen: 3, of: 4000}\n"},
		{"key in quotes", misfeed, "      \"misfeed\" : 1/900\n", "      \"misfeed\" : {seen: 3, of: 4000}\n"},
		{"flow", Edit{misfeed.Path, "1/1333", ""}, "      misfeed: { of: 8, seen: 1, } # a guess\n", "      misfeed: 1/1333 # a guess\n"},
		{"flow over lines", timed, "      clear: {lognormal: {mean: 45 s, # }\n        cv: 0.8}\n        # and }\n      }  # a guess\n", "      clear: {exponential: {mean: 50 s}}  # 31 stops\n"},
		{"list over lines", clearing, "      clear: {empirical: [4 s,\n        '9 s', # [\n      ]}  # two\n", "      clear: {exponential: {mean: 50 s}}  # two\n"},
		{"block", clearing, "      clear:\n        lognormal:\n          mean: 45 s   # slow\n\n          cv: 0.8\n      # of the jam\n      jam: 1/900\n", "      clear: {exponential: {mean: 50 s}}\n      # of the jam\n      jam: 1/900\n"},
		{"block, a comment kept", clearing, "      clear:   # a guess\n        constant: 9 s  # of it\n      jam: 1/900\n", "      clear: {exponential: {mean: 50 s}}   # a guess\n      jam: 1/900\n"},
		{"block, a comment replaced", timed, "      clear:   # a guess\n        constant: 9 s  # of it\n      jam: 1/900\n", "      clear: {exponential: {mean: 50 s}}  # 31 stops\n      jam: 1/900\n"},
		{"block, a comment new", timed, "      clear:\n        constant: 9 s\n", "      clear: {exponential: {mean: 50 s}}  # 31 stops\n"},
		{"within a block", Edit{"stations.letter.clear.lognormal.mean", "50 s", "31 stops"}, "      clear:\n        lognormal:\n          mean: 45 s   # slow\n          cv: 0.8\n", "      clear:\n        lognormal:\n          mean: 50 s  # 31 stops\n          cv: 0.8\n"},
		{"within a flow mapping", Edit{"stations.letter.clear.lognormal.mean", "50 s", "31 stops"}, "      clear: {lognormal: {mean: 45 s, cv: 0.8}} # slow\n", "      clear: {lognormal: {mean: 50 s, cv: 0.8}} # slow\n"},
		{"at the end of a line within a flow mapping", Edit{"stations.letter.clear.lognormal.mean", "50 s", "31 stops"}, "      clear: {lognormal: {mean: 45 s,  # slow\n        cv: 0.8}}\n", "      clear: {lognormal: {mean: 50 s,  # 31 stops\n        cv: 0.8}}\n"},
		{"text in a block", Edit{"stations.letter.source", "'3 misfeeds, in 4,000 feeds'", ""}, "      source: >- # a guess\n        Somebody's,\n\n        and mine\n\n      jam: 1/900\n", "      source: '3 misfeeds, in 4,000 feeds' # a guess\n\n      jam: 1/900\n"},
		{"added", about, "", "      misfeed: {seen: 3, of: 4000}  # about 1/1333\n"},
		{"added before comments and blank lines", misfeed, "      jam: 1/900  # a guess\n      # growth: 2\n\n    # the inserter\n", "      jam: 1/900  # a guess\n      misfeed: {seen: 3, of: 4000}\n      # growth: 2\n\n    # the inserter\n"},
		{"added below a block", misfeed, "      clear:\n        constant: 9 s  # of it\n      # growth: 2\n", "      clear:\n        constant: 9 s  # of it\n      misfeed: {seen: 3, of: 4000}\n      # growth: 2\n"},
		{"added below a flow mapping over lines", misfeed, "      clear: {constant:\n        9 s\n        } # of it\n", "      clear: {constant:\n        9 s\n        } # of it\n      misfeed: {seen: 3, of: 4000}\n"},
		{"added below text in a block", misfeed, "      source: >-\n        Somebody's\n        # and mine\n\n    # the inserter\n", "      source: >-\n        Somebody's\n        # and mine\n      misfeed: {seen: 3, of: 4000}\n\n    # the inserter\n"},
		{"added below text in a block hardly indented", misfeed, "      source: >-\n       Somebody's\n      # growth: 2\n", "      source: >-\n       Somebody's\n      misfeed: {seen: 3, of: 4000}\n      # growth: 2\n"},
		{"added what the preset has", Edit{"stations.letter.clear.lognormal.mean", "50 s", "31 stops"}, "", "      clear: {lognormal: {mean: 50 s, cv: 0.8}}  # 31 stops\n"},
		{"added in a mapping of its own", Edit{"stations.letter.streak.again", "{seen: 3, of: 40}", ""}, "      streak: {stop_after: 3}\n", "      streak: {stop_after: 3, again: {seen: 3, of: 40}}\n"},
		{"added with a mapping of its own", Edit{"stations.letter.policy.jam", "stop", ""}, "", "      policy: {jam: stop}\n"},
		{"added in an empty mapping", Edit{"stations.letter.policy.jam", "stop", "always"}, "      policy: { }\n", "      policy: {jam: stop }\n"},
		{"short form made long", Edit{"stations.letter.stream.realign", "90 s", ""}, "      stream: letters\n", "      stream: {name: letters, realign: 90 s}\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			assertEdited(t, c.edit, editable(blockHead+c.before), editable(blockHead+c.after))
		})
	}
}

// assertEdited checks an edit in a file, and in the same file with other line breaks, with a
// byte order mark, and without a last line break.
func assertEdited(t *testing.T, e Edit, before, after string) {
	t.Helper()
	for name, written := range map[string]func(string) string{
		"as it is":         func(text string) string { return text },
		"CRLF":             func(text string) string { return strings.ReplaceAll(text, "\n", "\r\n") },
		"byte order mark":  func(text string) string { return "\ufeff" + text },
		"no last newline":  func(text string) string { return strings.TrimSuffix(text, "\n") },
		"marks around it":  func(text string) string { return "---\n" + text + "...\n" },
		"a comment before": func(text string) string { return "# ½ {\n\n" + text },
	} {
		given := []byte(written(before))
		got, err := Edited("x.yaml", given, []Edit{e})
		require.NoError(t, err, name)
		assert.Equal(t, written(after), string(got), name)
		assert.Equal(t, written(before), string(given), "the text given stays as it is")
	}
}

// The same of a flow station, and elsewhere in the file.
func TestEditedElsewhere(t *testing.T) {
	const flow = "    - {kind: feeder, name: letter, at: 0, preset: rotary, hopper: {pieces: 900, warn: 10%, refill: 9 s}"
	misfeed := Edit{"stations.letter.misfeed", "{seen: 3, of: 4000}", "about 1/1333"}
	of := func(station string) string { return editable(flow + station) }
	last := func(line string) string { return editable(blockHead) + line }
	for _, c := range []struct {
		name          string
		edit          Edit
		before, after string
	}{
		{"value last", misfeed, of(", misfeed: 1/900}\n"), of(", misfeed: {seen: 3, of: 4000}}\n")},
		{"value before others", misfeed, of(", misfeed: 1/900, jam: 1/900}  # rotary\n"), of(", misfeed: {seen: 3, of: 4000}, jam: 1/900}  # rotary\n")},
		{"added", misfeed, of("}  # rotary\n"), of(", misfeed: {seen: 3, of: 4000}}  # rotary\n")},
		{"added before a blank", misfeed, of(" }\n"), of(", misfeed: {seen: 3, of: 4000} }\n")},
		{"added before a comma", misfeed, of(",}\n"), of(", misfeed: {seen: 3, of: 4000},}\n")},
		{"behind characters of several bytes", misfeed, of(", source: „geschätzt“ ½, misfeed: 1/900}\n"), of(", source: „geschätzt“ ½, misfeed: {seen: 3, of: 4000}}\n")},
		{"added over lines", misfeed, of(",\n       jam: 1/900  # a guess\n      }\n"), of(",\n       jam: 1/900, misfeed: {seen: 3, of: 4000}  # a guess\n      }\n")},
		{"JSON", misfeed, of(",\"misfeed\":\"1/900\"}\n"), of(",\"misfeed\": {seen: 3, of: 4000}}\n")},
		{"JSON to plain", Edit{misfeed.Path, "1/800", ""}, of(",\"misfeed\":{\"seen\":3,\"of\":900},\"jam\":\"1/900\"}\n"), of(",\"misfeed\": 1/800,\"jam\":\"1/900\"}\n")},
		{"crew", Edit{"crew.walk", "{constant: {about: 9 s, se: 1 s}}", "paced"}, last(""), strings.Replace(last(""), "walk: 12 s}", "walk: {constant: {about: 9 s, se: 1 s}}}", 1)},
		{"line", Edit{"line.restart", "5 s", "timed"}, last(""), strings.Replace(last(""), "restart: 4 s", "restart: 5 s  # timed", 1)},
		{"line, added", Edit{"line.speed", "8000/h", ""}, last(""), strings.Replace(last(""), "crew:", "  speed: 8000/h\ncrew:", 1)},
		{"top, added", Edit{"policy.misfeed", "stop", ""}, last("# the end\n"), last("policy: {misfeed: stop}\n# the end\n")},
		{"a variant sets it too", Edit{misfeed.Path, "1/800", ""}, last("variants: [{name: v, changes: [{set: stations.letter.misfeed, to: 1/700}]}]\n"), strings.Replace(last("variants: [{name: v, changes: [{set: stations.letter.misfeed, to: 1/700}]}]\n"), "refill: 9 s}\n", "refill: 9 s}\n      misfeed: 1/800\n", 1)},
		{"one of several lines", Edit{"lines.v1.0 flats.stations.letter.misfeed", "1/800", ""}, groupFile, strings.Replace(groupFile, "source: measured}", "source: measured, misfeed: 1/800}", 1)},
		{"one of several lines, replaced", Edit{"lines.v1.0 flats.stations.inserter.flap", "1/900", ""}, groupFile, strings.Replace(groupFile, "flap: 1/800", "flap: 1/900", 1)},
		{"a line of several", Edit{"lines.v1.0 flats.speed", "7000/h", "asked for"}, groupFile, strings.Replace(groupFile, "    policy: {double: outsort}\n", "    policy: {double: outsort}\n    speed: 7000/h  # asked for\n", 1)},
	} {
		t.Run(c.name, func(t *testing.T) {
			assertEdited(t, c.edit, c.before, c.after)
		})
	}
}

// Several edits are made one after the other; a file that lacks what they say is complete
// with them.
func TestEditedSeveral(t *testing.T) {
	const head, tail = "    - {kind: feeder, name: letter, at: 0, rated: 9000/h, hopper: {pieces: 900, warn: 10%, refill: 9 s}", "}\n"
	edits := []Edit{
		{"stations.letter.misfeed", "1/900", ""},
		{"stations.letter.double", "1/900", ""},
		{"stations.letter.jam", "0", ""},
		{"stations.letter.clear", "{constant: 9 s}", ""},
		{"stations.letter.clear.constant", "{about: 8 s, se: 2 s}", ""},
	}
	got, err := Edited("x.yaml", []byte(editable(head+tail)), edits)
	require.NoError(t, err)
	assert.Equal(t, editable(head+", misfeed: 1/900, double: 1/900, jam: 0, clear: {constant: {about: 8 s, se: 2 s}}"+tail), string(got))
	got, err = Edited("x.yaml", got, nil)
	require.NoError(t, err)
	assert.Equal(t, editable(head+", misfeed: 1/900, double: 1/900, jam: 0, clear: {constant: {about: 8 s, se: 2 s}}"+tail), string(got))

	_, err = Edited("x.yaml", []byte(editable(head+tail)), edits[2:])
	require.ErrorContains(t, err, "x.yaml (edited):5:7: feeder has no misfeed")
}

func TestEditedWhatCannotBe(t *testing.T) {
	good := editable(blockHead)
	const oddly = "      ? misfeed\n      :\n        seen: 1\n        of: 900\n"
	for _, c := range []struct {
		name, text string
		edit       Edit
		want       string
	}{
		{"path", good, Edit{"stations.leter.jam", "0", ""}, `x.yaml: stations.leter.jam: no station is named "leter": did you mean letter?`},
		{"variants", good, Edit{"variants", "[]", ""}, `x.yaml: variants: no path begins with "variants"`},
		{"below a plain value", good, Edit{"stations.inserter.jam.seen", "3", ""}, "x.yaml: stations.inserter.jam.seen: jam is 1/800, which has no seen: set jam as a whole"},
		{"probability", good, Edit{"stations.inserter.jam", "7", ""}, "x.yaml (edited):10:153: jam is 7, want a probability"},
		{"variant", good + "variants: [{name: v, changes: [{set: stations.letter.clear.lognormal.cv, to: 0.5}]}]\n", Edit{"stations.letter.clear", "9 s", ""}, "x.yaml (edited):15:38: variant \"v\": clear is 9 s, which has no lognormal"},
		{"nothing", good, Edit{"stations.letter.jam", "", ""}, "x.yaml (edited)"},
		{"two values", good, Edit{"stations.letter.jam", "0, double: 0", ""}, "x.yaml: stations.letter.jam: 0, double: 0 is not a value"},
		{"two values in a list", good, Edit{"stations.letter.jam", "0, 1", ""}, "x.yaml: stations.letter.jam: 0, 1 is not a value"},
		{"value and comma", good, Edit{"stations.letter.jam", "0,", ""}, "x.yaml: stations.letter.jam: 0, is not a value: want one alone"},
		{"value and comment", good, Edit{"stations.letter.jam", "0 # c", ""}, "x.yaml: stations.letter.jam: 0 # c is not a value"},
		{"brackets that do not match", good, Edit{"stations.letter.jam", "0} #", ""}, "x.yaml: stations.letter.jam: 0} # is not a value"},
		{"mapping without brackets", good, Edit{"stations.letter.jam", "seen: 3", ""}, "x.yaml: stations.letter.jam: seen: 3 is not a value"},
		{"anchor", good, Edit{"stations.letter.jam", "&a 0", ""}, "x.yaml: stations.letter.jam: &a 0 is not a value"},
		{"lines", good, Edit{"stations.letter.jam", "{seen: 3,\n of: 4}", ""}, "x.yaml: stations.letter.jam: want the value and its comment on one line"},
		{"lines of a comment", good, Edit{"stations.letter.jam", "0", "c\n# d"}, "x.yaml: stations.letter.jam: want the value and its comment on one line"},
		{"odd form", editable(blockHead + oddly), Edit{"stations.letter.misfeed", "0", ""}, "x.yaml: stations.letter.misfeed: the file is written in a way that cannot be edited here"},
		{"no YAML", "name: [\n", Edit{"stations.letter.jam", "0", ""}, "x.yaml:2:1: "},
		{"a list", "[1]", Edit{"stations.letter.jam", "0", ""}, "x.yaml:1:1: the scenario is a list"},
		{"nothing at all", "", Edit{"stations.letter.jam", "0", ""}, "x.yaml:1:1: the file is empty"},
		{"no scenario", "name: x", Edit{"crew.operators", "0", ""}, "x.yaml (edited):1:1: the scenario has no line"},
		{"too large", good + strings.Repeat("#", maxBytes), Edit{"stations.letter.jam", "0", ""}, "x.yaml:1:1: the file is too large"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Edited("x.yaml", []byte(c.text), []Edit{c.edit})
			require.ErrorContains(t, err, c.want)
			assert.Nil(t, got)
			_, ok := errors.AsType[Problems](err)
			assert.True(t, ok)
		})
	}
}

// learnable are keys of stations of several kinds, each with a value that no example has.
var learnable = map[string]string{
	"misfeed": "{seen: 3, of: 40000}", "double": "1/76543", "jam": "{low: 0, likely: 1/7654, high: 1%}", "growth": "{about: 1.7, se: 0.6}",
	"caught": "98.7%", "noticed": "98.7%", "envelope_misfeed": "{seen: 3, of: 40000}", "flap": "1/7654", "no_read": "1/7654", "false_alarm": "1/76543",
	"clear": "{lognormal: {mean: {about: 46.7 s, se: 3.6 s}, cv: 0.91}}",
}

// In all examples any rate of any station is edited alone: the file is then what With makes
// of it, and but one line of it is another one.
func TestEditedExamples(t *testing.T) {
	if golden.Raced {
		t.Skip("it runs on one goroutine, and takes long")
	}
	replaced, added := 0, 0
	for _, x := range Examples() {
		s, err := Load(x.Name, x.Data)
		require.NoError(t, err)
		for _, list := range lists(s.tree) {
			stations, _ := follow(s.tree, list)
			for i, name := range namesIn(stations) {
				for key, value := range learnable {
					path := strings.TrimPrefix(strings.Join(list, "."), "line.") + "." + name + "." + key
					got, err := Edited(x.Name, x.Data, []Edit{{path, value, ""}})
					want, wrong := s.ShopWith([]Setting{{path, value}})
					require.Equal(t, wrong == nil, err == nil, "%s, %s: %v, %v", x.Name, path, wrong, err)
					if wrong != nil {
						continue
					}
					edited, err := Load(x.Name, got)
					require.NoError(t, err)
					require.Equal(t, want, &edited.Shop, path)
					old := child(stations.Content[i], key)
					if old == nil {
						added++
					} else {
						replaced++
					}
					assertOneLine(t, string(x.Data), string(got), old, key, value)
				}
			}
		}
	}
	assert.Greater(t, replaced, 100)
	assert.Greater(t, added, 100)
}

// assertOneLine checks that two texts differ by a value in the line where the old one is; or
// by a new key, if there is no old one, in a line of its own or before a bracket.
func assertOneLine(t *testing.T, before, after string, old *node, key, value string) {
	t.Helper()
	was, is := strings.SplitAfter(before, "\n"), strings.SplitAfter(after, "\n")
	from := 0
	for was[from] == is[from] {
		from++
	}
	grown := len(is) - len(was)
	require.Contains(t, []int{0, 1}, grown)
	require.Equal(t, was[from+1-grown:], is[from+1:])
	switch entry := key + ": " + value; {
	case old != nil:
		require.Equal(t, old.Line, from+1)
		require.Equal(t, strings.Replace(was[from], key+": "+written(old), entry, 1), is[from])
	case grown == 1:
		require.Equal(t, entry, strings.TrimSpace(is[from]))
	default:
		require.Equal(t, was[from], strings.Replace(is[from], ", "+entry+"}", "}", 1))
	}
}

// Whatever the file and the edit, Edited returns problems or a file that loads, in which the
// same edit changes nothing more.
func FuzzEdited(f *testing.F) {
	good, err := os.ReadFile("testdata/good.yaml")
	require.NoError(f, err)
	for i, text := range []string{string(good), everything, personal, seasonal, groupFile, unsureFile, editable(blockHead), "{}", "name: x\nline: {stations: [{name: a}]}", "? a\n: b"} {
		for path, value := range map[string]string{
			"stations.letter.misfeed": "{seen: 3, of: 4000}", "stations.thick.clear.lognormal.mean": "4 s", "lines.letters.stations.letter.jam": "1/900", "crew.walk": "'5 s'",
			"season.weeks.first.sets.Odd": "4", "stations.letter.stream.realign": "3 s", "policy.match": "by hand", "stations.letter.source": "\"a, b\"", "jobs": "[]", "stations.a.at": "0} #",
		} {
			f.Add(text, path, value, strings.Repeat("c ", i%2))
		}
	}
	f.Fuzz(func(t *testing.T, text, path, value, comment string) {
		edits := []Edit{{path, value, comment}}
		got, err := Edited("fuzz.yaml", []byte(text), edits)
		if err != nil {
			problems, ok := errors.AsType[Problems](err)
			if got != nil || !ok || len(problems) == 0 || problems.Error() == "" {
				t.Fatalf("text %q with error %#v", got, err)
			}
			return
		}
		if _, err := Load("fuzz.yaml", got); err != nil {
			t.Fatalf("%v in %q", err, got)
		}
		again, err := Edited("fuzz.yaml", got, edits)
		if err != nil || string(again) != string(got) {
			t.Fatalf("%q is edited to %q: %v", got, again, err)
		}
	})
}
