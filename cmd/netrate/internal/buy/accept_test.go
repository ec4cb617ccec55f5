package buy

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/cmd/netrate/internal/desk"
	"netrate/model/study"
)

func TestClauses(t *testing.T) {
	var c clauses
	require.NoError(t, c.Set("stops"))
	require.NoError(t, c.Set("clearing=45s:60 s"))
	require.NoError(t, c.Set("defective=10/1e6:50/1e6"))
	require.NoError(t, c.Set("diverted"))
	assert.Equal(t, clauses{{Of: study.AcceptanceStops}, {Of: study.AcceptanceClearing, Good: 45, Bad: 60}, {Of: study.AcceptanceDefective, Good: 10, Bad: 50}, {Of: study.AcceptanceTakenOut}}, c)
	assert.Equal(t, "stops, clearing=45:60, defective=10:50, diverted", c.String())
	for _, wrong := range []string{"", "stop", "stops=", "stops=1", "stops=1:x", "stops=2:2", "stops=0:1", "stops=NaN:2", "stops"} {
		assert.Error(t, c.Set(wrong), wrong)
	}
	assert.ErrorContains(t, c.Set("misfeed"), "sets that one takes out at a gate, diverted or outsorted, in diverted")
	assert.ErrorContains(t, c.Set("misfeeds"), "no clause on one kind of fault")
}

func TestRatesAndHours(t *testing.T) {
	var r rate
	require.NoError(t, r.Set("12000/h"))
	assert.Equal(t, "12000", r.String())
	var h hours
	require.NoError(t, h.Set("7.5 h"))
	assert.Equal(t, "7.5", h.String())
	var n envelopes
	require.NoError(t, n.Set("450,000"))
	assert.Equal(t, "450000", n.String())
	for _, wrong := range []string{"", "0", "-1", "NaN", "many", "1e9"} {
		assert.Error(t, n.Set(wrong), wrong)
		assert.Error(t, r.Set(wrong), wrong)
		assert.Error(t, h.Set(wrong), wrong)
	}
}

// The command that is printed asks the same again.
func TestAcceptCommand(t *testing.T) {
	flags := desk.NewFlags("accept")
	o := newAcceptFlags(flags)
	args := []string{"--bad", "worn out", "--buyer-risk", "10%", "--hours", "20", "--clause", "stops=1:2", "--clause", "defective"}
	require.NoError(t, flags.Parse(args))
	assert.Equal(t, "netrate accept x.yaml --bad 'worn out' --buyer-risk 10% --hours 20 --clause stops=1:2 --clause defective", o.command("netrate accept x.yaml"))
	assert.NoError(t, o.check())
	require.NoError(t, flags.Parse([]string{"--promised", "9000"}))
	assert.ErrorContains(t, o.check(), "give one pair")
}

// A plan that wrote no limits after each shift says which command does: the judging reads them.
func TestAcceptWritesItsStages(t *testing.T) {
	flags := desk.NewFlags("accept")
	o := newAcceptFlags(flags)
	require.NoError(t, flags.Parse([]string{"--bad", "worn", "--sequential"}))
	a := &study.AcceptanceAnswer{Clauses: make([]study.AcceptanceClause, 1), Stages: &study.AcceptanceStages{}}
	assert.Equal(t, "netrate accept x.yaml --bad worn --sequential --stages-out stages.csv", o.writing("netrate accept x.yaml", a))
	assert.Contains(t, o.judging("netrate accept x.yaml", a), "--stages stages.csv")
	a.Hours, a.Clauses[0].Limit = 24, 190_000
	assert.Equal(t, "netrate accept x.yaml --bad worn --hours 24 --demand 190000 --result counts.csv", o.judgingFixed("netrate accept x.yaml", a), "the other of the two tests")
	require.NoError(t, flags.Parse([]string{"--stages-out", "s.csv"}))
	assert.Empty(t, o.writing("netrate accept x.yaml", a))
	assert.Contains(t, o.judging("netrate accept x.yaml", a), "--stages s.csv")
}

// A form as it is printed is read, with what no clause needs left empty; what is wrong with a number or with the
// row of sums is said.
func TestAcceptReadsTheForm(t *testing.T) {
	read := func(headings []string, rows ...[]string) (*study.AcceptanceResult, error) {
		s, err := newSums("counts.csv", headings)
		require.NoError(t, err)
		for i, row := range rows {
			if err := s.add(i+2, row); err != nil {
				return nil, err
			}
		}
		return s.result()
	}
	form := []string{"Shift", "until", "hours", "good", "defective"}
	r, err := read(form, []string{"1", "", "8", "57100", ""}, []string{"2", "", "8", "57200", ""}, []string{"Sum", "", "16", "114300", ""})
	require.NoError(t, err)
	assert.Equal(t, []float64{114_300, -1, -1}, []float64{r.Good, r.Defective, r.Parts[1].Defective})
	_, err = read(form, []string{"1", "", "8", "57100", "4"}, []string{"2", "", "8", "57200", ""})
	assert.ErrorContains(t, err, "in all rows or in none")
	_, err = read(form, []string{"1", "", "8", "57,100", ""})
	assert.ErrorContains(t, err, "a comma splits a number")
	_, err = read(form, []string{"1", "", "8", "", ""})
	assert.ErrorContains(t, err, `good is ""`)
	_, err = read([]string{"hours", "good"}, []string{"8", "57100"}, []string{"Sum", "57100"})
	assert.ErrorContains(t, err, "a row is called Sum in a column of its own")
}
