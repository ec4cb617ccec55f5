package plots

// A Look is how a station is drawn.
type Look int

// The looks.
const (
	FeederLook    Look = iota // a hopper
	ChannelLook               // a stack of sheets
	EnvelopeLook              // a hopper of envelopes
	ReaderLook                // an eye
	TrackGateLook             // a tray below the track
	InserterLook              // an envelope across the track
	ExitGateLook              // a tray with an envelope
	DeliveryLook              // a belt
	StationLook               // anything else
	looksOfStations
)

// trackSide is where a station stands.
type trackSide int

const (
	aboveTrack trackSide = iota
	acrossTrack
	alongTrack
	belowTrack
)

func (l Look) side() trackSide {
	switch l {
	case TrackGateLook, ExitGateLook:
		return belowTrack
	case InserterLook:
		return acrossTrack
	case DeliveryLook:
		return alongTrack
	case FeederLook, ChannelLook, EnvelopeLook, ReaderLook, StationLook, looksOfStations:
	}
	return aboveTrack
}

// A manner is how strong a station is drawn.
type manner struct {
	fill, rim colour
	width     float64
	dashes    []float64
}

var (
	plainManner = manner{fill: tint(blue, 0.2), rim: blue, width: 0.9}
	quietManner = manner{fill: tint(night, 0.05), rim: faint, width: 0.8}
	thickManner = manner{fill: tint(blue, 0.2), rim: blue, width: 2}
	ghostManner = manner{fill: paper, rim: muted, width: 0.9, dashes: []float64{1.5, 1.5}}
)

// manner returns how a station of the line itself, or of another, is drawn.
func (s Placed) manner(own bool) manner {
	switch {
	case own:
		return plainManner
	case s.Change == TakenAway:
		return ghostManner
	case s.Change == Altered, s.Otherwise:
		return thickManner
	case s.Change == Added, s.Change == Moved:
		return plainManner
	}
	return quietManner
}

// outlines are the outlines of the looks, in a square from 0 to 1, y downwards; lines are what is
// drawn within.
var outlines = [looksOfStations]struct {
	corners []point
	lines   [][]point
}{
	FeederLook:    {[]point{{0.05, 0}, {0.95, 0}, {0.72, 1}, {0.28, 1}}, [][]point{{{0.14, 0.35}, {0.86, 0.35}}}},
	ChannelLook:   {[]point{{0.1, 0}, {0.9, 0}, {0.9, 1}, {0.1, 1}}, [][]point{{{0.1, 0.25}, {0.9, 0.25}}, {{0.1, 0.5}, {0.9, 0.5}}, {{0.1, 0.75}, {0.9, 0.75}}}},
	EnvelopeLook:  {[]point{{0.05, 0}, {0.95, 0}, {0.72, 1}, {0.28, 1}}, [][]point{{{0.08, 0.08}, {0.5, 0.6}, {0.92, 0.08}}}},
	ReaderLook:    {[]point{{0.5, 0.1}, {0.95, 0.55}, {0.5, 1}, {0.05, 0.55}}, [][]point{{{0.4, 0.45}, {0.6, 0.45}, {0.6, 0.65}, {0.4, 0.65}, {0.4, 0.45}}}},
	TrackGateLook: {[]point{{0, 0.45}, {1, 0.45}, {1, 1}, {0, 1}}, [][]point{{{0.1, 0}, {0.5, 0.45}}}},
	InserterLook:  {[]point{{0, 0}, {1, 0}, {1, 1}, {0, 1}}, [][]point{{{0, 0}, {0.5, 0.5}, {1, 0}}}},
	ExitGateLook:  {[]point{{0, 0.45}, {1, 0.45}, {1, 1}, {0, 1}}, [][]point{{{0.1, 0}, {0.5, 0.45}}, {{0, 0.45}, {0.5, 0.8}, {1, 0.45}}}},
	DeliveryLook:  {[]point{{0, 0.25}, {0.12, 0}, {0.88, 0}, {1, 0.25}, {1, 0.75}, {0.88, 1}, {0.12, 1}, {0, 0.75}}, [][]point{{{0.25, 0}, {0.25, 1}}, {{0.5, 0}, {0.5, 1}}, {{0.75, 0}, {0.75, 1}}}},
	StationLook:   {[]point{{0.1, 0.1}, {0.9, 0.1}, {0.9, 1}, {0.1, 1}}, nil},
}

// draw returns the sign of a look in a box.
func (l Look) draw(b box, m manner, tip string) []mark {
	at := func(points []point) []point {
		placed := make([]point, len(points))
		for i, p := range points {
			placed[i] = point{b.left + p.x*(b.right-b.left), b.top + p.y*(b.bottom-b.top)}
		}
		return placed
	}
	o := outlines[l]
	corners := at(o.corners)
	p := pen{colour: m.rim, width: m.width, dashes: m.dashes}
	marks := []mark{
		area{corners: corners, fill: m.fill, tip: tip},
		stroke{points: append(corners, corners[0], corners[1]), pen: p},
	}
	if m.dashes != nil { // a place, not a station
		return marks
	}
	inner := pen{colour: m.rim, width: min(m.width, 0.9)}
	for _, line := range o.lines {
		marks = append(marks, stroke{points: at(line), pen: inner})
	}
	return marks
}
