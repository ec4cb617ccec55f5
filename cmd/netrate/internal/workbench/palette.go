package workbench

import (
	"fmt"

	"netrate/scenarios"
)

// part is something of the palette: a station that is complete, to be changed once it is there.
type part struct {
	Name    string // as it is asked for
	Title   string
	About   string
	Station string // what the new station is called
	Keys    string // of its mapping, but for name and at
}

// palette returns what can be dragged into a line: feeders by their presets, and the gates.
// Numbers are illustrative, from memory, as those of the presets, and say so in the file.
func palette() []part {
	const source = "source: 'from the palette, illustrative'"
	var all []part
	for _, p := range scenarios.Presets() {
		all = append(all, part{
			"feeder " + p.Name, p.Name + " feeder", p.About, "feeder",
			fmt.Sprintf("kind: feeder, preset: %s, hopper: {pieces: 4000, warn: 20%%, refill: 25 s}, %s", p.Name, source),
		})
	}
	return append(all,
		part{"track gate", "track gate", "takes condemned sets off the track, before insertion", "track gate", "kind: track gate, bin: {sets: 60, warn: 25, empty: 20 s}, " + source},
		part{"exit gate", "exit gate", "takes finished envelopes out, after insertion", "exit gate", "kind: exit gate, bin: {envelopes: 40, warn: 15, empty: 20 s}, " + source})
}

func partNamed(name string) (part, bool) {
	for _, p := range palette() {
		if p.Name == name {
			return p, true
		}
	}
	return part{}, false
}
