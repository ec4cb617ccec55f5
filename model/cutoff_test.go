package model

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
)

// What is cut off of the worst lots and days is what the simulated line has fewer of its faults: a
// feeder or an inserter that jams three times in ten fails at most three times as often. (A jam takes
// its piece, so that bad lots last no longer than good ones.)
func TestCutOffIsWhatIsMissing(t *testing.T) {
	for name, jamming := range map[string]func(*Line, float64) (*Lots, int, Fault){
		"feeder": func(l *Line, p float64) (*Lots, int, Fault) {
			f := firstOf[*Feeder](l)
			f.Jam = p
			return &f.Lots, 0, Jam
		},
		"inserter": func(l *Line, p float64) (*Lots, int, Fault) {
			n := firstOf[*Inserter](l)
			n.EnvelopeMisfeed, n.Flap, n.Jam = 0, 0, p
			return &n.Lots, l.First(Inserts), InsertionJam
		},
	} {
		t.Run(name, func(t *testing.T) { cutOffAt(t, jamming) })
	}
}

func cutOffAt(t *testing.T, jamming func(*Line, float64) (*Lots, int, Fault)) {
	t.Helper()
	const p, sets, jobs = 0.3, 20_000, 50
	for name, give := range map[string]func(*Line, *Lots){
		"gamma lots":    func(_ *Line, x *Lots) { *x = Lots{Of: 400, CV: 1.5} },
		"two kinds":     func(_ *Line, x *Lots) { *x = Lots{Of: 400, Bad: 0.1, Times: 20} },
		"a list":        func(_ *Line, x *Lots) { *x = Lots{Of: 400, Factors: []float64{0, 0, 1, 1, 1, 1, 8}} },
		"gamma days":    func(l *Line, _ *Lots) { l.Days = Days{CV: 1.5, Hours: 0.05} },
		"days and lots": func(l *Line, x *Lots) { l.Days, *x = Days{CV: 1, Hours: 0.05}, Lots{Of: 400, CV: 1} },
		"drift": func(l *Line, x *Lots) {
			l.Days = Days{Hours: 0.05, Level: 0.8, Drift: []DriftStep{{0.025, 4}}}
			*x = Lots{Of: 400, CV: 0.5}
		},
	} {
		t.Run(name, func(t *testing.T) {
			l := shippingLine(0, 1)
			lots, station, jam := jamming(l, p)
			give(l, lots)
			l.Job = Job{Sets: sets}
			cut := l.CutOffs()
			require.Len(t, cut, 1)
			assert.Equal(t, l.Stations[station].Where().Name, cut[0].Station)
			assert.InEpsilon(t, 3, cut[0].Most, 1e-12)
			usual := p * sets * l.Days.MeanDrift(1)
			s, err := New(l)
			require.NoError(t, err)
			var found []float64
			var out Outcome
			for k := range jobs {
				require.NoError(t, s.Run(7, k, &out))
				found = append(found, float64(out.Stations[station].Faults[jam]))
			}
			within(t, found, usual*(1-cut[0].Share), "jams")
			mean, sd := stat.MeanStdDev(found, nil)
			assert.Greater(t, usual-mean, 3.89*sd/math.Sqrt(jobs), "that none are cut off would not be seen")
		})
	}
}

// Where faults are rare, or nothing differs, nothing is cut off; of the sheets of a channel it is
// said too.
func TestCutOffs(t *testing.T) {
	l := shippingLine(1e-3, 1)
	l.Stations[0].(*Feeder).Lots = Lots{Of: 400, Bad: 0.1, Times: 20}
	l.Job = Job{Sets: 1000}
	require.Empty(t, l.Check())
	assert.Empty(t, l.CutOffs())
	l.Stations[0].(*Feeder).Misfeed = 0.2
	assert.Len(t, l.CutOffs(), 1)

	sheets := withChannel(36_000, func(_ *Line, h *Channel) { h.Misfeed, h.Noticed, h.Lots = 0.3, 1, Lots{Of: 400, CV: 1} })
	require.Empty(t, sheets.Check())
	cut := sheets.CutOffs()
	require.Len(t, cut, 1)
	assert.Equal(t, firstOf[*Channel](sheets).Name, cut[0].Station)
	assert.Positive(t, cut[0].Share)
}
