package main

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// grammar writes scenarios: any line that the format has words for, with values that people
// write, with values at the edges, and now and then with a mistake.
type grammar struct {
	*rand.Rand
	b strings.Builder

	streams    bool // the line may have some
	streamed   bool // it has one
	gate, exit bool // it has one
}

// odds reports whether something with a probability happens.
func (g *grammar) odds(p float64) bool { return g.Float64() < p }

// of returns one of some texts.
func (g *grammar) of(texts ...string) string { return texts[g.IntN(len(texts))] }

func (g *grammar) line(format string, args ...any) { fmt.Fprintf(&g.b, format+"\n", args...) }

// fault is a probability of a fault: mostly small, at times at an edge.
func (g *grammar) fault() string {
	switch {
	case g.odds(0.03):
		return g.of("0", "1e-99", "0.3", "50%", "1/3", "{seen: 0, of: 1}", "{seen: 3, of: 3}", "{low: 0, likely: 0, high: 1}")
	case g.odds(0.1):
		return g.of("{seen: 3, of: 4000}", "{seen: 0, of: 9000}", "{low: 1/3000, likely: 1/2400, high: 1/2000}")
	}
	return fmt.Sprintf("1/%d", 20+g.IntN(1+g.IntN(5000)))
}

// part is a probability without a favourite.
func (g *grammar) part() string { return g.of("0", "1", "100%", "99%", "1/2", "0.001", "98.5%") }

// time is a duration, or a distribution of them.
func (g *grammar) time() string {
	mean := g.of("5 s", "45 s", "2 min", "20 s", "90 s")
	if g.odds(0.02) {
		mean = g.of("0 s", "1e-90 s", "744 h", "8 h", "0.001 s")
	}
	cv := g.of("0.3", "0.8", "1", "2")
	if g.odds(0.03) {
		cv = g.of("0.01", "5", "0")
	}
	switch g.IntN(7) {
	case 0:
		return fmt.Sprintf("{lognormal: {mean: %s, cv: %s}}", mean, cv)
	case 1:
		return fmt.Sprintf("{gamma: {mean: %s, cv: %s}}", mean, cv)
	case 2:
		return fmt.Sprintf("{exponential: {mean: %s}}", mean)
	case 3:
		return "{constant: {about: 38 s, se: 2 s}}"
	case 4:
		return fmt.Sprintf("{constant: %s}", mean)
	}
	return mean
}

func (g *grammar) stock(unit, work string) string {
	capacity := 1 + g.IntN(g.of2(3, 2000))
	warn := fmt.Sprint(g.IntN(capacity))
	if g.odds(0.3) {
		warn = g.of("20%", "0%", "50%")
	}
	return fmt.Sprintf("{%s: %d, warn: %s, %s: %s}", unit, capacity, warn, work, g.time())
}

func (g *grammar) of2(a, b int) int {
	if g.odds(0.05) {
		return a
	}
	return b
}

func (g *grammar) policy(faults ...string) string {
	var all []string
	for _, f := range faults {
		if (f == "jam" || f == "envelope_misfeed") && g.odds(0.98) {
			continue // which they mostly cannot be given
		}
		if g.odds(0.1) {
			all = append(all, f+": "+g.response("ship"))
		}
	}
	if len(all) == 0 {
		return ""
	}
	return ", policy: {" + strings.Join(all, ", ") + "}"
}

// response is a response that the gates allow, or one of some others, and now and then any.
func (g *grammar) response(others ...string) string {
	possible := append([]string{"stop", "stop"}, others...)
	if g.gate {
		possible = append(possible, "divert", "divert")
	}
	if g.exit {
		possible = append(possible, "outsort")
	}
	if g.odds(0.02) {
		possible = []string{"divert", "outsort", "ship"}
	}
	return g.of(possible...)
}

func (g *grammar) maybe(p float64, text string) string {
	if g.odds(p) {
		return ", " + text
	}
	return ""
}

func (g *grammar) speed() string {
	if g.odds(0.03) {
		return g.of("1/h", "1000000/h", "10/h", "1/min")
	}
	return g.of("9000/h", "12000/h", "16000/h", "300/min", "4/s")
}

// name is what a station or a job is called.
func (g *grammar) name(usual string) string {
	if !g.odds(0.02) {
		return usual
	}
	return usual + g.of("é", `\"x\"`, "=1+1", "'", "<b>&", " 漢字", "#1", strings.Repeat("w", 40), "\\u202e", "\\u3164", "\\t")
}

// stations writes a line from its first feeder to its delivery.
func (g *grammar) stations(indent string) {
	at := 0
	put := func(kind, name, rest string) {
		g.line(`%s- {kind: %s, name: "%s", at: %d%s}`, indent, kind, g.name(name), at, rest)
		at += 1 + g.IntN(3)
	}
	g.streams, g.streamed = g.odds(0.4), false
	if g.streams && g.odds(0.6) {
		g.streamed = true
		put("document channel", "channel", fmt.Sprintf(", sheets: %s, pages: %s, buffer: %d, hopper: %s, misfeed: %s, double: %s, jam: %s, stream: {name: documents, realign: %s}, clear: %s%s",
			g.of("10/s", "36000/h", "2/s"), g.of("1", "3", "{table: {1: 60%, 2: 40%}}"), 1+g.IntN(8), g.stock("documents", "refill"), g.fault(), g.fault(), g.fault(), g.time(), g.time(), g.policy("misfeed", "double", "jam")))
		if g.odds(0.7) {
			put("reader", "camera", fmt.Sprintf(", reads: documents, verifies: %s, no_read: %s, clear: %s%s", g.of("[presence, sequence]", "presence"), g.fault(), g.time(), g.policy("no_read", "mismatch")))
		}
	}
	for i := range 1 + g.IntN(g.of2(40, 5)) {
		rates := fmt.Sprintf(", rated: %s, misfeed: %s, double: %s, jam: %s, clear: %s", g.speed(), g.fault(), g.fault(), g.fault(), g.time())
		if g.odds(0.3) {
			rates = ", preset: " + g.of("rotary", "friction", "shuttle")
		}
		own := ""
		if g.streams && g.odds(0.3) {
			g.streamed = true
			own = fmt.Sprintf(", stream: {name: s%d, realign: %s}", i, g.time())
		} else {
			own = g.maybe(0.2, "share: "+g.of("50%", "1%", "1e-9"))
		}
		put("feeder", fmt.Sprintf("f%d", i), rates+", hopper: "+g.stock("pieces", "refill")+own+
			g.maybe(0.2, "caught: "+g.part())+g.maybe(0.2, "noticed: "+g.part())+g.maybe(0.1, "false_calls: "+g.fault())+
			g.maybe(0.15, "growth: "+g.of("0", "1.5", "1.5", "0.3"))+g.maybe(0.01, "growth: 20")+g.maybe(0.15, "material: "+g.of("1", "3"))+g.maybe(0.01, "material: 1000")+
			g.maybe(0.15, "streak: {again: 20%, stop_after: 3}")+g.policy("misfeed", "double", "jam"))
	}
	if g.gate {
		put("track gate", "gate", g.maybe(0.6, "bin: "+g.stock("sets", "empty")))
	}
	put("inserter", "inserter", fmt.Sprintf(", rated: %s, hopper: %s, envelope_misfeed: %s, flap: %s, jam: %s, clear: %s%s",
		g.speed(), g.stock("pieces", "refill"), g.fault(), g.fault(), g.fault(), g.time(), g.policy("envelope_misfeed", "flap", "jam")))
	if g.exit {
		put("exit gate", "exit", g.maybe(0.6, "bin: "+g.stock("envelopes", "empty")))
	}
	put("delivery", "delivery", g.maybe(0.6, "belt: "+g.stock("envelopes", "sweep")))
}

// scenario writes a whole file.
func (g *grammar) scenario() string {
	g.b.Reset()
	g.line(`name: "%s"`, g.name("Tortured"))
	g.gate, g.exit = g.odds(0.7), g.odds(0.6)
	if g.odds(0.1) {
		g.line("lines:")
		for i := range 1 + g.IntN(3) {
			g.line("  - name: line %d\n    restart: %s\n    stations:", i, g.time())
			g.stations("      ")
		}
	} else {
		g.line("line:\n  restart: %s\n  stations:", g.time())
		g.stations("    ")
		if g.odds(0.5) {
			g.line("variants:\n  - {name: people, changes: [{set: crew.operators, to: %d}]}", 1+g.IntN(4))
		}
		if g.odds(0.25) {
			g.line("design:\n  goal: %s\n  limits: {price: %d}\n  options:\n    - {name: people, price: %d, changes: [{set: crew.operators, to: %d}]}\n    - {name: walk, changes: [{set: crew.walk, to: %s}]}",
				g.of("net rate", "operators\n  target: 100/h", "cost per thousand"), g.IntN(9), g.IntN(9), 1+g.IntN(4), g.of("3 s", "0 s", "2 min"))
		}
	}
	if g.odds(0.4) {
		g.line("policy: {misfeed: %s, double: %s%s}", g.response("ship"), g.response(), g.maybe(0.3, "match: "+g.of("in line", "by hand")))
	}
	g.line("crew: {operators: %d, walk: %s%s}", 1+g.IntN(3), g.time(), g.maybe(0.2, "attends: first come"))
	switch {
	case g.odds(0.2):
		remakes := 0.02
		if g.streamed {
			remakes = 0.5
		}
		g.line("work: {sets: %s%s}", g.of("1", "300", "2000"), g.maybe(remakes, "remakes: "+g.of("{by_hand: 60/h}", "{beside: 30/h}", "{second_pass: {setup: 1 min}}")))
	case g.odds(0.1):
		g.line("work: {shift: %s}", g.of("1 s", "0.001 s", "1 min", "10 s"))
	default:
		g.line("work: {shift: %s}", g.of("1 h", "20 min", "2 h"))
	}
	if g.odds(0.4) {
		g.jobs()
	}
	if g.odds(0.25) {
		g.costs()
	}
	text := g.b.String()
	if g.odds(0.15) {
		text = g.mistake(text)
	}
	return text
}

// jobs writes what is made, and at times a season of it.
func (g *grammar) jobs() {
	g.line("jobs:\n  - {name: Letters, sets: 900, envelope: %s, inserts: [{name: letter, size: A4, fold: half, paper: 80 g/m2}%s]}",
		g.of("C5", "C4", "DL"), g.of("", ", {name: card, size: {height: 99 mm, length: 210 mm}, thickness: 0.3 mm, share: 40%}"))
	if g.odds(0.5) {
		g.line("  - {name: Flats, envelope: {size: C4}, inserts: [{name: book, size: A4, thickness: %s}]}", g.of("2 mm", "0.1 mm", "9 mm"))
	}
	if g.odds(0.5) {
		g.line("changeover: {always: %s, height: {time: 90 s, automatic: true}}", g.time())
	}
	if g.odds(0.5) {
		g.line("calendar: {days: %d, shifts: [{start: \"06:00\", length: %s}]}", 1+g.IntN(7), g.of("8 h", "1 min", "24 h"))
		g.line("season: {order: %s, weeks: [{name: first, sets: {Letters: %s}}, {name: second, sets: {Letters: 300}}]}", g.of("best", "as given"), g.of("1", "500", "4000"))
		g.line("plan: {goal: %s, jobs: [{name: one, job: Letters, sets: %s, due: {day: %d, time: \"12:00\"}}, {name: two, job: Letters, sets: 90}], staff: [{name: few, weeks: [%d], operators: %d}]}",
			g.of("lateness", "makespan"), g.of("1", "500", "4000"), 1+g.IntN(7), 1+g.IntN(3), g.IntN(3))
	}
}

func (g *grammar) costs() {
	sum := func() string { return g.of("0", "0.01", "20", "100000", "{low: 1, likely: 2, high: 3}", "1e9") }
	g.line("costs: {currency: EUR, price: %s, life: %s, rate: %s, line_hour: %s, operator_hour: %s, insert: %s, volume: %s%s}",
		sum(), g.of("8", "1", "30"), g.of("8%", "0%", "99%"), sum(), sum(), sum(), g.of("1", "1000000", "40000000", "{low: 4000, likely: 5000, high: 9000}"), g.maybe(0.3, "overtime: {beyond: 800, factor: 1.5}"))
}

// mistake returns a text with something wrong in it, or not any more what it was.
func (g *grammar) mistake(text string) string {
	at := g.IntN(len(text))
	lines := strings.SplitAfter(text, "\n")
	i := g.IntN(len(lines))
	switch g.IntN(5) {
	case 0:
		return text[:at]
	case 1:
		return text[:at] + g.of("{", "]", "\x1b", "é", "\n", ": ", "-1", "1e999", "&a ", "\r", "%") + text[at:]
	case 2:
		return strings.Join(append(lines[:i:i], lines[i+1:]...), "")
	case 3:
		return strings.Join(append(lines[:i+1:i+1], lines[i:]...), "")
	}
	return strings.Replace(text, g.of("1/", " s", "/h", "clear", "stop", "at: 0"), g.of("", "0", "-", "9999999999", " "), 1)
}

// length is how long a line stood, and seldom what is none.
func (g *grammar) length() string {
	if g.odds(0.005) {
		return g.of("1e9", "-1", "525600", "x", "0:01:30")
	}
	return g.of("1", "0", "0.5", "45", "12", "3")
}

// log writes stops and counts, as of the stations of a line, and now and then of none.
func (g *grammar) log() (stops, counts string) {
	end, sep := g.of("\n", "\n", "\r\n", "\r"), g.of(",", ",", ";", "\t")
	row := func(b *strings.Builder, cells ...string) { b.WriteString(strings.Join(cells, sep) + end) }
	var s, c strings.Builder
	row(&s, "start", "station", "cause", g.of("minutes", "seconds", "duration (s)"))
	row(&c, "station", "feeds")
	names := []string{"f0", "f1", "inserter", g.of("camera", "'=x", "=1+1", "é", "e\u0301", "\x1b[2J", "\u3164")}
	for i := range g.IntN(g.of2(2000, 60)) {
		row(&s, fmt.Sprintf("2026-03-%02d %02d:%02d:%02d", 1+i/800%28, 6+i/60%16, i%60, g.IntN(60)), g.of(names...),
			g.of("misfeed", "double", "jam", "coffee", "", "flap not open", "no-read"), g.length())
	}
	for _, name := range names {
		if g.odds(0.9) {
			feeds := g.of("10000", "1", "0", "1000000000", "250")
			if g.odds(0.03) {
				feeds = g.of("-1", "1e3", "")
			}
			row(&c, name, feeds)
		}
	}
	stops, counts = s.String(), c.String()
	if g.odds(0.1) {
		stops = g.mistake(stops + " ")
	}
	if g.odds(0.05) {
		counts = g.mistake(counts + " ")
	}
	return stops, counts
}
