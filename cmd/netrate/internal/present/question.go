package present

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
)

// A file may say what it asks, in a sentence. Of some questions it is known what answers them; all
// others have what was found, and no more.

// inItsWords answers the question of a file with yes or no, or says that it is open, where it asks a thing
// that is known of exactly one alternative, by its name; nothing else: "Does Birch pay?" was once answered of
// Cedar. It wants a comparison that is done, and is no selection.
func (c Comparison) inItsWords() string {
	if c.Selection != nil || len(c.Lines[0].Study.Shifts) < 2 {
		return ""
	}
	asked, i := c.askedOf(strings.ToLower(c.Origins[0].Scenario.Question))
	var says []string
	if strings.Contains(asked, "fastest line") && strings.Contains(asked, "best") {
		says = append(says, c.fastestIsBest())
	}
	for _, known := range []struct {
		asked  *regexp.Regexp
		answer func(int) string
	}{
		{winsBackAsked, c.winsBack},
		{paysAsked, c.pays},
		{canInsteadAsked, c.canInstead},
	} {
		if i > 0 && known.asked.MatchString(asked) {
			says = append(says, known.answer(i))
		}
	}
	return strings.TrimSpace(strings.Join(says, " "))
}

// The questions that are known, X for the alternative and BASE for the base. Each is a clause of its own:
// "When does X pay?" and "Does X pay at half the volume?" ask something else.
var (
	paysAsked       = clause(`(?:does|do|will|would) X pay(?: for itself| for themselves| off)?(?: (?:against|instead of) BASE)?`)
	winsBackAsked   = clause(`(?:does|do|will|would) X win (?:it|this|that) back`, `(?:does|do|will|would) X win back what [^,;?]+`)
	canInsteadAsked = clause(`can X (?:then )?(?:do|attend to) [^,;?]+ instead of [^,;?]+`)
)

// clause matches a text that has one of some patterns as a clause.
func clause(patterns ...string) *regexp.Regexp {
	return regexp.MustCompile(`(?:^|[.,;:?!] *|\b(?:and|or) +)(?:` + strings.Join(patterns, "|") + `) *(?:$|[.,;?!]| and )`)
}

// askedOf returns a question with X for the only alternative beside the base that it names, BASE for the base, and
// which that is: 0 if it names none, or several. Where there is one alone, "it" and a part of its name are enough.
func (c Comparison) askedOf(question string) (asked string, only int) {
	asked = strings.NewReplacer("“", "", "”", "", `"`, "").Replace(question)
	longest := page.All(len(c.Lines)) // first: a name may begin like another
	slices.SortStableFunc(longest, func(i, k int) int { return len(c.Lines[k].Name) - len(c.Lines[i].Name) })
	named := 0
	for _, i := range longest {
		as := "X"
		if i == 0 {
			as = "BASE"
		}
		text := putFor(asked, strings.ToLower(c.Lines[i].Name), as)
		if text != asked && i > 0 {
			named, only = named+1, i
		}
		asked = text
	}
	switch {
	case named > 1:
		only = 0
	case named == 0 && len(c.Lines) == 2:
		if text := putForOnly(asked, strings.ToLower(c.Lines[1].Name)); text != asked {
			return text, 1
		}
	}
	return asked, only
}

// ofWhat is what a question is about, between its verbs.
var ofWhat = regexp.MustCompile(`\b((?:does|do|will|would|can) )([^.,;:?!]+?)( (?:pay|win|do|attend)\b)`)

// putForOnly puts X for what a question is about, if that is "it" or stands in the name of the only alternative.
func putForOnly(text, name string) string {
	return ofWhat.ReplaceAllStringFunc(text, func(found string) string {
		m := ofWhat.FindStringSubmatch(found)
		if m[2] == "it" || strings.Contains(" "+name+" ", " "+m[2]+" ") {
			return m[1] + "X" + m[3]
		}
		return found
	})
}

// putFor puts a word for a name, wherever it stands as words of its own.
func putFor(text, name, word string) string {
	whole := regexp.MustCompile(`(^|[^\pL\pN])` + regexp.QuoteMeta(name) + `($|[^\pL\pN])`)
	return whole.ReplaceAllString(text, "${1}"+word+"${2}")
}

// asked returns what answers the question and the target of the file, in their own words; what the
// table beside it says is said on a page alone.
func (c Comparison) asked(page bool) string {
	text := c.inItsWords() + " " + c.targetWords()
	if page && strings.Contains(strings.ToLower(c.Origins[0].Scenario.Question), "cost in good envelopes") {
		text = c.costsInRate() + " " + text
	}
	return strings.TrimSpace(text)
}

// headline returns what the screen, the page and the JSON of a comparison begin with: what answers the question
// of the file and, where there is money, which line costs least over the life; else which delivers most.
func (c Comparison) headline() string {
	found, _, _ := strings.Cut(ComparisonFinding(c.ComparisonAnswer), "\n\n")
	if c.Money != nil {
		found = worthHeadline(c.Money)
	}
	return strings.TrimSpace(c.inItsWords() + " " + found)
}

// moneyFirst returns what a page begins with where there is money: the headline, what is worth most, and
// whether the target is reached.
func (c Comparison) moneyFirst() string {
	reached, help, _ := strings.Cut(c.targetWords(), ". ")
	if help != "" {
		reached += "."
	}
	text := strings.TrimSpace(c.headline() + " " + worthPresent(c.Money) + " " + reached)
	if help != "" {
		text += "\n\n" + help
	}
	return text
}

// against returns the difference of an alternative from the base, in words.
func (c Comparison) against(i int) string {
	verb := " delivers "
	if !c.Compared[0][i].Difference.Shown() {
		verb = " is "
	}
	return c.called(i) + verb + moreOrLess(c.Compared[0][i].Difference) + " than " + c.called(0)
}

// nearly is from where on a probability is taken for yes, and down to one less that for no.
const nearly = 0.95

// The answers to a question.
const (
	isYes  = "Yes"
	isNo   = "No"
	isOpen = "That is open"
)

// verdict answers a question by the probability that it is so.
func verdict(p float64) string {
	switch {
	case p >= nearly:
		return isYes
	case p <= 1-nearly:
		return isNo
	}
	return isOpen
}

// leftOpen says that a question has no answer yet, and, where draws of what is uncertain tell it, with which
// probability an alternative delivers more than the base.
func (c Comparison) leftOpen(i int) string {
	if c.Uncertainty == nil {
		return isOpen + ": " + c.against(i)
	}
	return fmt.Sprintf("%s: %s delivers more than %s with a probability of %s", isOpen, c.called(i), c.called(0), chance(*c.Uncertainty.Lines[i].Sure, c.Uncertainty.Rival.Draws))
}

// fastestIsBest says whether the line that runs fastest delivers most.
func (c Comparison) fastestIsBest() string {
	fastest := 0
	for i := range c.Lines {
		if c.Lines[i].Of.Line == nil || c.mixed() {
			return ""
		}
		if c.Lines[i].Of.Line.RunSpeed() > c.Lines[fastest].Of.Line.RunSpeed() {
			fastest = i
		}
	}
	runs := fmt.Sprintf("%s runs fastest, at %s cycles an hour", say.Capital(c.called(fastest)), say.Exact(c.Lines[fastest].Of.Line.RunSpeed()))
	switch {
	case !c.Best.Shown:
		return runs + ", and whether it delivers most is not shown."
	case fastest == c.Leader:
		return runs + ", and delivers most."
	}
	return fmt.Sprintf("%s, but %s delivers more.", runs, c.called(c.Leader))
}

// costsInRate says what each alternative delivers more or less than the base. A selection does not know.
func (c Comparison) costsInRate() string {
	if c.Selection != nil || c.Uncertainty != nil || len(c.Lines) > 4 {
		return ""
	}
	var all []string
	for i := 1; i < len(c.Lines); i++ {
		all = append(all, c.against(i))
	}
	return say.Capital(strings.Join(all, "; ")) + "."
}

// winsBack says whether an alternative delivers at least what the base does.
func (c Comparison) winsBack(i int) string {
	switch d := c.Compared[0][i].Difference; {
	case d.Low() >= 0:
		return fmt.Sprintf("Yes, %s wins it back.", c.called(i))
	case d.High() < 0:
		return fmt.Sprintf("No, %s does not win it back.", c.called(i))
	}
	return c.leftOpen(i) + "."
}

// pays says whether an alternative pays: in money where the file has costs, and else in good
// envelopes.
func (c Comparison) pays(i int) string {
	if c.Money != nil {
		return c.paysInMoney(i)
	}
	switch d := c.Compared[0][i].Difference; {
	case d.Low() > 0:
		return fmt.Sprintf("Yes, in good envelopes: %s. The file has no costs.", c.against(i))
	case d.High() < 0:
		return fmt.Sprintf("No: %s. The file has no costs.", c.against(i))
	}
	return c.leftOpen(i) + ". The file has no costs."
}

// paysInMoney says yes, no or that it is open, by the probability that an alternative pays.
func (c Comparison) paysInMoney(i int) string {
	chance := c.Money.Worth.Gains[i].Chance
	does := worthVerb(c.Money, i)
	is := verdict(chance.Share)
	if is == isOpen {
		return fmt.Sprintf("Whether %s %s is open: the probability is %s.", c.called(i), does, worthChance(chance))
	}
	return fmt.Sprintf("%s: the probability that %s %s is %s.", is, c.called(i), does, worthChance(chance))
}

// canInstead says what it costs to do with less.
func (c Comparison) canInstead(i int) string {
	d := c.Compared[0][i].Difference
	switch {
	case d.Low() >= 0:
		return fmt.Sprintf("Yes: %s delivers no less than %s.", c.called(i), c.called(0))
	case d.High() >= 0:
		return c.leftOpen(i) + "."
	}
	part := -d.Mean / float64(c.Lines[0].NetRate.Mean)
	return fmt.Sprintf("They can, but %s delivers %s than %s, %s of it.", c.called(i), moreOrLess(d), c.called(0), say.Percent(part, d.Half/float64(c.Lines[0].NetRate.Mean)))
}
