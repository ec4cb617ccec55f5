package workbench

import (
	"errors"
	"fmt"
	"strings"

	"netrate/scenarios"
)

// part is something of the palette: a station that is complete, to be changed once it is there.
type part struct {
	Name    string // as it is asked for
	Title   string
	About   string
	Station string // what the new station is called
	Keys    string // of its mapping, but for name, at and reads
	Reads   bool   // it reads a stream
}

// palette returns what can be dragged into a line. An inserter and a delivery are none of it: a line
// has one of each.
// Numbers are illustrative, from memory, as those of the presets, and say so in the file.
func palette() []part {
	const source = "source: 'from the palette, illustrative'"
	var all []part
	for _, p := range scenarios.Presets() {
		all = append(all, part{
			Name: "feeder " + p.Name, Title: p.Name + " feeder", About: p.About, Station: "feeder",
			Keys: fmt.Sprintf("kind: feeder, preset: %s, hopper: {pieces: 4000, warn: 20%%, refill: 25 s}, %s", p.Name, source),
		})
	}
	return append(all,
		part{
			Name: "document channel", Title: "document channel", About: "gathers the sheets of each person's document", Station: "document channel",
			Keys: "kind: document channel, sheets: 40000/h, pages: 2, buffer: 10, misfeed: 1/8000, double: 1/30000, jam: 1/40000, clear: 60 s, " + source,
		},
		part{
			Name: "reader", Title: "reader", About: "reads the pieces of a stream, and sees when one is missing", Station: "reader", Reads: true,
			Keys: "kind: reader, verifies: presence, no_read: 1/3000, clear: 30 s, " + source,
		},
		part{
			Name: "device", Title: "device", About: "does something to each set, such as printing or stamping", Station: "device",
			Keys: "kind: device, does: print, misfeed: 1/20000, jam: 1/20000, clear: 30 s, " + source,
		},
		part{
			Name: "track gate", Title: "track gate", About: "takes condemned sets off the track, before insertion", Station: "track gate",
			Keys: "kind: track gate, bin: {sets: 60, warn: 25, empty: 20 s}, " + source,
		},
		part{
			Name: "exit gate", Title: "exit gate", About: "takes finished envelopes out, after insertion", Station: "exit gate",
			Keys: "kind: exit gate, bin: {envelopes: 40, warn: 15, empty: 20 s}, " + source,
		})
}

// keys returns the keys of a part that is put into a line of a scenario under a name. A channel carries
// a stream of that name; a reader reads the first stream of the line, until it is told another.
func (p part) keys(sc *scenarios.Scenario, line, name string) (string, error) {
	switch {
	case p.Name == "document channel":
		return p.Keys + ", stream: " + name, nil
	case !p.Reads:
		return p.Keys, nil
	}
	streams := lineNamed(sc, line).Streams()
	if len(streams) == 0 {
		return "", errors.New("there is nothing to read: no station of the line has a stream. Say at a feeder, under what more can be said, which stream its pieces are, such as documents")
	}
	return p.Keys + ", reads: '" + strings.ReplaceAll(streams[0], "'", "''") + "'", nil
}

func partNamed(name string) (part, bool) {
	for _, p := range palette() {
		if p.Name == name {
			return p, true
		}
	}
	return part{}, false
}
