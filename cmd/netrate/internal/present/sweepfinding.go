package present

import (
	"fmt"
	"math"
	"strings"

	"netrate/cmd/netrate/internal/page"
	"netrate/cmd/netrate/internal/say"
	"netrate/model/study"
)

// SweepFinding returns what a sweep found, in a few sentences.
func SweepFinding(a *study.SweepAnswer) string {
	return sweepRates(a) + sweepCap(a) + sweepDefects(a)
}

// sweepRates says where the net rate is highest.
func sweepRates(a *study.SweepAnswer) string {
	switch a.Shape {
	case study.SweepUnknown:
		return "One " + page.Period(a.Points[0].Study.Line) + " alone does not say how far these net rates may be off."
	case study.SweepFlat:
		return fmt.Sprintf("No difference is shown: at the best, %s, the net rate is %s.", SweepLabel(a, a.Best), sweepNetRate(a, a.Best))
	case study.SweepEnough, study.SweepRising:
		return sweepEnough(a)
	case study.SweepToEdge:
		return sweepEdge(a)
	case study.SweepPeaked:
		return sweepPeak(a)
	default:
		return sweepBest(a)
	}
}

// sweepBest names the best point and how many others may be as good.
func sweepBest(a *study.SweepAnswer) string {
	best := SweepLabel(a, a.Best)
	var rivals []string
	for _, i := range a.Rivals() {
		rivals = append(rivals, SweepLabel(a, i))
	}
	switch n := len(rivals); {
	case n == 0:
		return fmt.Sprintf("%s delivers most: %s. The next, %s, delivers %s less.", best, sweepNetRate(a, a.Best), SweepLabel(a, int(a.Next)), say.Size(a.Points[a.Next].FromBest.Estimate()))
	case n <= 2:
		return fmt.Sprintf("%s leads with %s. Not shown to be worse: %s.", best, sweepNetRate(a, a.Best), strings.Join(rivals, "; "))
	default:
		return fmt.Sprintf("%s leads with %s. %d others are not shown to be worse.", best, sweepNetRate(a, a.Best), n)
	}
}

// sweepEnough names the lowest value that is not shown to be worse than the best.
func sweepEnough(a *study.SweepAnswer) string {
	n := int(a.Enough)
	text := fmt.Sprintf("At %s the net rate is %s.", SweepLabel(a, n), sweepNetRate(a, n))
	if n == len(a.Points)-1 {
		return text + fmt.Sprintf(" It is still rising there, by %s from %s: the best may lie beyond.", say.Size(a.Points[n].Change.Estimate()), sweepValue(a, n-1))
	}
	more, next := say.Gain(a.Points[n+1].Change.Estimate()), sweepValue(a, n+1)
	if a.Points[n+1].NotShownWorse {
		return text + fmt.Sprintf(" More brings nothing shown: %s from %s to %s.", more, sweepValue(a, n), next)
	}
	return text + fmt.Sprintf(" More does harm: %s from %s to %s.", more, sweepValue(a, n), next)
}

// sweepEdge tells of a net rate that is highest at an end of the range.
func sweepEdge(a *study.SweepAnswer) string {
	e, way, all, end := a.Edge, "falls", "", ""
	if e.Rises {
		way = "rises"
	}
	if e.AllTheWay {
		all = " all the way"
	}
	switch {
	case e.NothingAbove:
		end = fmt.Sprintf(" Above %s nothing changes.", sweepValue(a, a.Last))
	case e.Beyond:
		end = " The best may lie beyond."
	}
	return fmt.Sprintf("Net rate %s%s with %s from %s to %s: %s at %s, %s above %s.%s",
		way, all, a.Vary[0].Path, sweepValue(a, 0), sweepValue(a, a.Last), sweepNetRate(a, e.To), sweepValue(a, e.To),
		say.Size(e.Gain.Estimate()), sweepValue(a, e.From), end)
}

func sweepPeak(a *study.SweepAnswer) string {
	p, v := a.Peak, &a.Vary[0]
	width := float64(p.High-p.Low) / 2
	text := fmt.Sprintf("Net rate peaks at %s %s (95 %%: %s to %s). At %s, the best simulated, it is %s.",
		v.Path, sweepPlace(v, p.At, width), sweepPlace(v, p.Low, width), sweepPlace(v, p.High, width), sweepValue(a, a.Best), sweepNetRate(a, a.Best))
	if p.Beyond {
		text += " The range ends within the interval: the peak may lie beyond."
	}
	return text
}

// sweepCap says where the line runs no faster, though it is asked to.
func sweepCap(a *study.SweepAnswer) string {
	if a.Cap == nil {
		return ""
	}
	allow := " allow"
	if len(a.Cap.Stations) == 1 {
		allow = " allows"
	}
	most := fmt.Sprintf("%s/h, the most that %s", say.Exact(float64(a.Cap.Speed)), say.List(a.Cap.Stations)+allow)
	if a.Cap.Exceeded {
		return " Asked for more, the line runs at " + most + "."
	}
	return " It cannot run faster than " + most + "."
}

// sweepDefects warns of a best point that delivers far more defects than another.
func sweepDefects(a *study.SweepAnswer) string {
	if a.Cleaner < 0 {
		return ""
	}
	return fmt.Sprintf(" But %s of a million delivered are defective; at %s, %s.",
		SweepDefective(&a.Points[a.Best]), SweepLabel(a, int(a.Cleaner)), SweepDefective(&a.Points[a.Cleaner]))
}

// SweepDefective returns how many of a million delivered envelopes are defective.
func SweepDefective(p *study.SweepPoint) string {
	if p.Defective == 0 {
		return "none"
	}
	return say.Rough(float64(p.Defective), float64(p.DefectiveHalf))
}

// sweepPlace returns a place between the values of a parameter as people write it, with the
// digits that an interval of the given half-width supports.
func sweepPlace(v *study.SweepParameter, at study.Number, half float64) string {
	x, first := float64(at), v.Values[0].Text
	half = min(half, math.Abs(x)/10) // or nothing would be left of what is near zero
	switch {
	case v.Unit == "/h":
		return say.Rough(x, half) + "/h"
	case v.Unit != "":
		return say.Rough(x, half) + " " + v.Unit
	case strings.HasSuffix(first, "%"):
		return say.Rough(100*x, 100*half) + "%"
	case strings.Contains(first, "/"):
		return "1/" + say.Rough(1/x, half/(x*x))
	}
	return say.Rough(x, half)
}

// SweepPaths returns what was varied: "crew.operators and crew.walk".
func SweepPaths(a *study.SweepAnswer) string {
	var all []string
	for i := range a.Vary {
		all = append(all, a.Vary[i].Path)
	}
	return say.List(all)
}

// SweepLabel returns where a point is: "crew.operators 2, crew.walk 10 s".
func SweepLabel(a *study.SweepAnswer, point int) string {
	var all []string
	for i, v := range a.Points[point].Values {
		all = append(all, a.Vary[i].Path+" "+v)
	}
	return strings.Join(all, ", ")
}

// sweepValue returns the value of a point of one parameter.
func sweepValue(a *study.SweepAnswer, point int) string { return a.Points[point].Values[0] }

// sweepNetRate returns the net rate of a point: "13,720 ± 40 good envelopes an hour".
func sweepNetRate(a *study.SweepAnswer, point int) string {
	return netRate(a.Points[point].NetRate) + " good envelopes an hour"
}
