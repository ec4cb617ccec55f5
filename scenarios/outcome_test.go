package scenarios

import (
	"crypto/sha256"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
	"netrate/model"
	"netrate/model/setup"
)

// The whole outcome of some shifts of every example, with its variants and its jobs, as a sum
// of every figure of every station to its last bit. A change of speed or of shape changes none
// of them, on any processor; one that does changes published figures, and says so.
func TestOutcomesOfExamples(t *testing.T) {
	var sums strings.Builder
	for _, x := range Examples() {
		s, err := Load(x.Name, x.Data)
		require.NoError(t, err)
		sums.WriteString(outcomesOf(t, x.Name, &s.Shop))
		for _, v := range s.Variants {
			sums.WriteString(outcomesOf(t, x.Name+", "+v.Name, &v.Shop))
		}
	}
	golden.Check(t, "testdata/outcomes.txt", sums.String())
}

// outcomesOf returns a line of text for the lines of the shop as they stand, and one for each
// of its jobs.
func outcomesOf(t *testing.T, name string, s *Shop) string {
	t.Helper()
	if s.LineGroup != nil {
		group, err := model.NewLineGroup(s.LineGroup)
		require.NoError(t, err)
		return outcomes(t, name, len(s.LineGroup.Lines), group.Run)
	}
	text := outcomesOfLine(t, name, s.Line)
	for _, p := range s.Products {
		if line, fit := setup.Fitted(s.Line, p); fit.Runs {
			text += outcomesOfLine(t, name+": "+p.Name, line)
		}
	}
	return text
}

func outcomesOfLine(t *testing.T, name string, l *model.Line) string {
	t.Helper()
	line, err := model.New(l)
	require.NoError(t, err)
	return outcomes(t, name, 1, func(seed uint64, replication int, outs []model.Outcome) error {
		return line.Run(seed, replication, &outs[0])
	})
}

// outcomes runs a few replications of some lines and returns the cycles of all of them and a
// sum of all figures.
func outcomes(t *testing.T, name string, lines int, run func(uint64, int, []model.Outcome) error) string {
	t.Helper()
	sum, cycles := sha256.New(), int64(0)
	outs := make([]model.Outcome, lines)
	for replication := range 8 {
		require.NoError(t, run(1, replication, outs))
		golden.Numbers(sum, outs, entryName)
		for _, o := range outs {
			cycles += o.Cycles
		}
	}
	return fmt.Sprintf("%.8x  %9d cycles  %s\n", sum.Sum(nil)[:8], cycles, name)
}

// entryName returns what an entry of a list of figures is called: by its fault or its cause, where
// the list is of these.
func entryName(list reflect.Type, i int) string {
	switch list {
	case reflect.TypeOf(model.StationOutcome{}.Lost):
		return model.Fault(i).String()
	case reflect.TypeOf(model.StationOutcome{}.Stops):
		if model.Cause(i) == model.CauseStock {
			return "stock"
		}
		return model.Cause(i).Name(nil)
	default:
		return strconv.Itoa(i)
	}
}
