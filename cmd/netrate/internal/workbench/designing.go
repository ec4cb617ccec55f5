package workbench

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/say"
	"netrate/scenarios"
)

// switchesShown is what may be bought, as switches: of each option one choice is taken.
type switchesShown struct {
	Options []switchShown
	Limit   string // of the price; "" for none
}

type switchShown struct {
	Name    string
	Choices []choiceShown
}

type choiceShown struct {
	Name, Shown string
	Price       float64
}

// switchesOf returns the switches of a scenario; none where nothing may be bought.
func switchesOf(sc *scenarios.Scenario) string {
	d := sc.Design
	if d == nil {
		return ""
	}
	x := switchesShown{}
	if p := d.Limits.Price; p != nil {
		x.Limit = say.Rounded(*p, 0)
	}
	for _, o := range d.Options {
		s := switchShown{Name: o.Name}
		for _, c := range o.Choices {
			shown := c.Name
			if c.Price != 0 {
				shown += ", " + say.Rounded(c.Price, 0)
			}
			s.Choices = append(s.Choices, choiceShown{c.Name, shown, c.Price})
		}
		x.Options = append(x.Options, s)
	}
	return region("design", x)
}

// pinDesign keeps the line with choices of the text's design as an alternative, and the line as it is
// before it, if nothing is kept yet.
func (w *work) pinDesign(op Op) (done, error) {
	sc, err := w.load()
	if err != nil {
		return done{}, errors.New("the text is no scenario yet: mend it first")
	}
	if sc.Design == nil {
		return done{}, errors.New("the text says nothing of what may be bought")
	}
	choices, err := sc.Design.Chosen(op.Choices)
	if err != nil {
		return done{}, err
	}
	taken := []string{scenarios.BaseName}
	for i := range sc.Variants { // beside which it will stand
		taken = append(taken, sc.Variants[i].Name)
	}
	name := w.pinName(designName(sc.Design, choices), taken...)
	text, err := scenarios.WithDesigned(w.Title, []byte(w.text), name, choices)
	if err != nil {
		return done{}, plainly(err)
	}
	var all []pin
	if len(w.pins) == 0 {
		all = append(all, pin{Name: scenarios.BaseName, Text: w.text, Job: w.job})
	}
	d, err := w.pinned(append(all, pin{Name: name, Text: string(text), Variant: name, Job: w.job})...)
	d.said = "Pinned, and compared with the others under Alternatives." + beyond(sc.Design, choices)
	return d, err
}

// beyond says that a design is too dear; "" if it is not. Nobody is kept from looking at it.
func beyond(d *scenarios.Design, choices []int) string {
	limit := d.Limits.Price
	if price := d.Price(choices); limit != nil && price > *limit {
		return fmt.Sprintf(" It costs %s, and the limit is %s.", say.Rounded(price, 0), say.Rounded(*limit, 0))
	}
	return ""
}

// longestDesign is how long a name that lists choices may be.
const longestDesign = 60

// designName returns what a design is called: by its choices, or how many they are.
func designName(d *scenarios.Design, choices []int) string {
	var names []string
	for i, k := range choices {
		if k > 0 {
			names = append(names, d.Options[i].Choices[k].Name)
		}
	}
	if name := strings.Join(names, ", "); len(name) <= longestDesign {
		return name
	}
	return fmt.Sprintf("%s and %d more", names[0], len(names)-1)
}

// frontierShown is the designs of a search as a picture to click in, what is looked for over the price.
type frontierShown struct {
	Points []frontierPoint
	Left   string // of the axes
	Right  string
	Low    string
	High   string
	Axis   string // what is drawn upwards
	Drawn  bool   // its intervals are of draws, in money
}

type frontierPoint struct {
	Name, Says   string
	Choices      []string
	X, Y         float64 // in the picture
	Bar          string  // its interval, as a path; "" if that is not known
	Buy, Through bool    // it is what is advised; it is best for its money
}

// The picture of a frontier.
const (
	frontierWide = 520
	frontierHigh = 240
	frontierEdge = 40
	frontierLeft = 70 // beside what the axis says
)

// designFound is what the page needs of the answer of netrate design.
type designFound struct {
	Answer    string `json:"finding"`
	Goal      string `json:"goal"`
	Advice    int    `json:"advice"`
	Finalists []struct {
		Name     string   `json:"name"`
		Choices  []string `json:"choices"`
		Price    float64  `json:"price"`
		Frontier bool     `json:"on_the_frontier"`
		Figure   struct {
			Mean float64  `json:"mean"`
			Low  *float64 `json:"low"` // nil if they are not known
			High *float64 `json:"high"`
		} `json:"in_the_goal"`
	} `json:"finalists"`
	Comparison struct {
		Money struct {
			Currency string `json:"currency"`
		} `json:"money"`
	} `json:"comparison"`
}

// frontierOf draws the designs of an answer as netrate design encodes it; nil if it is none.
func frontierOf(answer string) (*frontierShown, string) {
	var a designFound
	if json.NewDecoder(strings.NewReader(answer)).Decode(&a) != nil || a.Goal == "" || len(a.Finalists) == 0 {
		return nil, ""
	}
	var prices, ends []float64 // ends also of the intervals
	for i, f := range a.Finalists {
		low, high := a.interval(i)
		prices, ends = append(prices, f.Price), append(ends, low, high)
	}
	across := along(prices, frontierLeft, frontierWide-frontierEdge)
	up := along(ends, frontierHigh-frontierEdge, frontierEdge)
	axis, written := a.axis()
	shown := &frontierShown{
		Left: say.Rounded(slices.Min(prices), 0), Right: say.Rounded(slices.Max(prices), 0),
		Low: written(slices.Min(ends)), High: written(slices.Max(ends)), Axis: axis, Drawn: a.money(),
	}
	for i, f := range a.Finalists {
		p := frontierPoint{Name: f.Name, Choices: f.Choices, Buy: i == a.Advice, Says: a.says(i), Through: f.Frontier}
		p.X, p.Y = across(f.Price), up(f.Figure.Mean)
		if low, high := a.interval(i); low < high {
			p.Bar = fmt.Sprintf("M%.1f %.1fV%.1f", p.X, up(low), up(high))
		}
		shown.Points = append(shown.Points, p)
	}
	return shown, a.Answer
}

// along returns the scale on which numbers reach from one place to another; alike ones are in the middle.
func along(all []float64, from, to float64) func(float64) float64 {
	low, high := slices.Min(all), slices.Max(all)
	return func(x float64) float64 {
		if !(high > low) {
			return (from + to) / 2
		}
		return from + float64((x-low)/(high-low)*(to-from))
	}
}

// interval returns the ends of the interval of the figure of a design; the mean twice if it is not known.
func (a *designFound) interval(i int) (low, high float64) {
	x := &a.Finalists[i].Figure
	if x.Low == nil || x.High == nil {
		return x.Mean, x.Mean
	}
	return *x.Low, *x.High
}

// money reports whether what is looked for is money.
func (a *designFound) money() bool {
	return a.Goal == "net_present_value" || a.Goal == "cost_per_thousand"
}

// axis returns what is drawn upwards, and how a number of it is written.
func (a *designFound) axis() (name string, written func(float64) string) {
	whole := func(x float64) string { return say.Rounded(x, 0) }
	switch currency := a.Comparison.Money.Currency; a.Goal {
	case "net_present_value":
		return "net present value, " + currency, whole
	case "cost_per_thousand":
		return currency + " for 1,000, with the price", func(x float64) string { return say.Rounded(x, -2) }
	}
	return "good envelopes an hour", whole
}

// says returns what is said of a design.
func (a *designFound) says(i int) string {
	f := &a.Finalists[i]
	bought := strings.Join(f.Choices, ", ")
	if bought == "" {
		bought = "the line as it is"
	}
	return fmt.Sprintf("%s: %s, for %s: %s", f.Name, bought, say.Rounded(f.Price, 0), a.figure(i))
}

// figure says what a design comes to in what is looked for.
func (a *designFound) figure(i int) string {
	x := &a.Finalists[i].Figure
	low, high := a.interval(i)
	switch name, written := a.axis(); {
	case a.money():
		text := written(x.Mean) + " " + name
		if low < high {
			text += fmt.Sprintf("; 95 draws in 100 lie between %s and %s", written(low), written(high))
		}
		return text
	case !(low < high):
		return written(x.Mean) + " an hour, interval not known"
	}
	mean, half := say.Measured(x.Mean, (high-low)/2)
	return mean + " ± " + half + " an hour"
}

// Line returns the points of the frontier, joined by steps: a design does for more money, too.
func (x *frontierShown) Line() string {
	var b strings.Builder
	last := 0.0
	for _, p := range x.Points {
		if !p.Through {
			continue
		}
		if b.Len() > 0 {
			fmt.Fprintf(&b, " %.1f,%.1f", p.X, last)
		}
		fmt.Fprintf(&b, " %.1f,%.1f", p.X, p.Y)
		last = p.Y
	}
	return strings.TrimSpace(b.String())
}

// List returns the choices of a point as the page sends them back.
func (p frontierPoint) List() string { return listOf(p.Choices) }

// listOf returns names as the page sends them back.
func listOf(names []string) string {
	text, err := json.Marshal(names)
	if err != nil {
		panic("workbench: names cannot be written: " + err.Error())
	}
	return string(text)
}
