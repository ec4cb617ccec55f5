package study

import (
	"context"
	"fmt"
	"strings"

	"netrate/model"
	"netrate/model/runs"
	"netrate/sim"
)

// SensitivityAnalysis asks which rate or time of a line is worth most to improve: each is
// divided and multiplied by a factor, one at a time. All lines run the same replications, with
// common random numbers.
type SensitivityAnalysis struct {
	Line   *model.Line
	Mix    *runs.Mix        // its jobs, by their yearly volumes; nil for one kind of work
	Group  *model.LineGroup // instead of a line: several with one crew; else nil
	Factor float64          // above 1; 2 if it is 0
	Plan   sim.Plan
}

// SensitivityFactor is the factor if none is given: each rate and time is halved and doubled.
const SensitivityFactor = 2

// SensitivityAnswer is what each rate and time of a line does to its net rate.
type SensitivityAnswer struct {
	Settings Settings `json:"settings"`
	Basis    Basis    `json:"rests_on"`

	Factor  Number              `json:"factor"`
	NetRate NetRate             `json:"net_rate"` // of the line as it is
	Effects []SensitivityEffect `json:"effects"`  // of each by itself, the one that gains most when it is divided first
	Kinds   []SensitivityEffect `json:"kinds"`    // of all of a kind at once, in the same order

	Gains  bool        `json:"first_gains"`   // the first effect is shown to gain something when it is divided
	Matter int         `json:"effects_shown"` // the effects of single rates and times that are shown
	Base   *runs.Study `json:"-"`             // of the line as it is
}

// SensitivityEffect is what moving a rate or a time does, or all of a kind.
type SensitivityEffect struct {
	Name         string          `json:"name"`  // "inserter, jams", "restart delay" or "all 7 jams"
	Paths        []string        `json:"paths"` // what is moved
	Value        string          `json:"value"` // as it is; "" of several
	Lower        SensitivityMove `json:"lower"` // divided by the factor
	Higher       SensitivityMove `json:"higher"`
	NotShownLess bool            `json:"not_shown_less"` // than the first, when it is divided; the first is not

	Line    string `json:"line,omitempty"`    // of several with one crew, of a single one; "" for the crew
	Station string `json:"station,omitempty"` // of a single one; "" for the line and its crew
	Word    string `json:"what"`              // is moved, without its station
	Several bool   `json:"several"`           // all of a kind are moved
}

// SensitivityMove is what one move does.
type SensitivityMove struct {
	Value      string      `json:"value"`                // of a single rate or time, once moved
	Impossible string      `json:"impossible,omitempty"` // why the line cannot be so; "" if it was simulated
	Change     *Difference `json:"change"`               // of the net rate; nil if it is impossible
}

// Ask moves each rate and time. It calls told, if there is one, after each replication. When ctx
// is done first, the answer is that of the replications up to there; if there are none, it has
// no effects.
func (q *SensitivityAnalysis) Ask(ctx context.Context, told func(Sofar[SensitivityAnswer])) (*SensitivityAnswer, error) {
	factor := q.Factor
	if factor == 0 {
		factor = SensitivityFactor
	}
	if q.Line == nil && q.Group == nil {
		return nil, errNoLine
	}
	if !(factor > 1) {
		return nil, fmt.Errorf("the factor of a sensitivity analysis is %g, want a number above 1", factor)
	}
	work := works{workOf(q.Line, q.Mix, q.Group)}
	means, err := work.atMeans()
	if err != nil {
		return nil, err
	}
	answer := func(found *runs.Sensitivity) *SensitivityAnswer {
		a := sensitivityAnswer(found)
		a.Basis = work.basis()
		return a
	}
	var watch func(int, func() *runs.Sensitivity)
	if told != nil {
		lines := 0
		watch = func(replication int, soFar func() *runs.Sensitivity) {
			if lines == 0 {
				lines = soFar().Lines()
			}
			told(Sofar[SensitivityAnswer]{
				Done: replication + 1, Most: q.Plan.Max, Lines: lines,
				Answer: func() *SensitivityAnswer { return answer(soFar()) },
			})
		}
	}
	found, err := runs.Sensitivities(ctx, means[0], q.Plan, factor, Level, watch)
	if err != nil {
		return nil, err
	}
	return answer(found), nil
}

func sensitivityAnswer(found *runs.Sensitivity) *SensitivityAnswer {
	base := found.Base
	a := &SensitivityAnswer{
		Factor: Number(found.Factor), Base: base, Settings: SettingsOf(base.Plan, len(base.Shifts), base.Ending),
		Effects: []SensitivityEffect{}, Kinds: []SensitivityEffect{},
	}
	if len(base.Shifts) == 0 {
		return a
	}
	a.NetRate = NetRateOf(base)
	for _, x := range found.Effects {
		a.Effects = append(a.Effects, sensitivityEffect(x))
	}
	for _, x := range found.Kinds {
		a.Kinds = append(a.Kinds, sensitivityEffect(x))
	}
	for i := range a.Effects {
		if x := &a.Effects[i]; x.Lower.shown() || x.Higher.shown() {
			a.Matter++
		}
	}
	if len(a.Effects) > 0 {
		first := a.Effects[0].Lower
		a.Gains = first.shown() && first.Change.Mean > 0
	}
	return a
}

// shown reports whether a move is shown to change anything.
func (m *SensitivityMove) shown() bool { return m.Change != nil && m.Change.Shown() }

// Rivals returns the effects that are not shown to gain less than the first.
func (a *SensitivityAnswer) Rivals() []SensitivityEffect {
	var rivals []SensitivityEffect
	for _, x := range a.Effects {
		if x.NotShownLess {
			rivals = append(rivals, x)
		}
	}
	return rivals
}

func sensitivityEffect(x runs.Effect) SensitivityEffect {
	first := x.Parameters[0]
	e := SensitivityEffect{
		Lower: sensitivityMove(x.Lower), Higher: sensitivityMove(x.Higher), NotShownLess: x.Rival,
		Several: x.Kind != "",
	}
	for _, v := range x.Parameters {
		e.Paths = append(e.Paths, v.Path())
	}
	if e.Several {
		e.Word = x.Kind
		e.Name = fmt.Sprintf("all %d %s", len(x.Parameters), x.Kind)
		return e
	}
	e.Value, e.Line, e.Station, e.Word = first.Value, first.Line, first.Station, sensitivityWord(first)
	if e.Name = e.Word; e.Station != "" {
		e.Name = e.Station + ", " + e.Word
	}
	if e.Line != "" {
		e.Name = e.Line + ": " + e.Name
	}
	return e
}

func sensitivityMove(m runs.Move) SensitivityMove {
	if m.Impossible != nil {
		return SensitivityMove{Value: m.Value, Impossible: m.Impossible.Error()}
	}
	return SensitivityMove{Value: m.Value, Change: DifferenceOf(m.NetRate)}
}

// sensitivityWords are the rates and times in the words of the trade.
var sensitivityWords = map[string]string{
	"line.restart": "restart delay", "crew.walk": "walking time",
	"misfeed": "misfeeds", "double": "doubles", "jam": "jams", "false_calls": "false calls",
	"streak.again": "misfeeds after a misfeed", "clear": "clearing time",
	"envelope_misfeed": "envelope misfeeds", "flap": "shut flaps",
	"crew.wrong_repair": "sets put right wrongly", "crew.wrong_realign": "streams realigned wrongly", "misread": "misreads",
	"wrong_stock.per_refill": "wrong stock", "wrong_stock.found_after": "time until a wrong stock is found", "wrong_stock.change": "time to change a wrong stock",
	"no_read": "no-reads", "false_alarm": "false alarms", "stream.realign": "realigning time",
	"hopper.refill": "refilling time", "bin.empty": "emptying time", "belt.sweep": "sweeping time",
}

func sensitivityWord(v model.Parameter) string {
	if word := sensitivityWords[v.Name]; word != "" {
		return word
	}
	if fault, own := strings.CutPrefix(v.Name, "clear."); own {
		return "clearing time, " + strings.ReplaceAll(fault, "_", " ")
	}
	if v.Stock() {
		return "refilling time"
	}
	return strings.NewReplacer("_", " ", ".", " ").Replace(v.Name)
}
