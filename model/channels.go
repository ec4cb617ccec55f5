package model

// What a line does with its document channels, be it one or several.

// channelsAfterCycle lets the line starve if a channel has no document for the next cycle, and when
// the line has stopped has all of them look anew.
func (s *Sim) channelsAfterCycle() {
	if s.clocks.Running() {
		for _, h := range s.channels {
			if !h.inStep() {
				s.standstill.starve(h)
				break
			}
		}
	}
	if s.clocks.Running() {
		return
	}
	for _, h := range s.channels {
		h.stands()
	}
}

// lacking returns the first channel that has no document for the next cycle; nil if all have one.
func (s *Sim) lacking() *channel {
	for _, h := range s.channels {
		if !h.isReady() {
			return h
		}
	}
	return nil
}

// starve lets the line stand until all channels have a document, of which one has none.
func (st *standstill) starve(h *channel) {
	if st.s.clocks.Running() {
		st.s.clocks.Halt()
		st.s.observe(LineHalts, h.index)
	}
	st.starving, st.since = &h.dry, st.s.clocks.Shop.Now()
	st.lacks(h.lack())
}

// lacks says why a line that starves does so from now on.
func (st *standstill) lacks(cause Cause) {
	p := st.starving
	p.cause = cause
	st.total(p).Count++
	st.s.observeStop(StopArises, p.station, cause)
}

// channelStops says that a line that starves does so for the fault for which the channel has
// stopped.
func (st *standstill) channelStops(h *channel) {
	if st.starving == &h.dry {
		st.starveFor(h)
	}
}

// starveFor has the line starve for a channel, or for another reason of it, from now on.
func (st *standstill) starveFor(h *channel) {
	st.book()
	st.s.observeStop(StopEnds, st.starving.station, st.starving.cause)
	st.starving = &h.dry
	st.lacks(h.lack())
}

// gathered is when a channel has gathered a document while the line starves: it runs if that was
// the last.
func (st *standstill) gathered() {
	switch h := st.s.lacking(); {
	case st.starving == nil:
	case h == nil:
		st.resume()
	case st.starving != &h.dry:
		st.starveFor(h)
	}
}

// resume ends the starving: there are all documents.
func (st *standstill) resume() {
	st.book()
	p := st.starving
	st.starving = nil
	st.s.observeStop(StopEnds, p.station, p.cause)
	st.s.start()
}
