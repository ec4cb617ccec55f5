package lines

import (
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model"
)

// lineOfFile returns the line of a scenario of the tests.
func lineOfFile(t *testing.T, file string) *model.Line {
	t.Helper()
	sc, _, err := desk.Load(desk.Env{Err: t.Output()}, file)
	require.NoError(t, err)
	return sc.Line
}

func byHand(l *model.Line) {
	for _, s := range l.Stations {
		switch s := s.(type) {
		case *model.Feeder:
			s.OnMisfeed, s.OnDouble = model.Stop, model.Stop
		case *model.Channel:
			s.OnMisfeed, s.OnDouble = model.Stop, model.Stop
		}
	}
}
