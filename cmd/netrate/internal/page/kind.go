package page

import (
	"netrate/model"
	"netrate/scenarios"
)

// BaseName is what the line without changes is called.
const BaseName = scenarios.BaseName

// HasChannel reports whether the line has a document channel.
func HasChannel(l *model.Line) bool { return l.First(model.Gathers) >= 0 }
