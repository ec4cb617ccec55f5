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

// frontierShown is the designs of a search as a picture to click in, price against net rate.
type frontierShown struct {
	Points []frontierPoint
	Left   string // of the axes
	Right  string
	Low    string
	High   string
}

type frontierPoint struct {
	Name, Says   string
	Choices      []string
	X, Y         float64 // in the picture
	Bar          string  // its interval, as a path; "" if that is not known
	Buy, Through bool    // it is what is advised; none delivers as much for no more money
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
	Advice    int    `json:"advice"`
	Finalists []struct {
		Name    string   `json:"name"`
		Choices []string `json:"choices"`
		Price   float64  `json:"price"`
	} `json:"finalists"`
	Comparison struct {
		Lines []struct {
			NetRate struct {
				Mean float64  `json:"mean"`
				Half *float64 `json:"half"` // nil if it is not known
			} `json:"net_rate"`
		} `json:"lines"`
	} `json:"comparison"`
}

// frontierOf draws the designs of an answer as netrate design encodes it; nil if it is none.
func frontierOf(answer string) (*frontierShown, string) {
	var a designFound
	if json.NewDecoder(strings.NewReader(answer)).Decode(&a) != nil || len(a.Finalists) == 0 || len(a.Finalists) != len(a.Comparison.Lines) {
		return nil, ""
	}
	var prices, ends []float64 // ends also of the intervals
	for i, f := range a.Finalists {
		low, high := a.interval(i)
		prices, ends = append(prices, f.Price), append(ends, low, high)
	}
	across := along(prices, frontierLeft, frontierWide-frontierEdge)
	up := along(ends, frontierHigh-frontierEdge, frontierEdge)
	shown := &frontierShown{
		Left: say.Rounded(slices.Min(prices), 0), Right: say.Rounded(slices.Max(prices), 0),
		Low: say.Rounded(slices.Min(ends), 0), High: say.Rounded(slices.Max(ends), 0),
	}
	for i, f := range a.Finalists {
		p := frontierPoint{Name: f.Name, Choices: f.Choices, Buy: i == a.Advice, Says: a.says(i), Through: a.delivers(i)}
		p.X, p.Y = across(f.Price), up(a.Comparison.Lines[i].NetRate.Mean)
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

// interval returns the ends of the interval of what a design delivers; the mean twice if it is not known.
func (a *designFound) interval(i int) (low, high float64) {
	r := &a.Comparison.Lines[i].NetRate
	if r.Half == nil {
		return r.Mean, r.Mean
	}
	return r.Mean - *r.Half, r.Mean + *r.Half
}

// says returns what is said of a design.
func (a *designFound) says(i int) string {
	f, r := &a.Finalists[i], &a.Comparison.Lines[i].NetRate
	bought := strings.Join(f.Choices, ", ")
	if bought == "" {
		bought = "the line as it is"
	}
	rate := say.Rounded(r.Mean, 0) + " an hour, interval not known"
	if r.Half != nil {
		mean, half := say.Measured(r.Mean, *r.Half)
		rate = mean + " ± " + half + " an hour"
	}
	return fmt.Sprintf("%s: %s, for %s: %s", f.Name, bought, say.Rounded(f.Price, 0), rate)
}

// delivers reports whether no other design delivers more for no more money, or as much before it. That
// is not asked of the search: where its goal is money, what is best for a price need not deliver most.
func (a *designFound) delivers(i int) bool {
	for k, f := range a.Finalists {
		more := a.Comparison.Lines[k].NetRate.Mean - a.Comparison.Lines[i].NetRate.Mean
		if f.Price <= a.Finalists[i].Price && (more > 0 || more == 0 && k < i) {
			return false
		}
	}
	return true
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
func (p frontierPoint) List() string {
	text, err := json.Marshal(p.Choices)
	if err != nil {
		panic("workbench: names cannot be written: " + err.Error())
	}
	return string(text)
}
