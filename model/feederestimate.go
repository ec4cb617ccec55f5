package model

// Estimate takes misfeeds to come in streaks, if they do, and all else alone.
func (f *Feeder) Estimate(l *Line) AnalyticTerm {
	i := l.index(f)
	o := f.odds(l, false)
	// Doubles, jams and false calls are as likely after a misfeed as ever, but for the
	// misfeeds that take their place: a difference this sum leaves out.
	double, jam, falseCall := o[fedTwo]-o[fedNothing], o[fedJam]-o[fedTwo], o[calledFalsely]-o[fedJam]
	misfeeds, tooMany := f.misfeeds(l)
	t := term{fault: f.down(l, Misfeed)}
	t.Stop(jam, f.down(l, Jam))
	t.Lost = jam
	t.Stop(tooMany, t.fault)
	sets, stop := f.catchUps(l)
	t.answer(float64(misfeeds*f.Noticed)-tooMany, f.OnMisfeed, sets, l.besides(i, Misfeed))
	if f.OnMisfeed != Stop {
		t.Stop(stop*(float64(misfeeds*f.Noticed)-tooMany), t.fault)
	}
	t.fault = f.down(l, Double)
	t.answer(double*f.Caught, f.OnDouble, l.catchUp(i), l.besides(i, Double))
	t.answer(falseCall, f.OnDouble, 1, 0)
	l.goOn(i, &t)
	t.scale(f.share(l))
	return t.AnalyticTerm
}

// misfeeds returns the long-run share of attempts that are misfeeds, and of those that are
// the last of too many in a row and stop the line for that: a Markov chain on the misfeeds in
// a row up to now. In a lane that can come out of step it counts a row as one fault.
func (f *Feeder) misfeeds(l *Line) (all, tooMany float64) {
	first, again := f.odds(l, false)[fedNothing], f.odds(l, true)[fedNothing]
	limit, stops := f.Streak.StopAfter, f.OnMisfeed == Stop
	switch {
	case l.Matched(l.index(f)) && limit == 1:
		return first, first * f.Noticed
	case l.Matched(l.index(f)) || first == 0:
		return first, 0
	}
	// A streak starts with probability first and goes on with probability again; from the
	// limit on, or from the first one if any misfeed stops the line, one that is noticed
	// ends it. misfeeds and after are the misfeeds, and the attempts right after one, for
	// each attempt that is not right after a misfeed.
	misfeeds, after, next := 0.0, 0.0, first
	for k := 1; k < limit && !stops; k++ {
		misfeeds += next
		after += next
		next *= again
	}
	unseen := 1.0 // probability that a misfeed from here on does not end the streak
	if limit > 0 || stops {
		unseen = 1 - f.Noticed
	}
	if again*unseen == 1 {
		return 1, 0 // a streak that never ends
	}
	rest := next / (1 - float64(again*unseen))
	plain := 1 / (1 + after + float64(rest*unseen))
	if limit > 0 && !stops {
		tooMany = plain * rest * f.Noticed
	}
	return plain * (misfeeds + rest), tooMany
}

// catchUps returns how many sets a misfeed costs that is answered in line, and the
// probability that it ends with a stop all the same: the attempt for the catch-up set comes
// right after a misfeed, which may make another one likely.
func (f *Feeder) catchUps(l *Line) (sets, stop float64) {
	if !l.Matched(l.index(f)) {
		return 1, 0
	}
	tries := f.Stream.Tries
	if n := f.Streak.StopAfter; n > 0 {
		tries = min(tries, n-1)
	}
	sets, stop = 1, 1
	for range tries {
		sets += stop
		stop *= f.odds(l, true)[fedNothing] * f.Noticed
	}
	return sets, stop
}
