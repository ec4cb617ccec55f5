package scenarios

import (
	"slices"

	"netrate/model"
	"netrate/model/setup"
)

// jobRates are the rates of faults that stations have with one job, by the names of the stations.
type jobRates struct {
	stations []*node
	rates    []stationRates
}

// stationRates are the rates of one station, by their names.
type stationRates struct {
	names, values []*node
	rates         []uncertainProbability
}

func (x *jobRates) decode(r *reader, n *node, key string) {
	r.byName(n, key, "rates of faults by station, such as {letter: {misfeed: 1/2500}}", func(k, v *node) {
		var of stationRates
		if v != nil {
			r.byName(v, shown(k), "rates of its faults, such as {misfeed: 1/2500}", func(rate, value *node) {
				var odds uncertainProbability
				if value != nil {
					odds.decode(r, value, rate.Value)
				}
				of.names, of.values, of.rates = append(of.names, rate), append(of.values, value), append(of.rates, odds)
			})
		}
		x.stations, x.rates = append(x.stations, k), append(x.rates, of)
	})
}

// rates returns the rates of a job, and notes what no line has.
func (r *reader) rates(x *jobRates, job string, tracks []track) (all []setup.Rate) {
	if x == nil {
		return nil
	}
	for i, at := range x.stations {
		known, names := ratesAt(at.Value, tracks)
		if len(names) > 0 && !slices.Contains(names, at.Value) {
			r.note(at, "no station with rates is named %q: %s", at.Value, r.meant(at.Value, names))
			continue
		}
		for k, name := range x.rates[i].names {
			value := x.rates[i].values[k]
			switch {
			case value == nil || r.spoilt(value): // noted
			case len(names) > 0 && !slices.Contains(known, name.Value):
				r.note(name, "%s has no rate %q: %s", at.Value, name.Value, meant(name.Value, known))
			default:
				all = append(all, r.rate(job, at.Value, name.Value, value, float64(x.rates[i].rates[k])))
			}
		}
	}
	return all
}

// rate returns one rate, which is a number of its own: other jobs do not have it.
func (r *reader) rate(job, station, name string, value *node, p float64) setup.Rate {
	rate := setup.Rate{Station: station, Name: name, P: p}
	if r.priors[value] == nil {
		return rate
	}
	d := model.UncertainInput{Station: station, Name: name, Of: r.priors[value], SameAs: "jobs." + job + ".rates." + station + "." + name}
	if at := child(value, sameAs); at != nil {
		d.SameAs, d.Common = numberPath(at.Value), true
	} else {
		origin := r.original(value)
		u, known := r.first[origin]
		if !known {
			u = model.Unknown{Path: d.SameAs, Owner: r.whose(origin)}
			r.first[origin] = u
		}
		d.SameAs, d.Owner = u.Path, u.Owner
	}
	rate.Uncertain = &d
	return rate
}

// ratesAt returns the names of the rates of a station, and those of all stations with rates.
func ratesAt(station string, tracks []track) (rates, stations []string) {
	for _, t := range tracks {
		for _, s := range t.Stations {
			of := model.FaultRates(s)
			if len(of) == 0 {
				continue
			}
			name := s.Where().Name
			stations = append(stations, name)
			for _, f := range of {
				if name == station {
					rates = append(rates, f.Name)
				}
			}
		}
	}
	return rates, stations
}
