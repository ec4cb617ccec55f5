package model

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// withDevices puts two devices onto the track of a line, before its inserter, and one behind it.
func withDevices(l *Line, change func(i int, d *Device)) {
	device := func(i, at int) *Device {
		d := &Device{
			Place: Place{Name: fmt.Sprint("device ", i+1), At: at}, Does: "print", Misfeed: 0.004, Jam: 0.001, Noticed: 0.8,
			Stock: Stock{Capacity: 260 + 70*int64(i), Warn: 60, Work: lognormal(12, 0.5)}, Clear: lognormal(8, 0.5),
		}
		change(i, d)
		return d
	}
	for _, s := range l.Stations {
		roomy(s)
	}
	at := func(i int) int { return l.Stations[i].Where().At }
	insert := func(n, i int) { // behind station i, and readers beside it
		for i++; at(i) == at(i-1); {
			i++
		}
		l.Stations = slices.Insert(l.Stations, i, Station(device(n, at(i-1)+1)))
	}
	l.Stations = slices.Insert(l.Stations, 0, Station(device(0, at(0)-1)))
	insert(1, 1)
	insert(2, l.First(Inserts))
}

// roomy moves a station along the track, so that there is room before and behind it.
func roomy(s Station) {
	switch s := s.(type) {
	case *Feeder:
		s.At += s.At + 4
	case *Channel:
		s.At += s.At + 4
	case *Reader:
		s.At += s.At + 4
	case *TrackGate:
		s.At += s.At + 4
	case *Inserter:
		s.At += s.At + 4
	case *ExitGate:
		s.At += s.At + 4
	case *Delivery:
		s.At += s.At + 4
	}
}

// agreeDevices are lines with devices, of every response.
func agreeDevices() []agreeCase {
	return []agreeCase{
		{"devices that stop, divert and outsort", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			withDevices(l, func(i int, d *Device) { d.OnMisfeed = []Response{Stop, Divert, Outsort}[i] })
		})},
		{"devices that ship, outsort and ship, without stocks", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			low(l, 1)
			withDevices(l, func(i int, d *Device) {
				d.OnMisfeed, d.Stock, d.Misfeed = []Response{Ship, Outsort, Ship}[i], Stock{}, 0.02
				d.Rated, d.Growth = 20_000, 1.5
				d.Clearings[Jam] = lognormal(20, 0.5)
			})
		})},
		{"devices among streams", changedFrom("lanes: in line, outsort, streaks and false calls", func(l *Line) {
			withDevices(l, func(i int, d *Device) { d.OnMisfeed = []Response{Divert, Stop, Ship}[i] })
		})},
		{"devices among readers", changedFrom("readers: three pitches on, no-reads diverted", func(l *Line) {
			withDevices(l, func(i int, d *Device) { d.OnMisfeed = []Response{Ship, Divert, Ship}[i] })
		})},
		{"devices and days", changedFrom("days within a shift, with lots and hoppers that run empty", func(l *Line) {
			withDevices(l, func(i int, d *Device) { d.OnMisfeed = []Response{Stop, Divert, Ship}[i] })
		})},
		{"devices, all as left", changed(func(l *Line) {
			faulty(l, 0.004, 0.002, 0.0005)
			withDevices(l, func(i int, d *Device) { d.OnMisfeed = []Response{Stop, Divert, Ship}[i] })
			l.Begins, l.Shift = Begins{Before: 333.33, Track: true}, 200.1
		})},
	}
}

// anyDevices puts devices of any kind onto a line.
func anyDevices(t *rapid.T, l *Line) {
	withDevices(l, func(_ int, d *Device) {
		d.Misfeed, d.Jam, d.Noticed, d.Stock = anyRate(t), anyRate(t), anySight(t), anyStock(t, 0)
		d.Clear = anyDuration(t, "clear")
	})
	for i, s := range l.Stations {
		d, is := s.(*Device)
		if !is {
			continue
		}
		for {
			d.OnMisfeed = Response(rapid.IntRange(int(Stop), int(Ship)).Draw(t, "device"))
			if l.Refusal(i, Misfeed, d.OnMisfeed) == "" {
				break
			}
		}
	}
}

// The events of lines with devices tell the ledgers, whatever their stocks and responses.
func TestEventsTellTheLedgersOfDevices(t *testing.T) {
	lines := rapid.Custom(func(t *rapid.T) *Line {
		l := anyLine(t)
		anyDevices(t, l)
		return l
	})
	for n := range 150 {
		l := lines.Example(n)
		events, out := observed(t, l, uint64(n), 1)
		require.Empty(t, unequal(out, rebuilt(l, events, out)), "line %d", n)
	}
}

func TestDevicesThatCannotBe(t *testing.T) {
	for text, change := range map[string]func(d *Device){
		"does nothing":                                   func(d *Device) { d.Does = "" },
		"misfeed is 1.5, want a probability":             func(d *Device) { d.Misfeed = 1.5 },
		"noticed is -1, want a probability":              func(d *Device) { d.Noticed = -1 },
		"growth with speed but no rated speed":           func(d *Device) { d.Growth = 1 },
		"the stock holds 0, want at least 1":             func(d *Device) { d.Stock.Capacity = 0 },
		"no time for clearing a fault":                   func(d *Device) { d.Clear = nil },
		"track gates stand before the inserter, and thi": func(d *Device) { d.OnMisfeed = Divert },
	} {
		l := referenceLine()
		withDevices(l, func(i int, d *Device) {
			if i == 2 {
				change(d)
			}
		})
		found := l.Check()
		if assert.NotEmpty(t, found, text) {
			assert.Contains(t, found[0].Error(), text)
		}
	}
}
