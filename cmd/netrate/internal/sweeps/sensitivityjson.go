package sweeps

import (
	"netrate/cmd/netrate/internal/page"
	"netrate/model"
)

type sensitivityDocument struct {
	Format int `json:"netrate_sensitivity_json"`
	page.LineDocument
	Factor  page.Number      `json:"factor"`
	NetRate page.NetRateJSON `json:"net_rate"` // of the line as it is
	Effects []effectJSON     `json:"effects"`  // the one that gains most when divided first
	Kinds   []effectJSON     `json:"kinds"`    // all levers of a kind at once
}

type effectJSON struct {
	Name   string   `json:"name"`
	Paths  []string `json:"paths"` // what is moved
	Value  string   `json:"value"` // as it is; "" of several
	Lower  moveJSON `json:"lower"`
	Higher moveJSON `json:"higher"`
	Rival  bool     `json:"not_shown_less"` // than the first, when it is divided
}

type moveJSON struct {
	Value      string               `json:"value"`
	Impossible string               `json:"impossible,omitempty"`
	Change     *page.DifferenceJSON `json:"change"` // of the net rate; null if it is impossible
}

func (s *sensitivity) Document() any {
	return sensitivityDocument{
		Format: page.JSONVersion, LineDocument: page.DocumentOf(&s.Subject, s.Base, s.finding()),
		Factor: page.Number(s.Factor), NetRate: page.NetRateOf(s.Base),
		Effects: effectsOf(s.Effects), Kinds: effectsOf(s.Kinds),
	}
}

func effectsOf(effects []model.Effect) []effectJSON {
	all := []effectJSON{}
	for _, x := range effects {
		j := effectJSON{Name: effectName(x), Lower: moveOf(x.Lower), Higher: moveOf(x.Higher), Rival: x.Rival}
		for _, v := range x.Levers {
			j.Paths = append(j.Paths, v.Path())
		}
		if x.Kind == "" {
			j.Value = x.Levers[0].Value
		}
		all = append(all, j)
	}
	return all
}

func moveOf(m model.Move) moveJSON {
	if m.Impossible != nil {
		return moveJSON{Value: m.Value, Impossible: m.Impossible.Error()}
	}
	return moveJSON{Value: m.Value, Change: page.DifferenceOf(m.NetRate)}
}
