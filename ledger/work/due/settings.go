package due

import (
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/drying"
	"blotter/ledger/treatment"
)

// DryingSettings are the museum's habits of the press as ledger/drying takes
// them.
func DryingSettings(h ledger.Drying) drying.Settings {
	s := drying.Settings{Keeping: drying.Keeping{Keeps: whole(h.AlcoholFor.Keeps, 0), LitreFrom: figure(h.AlcoholFor.LitreFrom, 0), LitreTo: figure(h.AlcoholFor.LitreTo, 0), Cautions: texts(h.AlcoholFor.Cautions)}}
	for _, t := range h.AlcoholFor.Turn {
		s.Keeping.Turn = append(s.Keeping.Turn, whole(t, 0))
	}
	said := map[drying.Kind]ledger.DryingPlants{}
	for _, p := range h.Plants {
		said[plantsOf(p.Plants.Text)] = p
	}
	row := func(kind drying.Kind, m drying.Method) drying.Row {
		p := said[kind]
		r := drying.Row{Kind: kind, Method: m, Prepare: texts(p.Prepare), Cautions: texts(p.Cautions)}
		if m != drying.Alcohol {
			r.ByHand = append(texts(h.ByHand), texts(p.ByHand)...)
		}
		if m == drying.WarmAir {
			r.Cautions = append(r.Cautions, texts(h.HeatCare)...)
		}
		return r
	}
	days := func(m drying.Method, all []ledger.DryingDays) {
		for _, d := range all {
			r := row(plantsOf(d.Plants.Text), m)
			r.Papers = drying.Papers{Daily: whole(d.Daily, 0), Then: whole(d.Then, 0)}
			r.Test, r.Earliest, r.From, r.To = whole(d.Test, 0), whole(d.Earliest, 0), whole(d.From, 0), whole(d.To, 0)
			s.Rows = append(s.Rows, r)
		}
	}
	days(drying.Unheated, h.Unheated)
	days(drying.WarmAir, h.WarmAir)
	for _, k := range drying.Kinds() {
		s.Rows = append(s.Rows, row(k, drying.Alcohol))
	}
	for _, w := range h.Weather {
		for _, f := range []struct {
			m drying.Method
			l ledger.Leaf
		}{{drying.Unheated, w.Unheated}, {drying.WarmAir, w.WarmAir}} {
			s.Weather = append(s.Weather, drying.Factor{Method: f.m, Weather: drying.Weather(w.Weather.Text), Factor: figure(f.l, 1)})
		}
	}
	return s
}

// Weighed are the habits of the drying curve.
func Weighed(h ledger.DryingWeighed) drying.Weighed {
	return drying.Weighed{Within: figure(h.Within, 0), Confidence: figure(h.Confidence, 0), Rise: figure(h.Rise, 0), PlateauError: figure(h.PlateauError, 0), Resolution: figure(h.Balance, 0)}
}

// Thickness is what the things of the museum's press measure.
func Thickness(h ledger.DryingStack) drying.Thickness {
	return drying.Thickness{Frame: figure(h.Frame, 0), Board: figure(h.Board, 0), Corrugate: figure(h.Corrugate, 0), Blotter: figure(h.Blotter, 0), Fold: figure(h.Fold, 0)}
}

// plantsOf is the kind of plant that words of a heading name; Mixed for those
// that name none.
func plantsOf(words string) drying.Kind {
	words = strings.ToLower(strings.TrimSpace(words))
	switch words {
	case "succulent", "cactus":
		return drying.Succulent
	case "":
		return drying.Mixed
	}
	for _, k := range drying.Kinds() {
		if words == string(k) {
			return k
		}
	}
	return drying.Kind(words)
}

// methodOf is the method that words of a heading name.
func methodOf(words string) drying.Method {
	words = strings.ToLower(words)
	switch {
	case strings.Contains(words, "alcohol"):
		return drying.Alcohol
	case strings.Contains(words, "warm") || strings.Contains(words, "heat") && !strings.Contains(words, "unheat") && !strings.Contains(words, "no heat"):
		return drying.WarmAir
	}
	return drying.Unheated
}

// weatherOf is the weather that words of a heading begin with: humid, rain all
// week.
func weatherOf(words string) drying.Weather {
	first, _, _ := strings.Cut(strings.ToLower(strings.TrimSpace(words)), ",")
	for _, w := range drying.Weathers() {
		for _, word := range strings.Fields(first) {
			if word == string(w) {
				return w
			}
		}
	}
	return drying.Ordinary
}

// Profile is a profile of the museum's habits by its name; "" is the one that
// the museum usually takes. An error names those that there are.
func Profile(h ledger.Treatment, name string) (treatment.Profile, error) {
	if name == "" {
		name = h.Profile.Text
	}
	var names []string
	for _, p := range h.Profiles {
		if !strings.EqualFold(p.Name.Text, name) {
			names = append(names, p.Name.Text)
			continue
		}
		or := func(own, all ledger.Leaf) float64 {
			if own.Set() {
				return figure(own, 0)
			}
			return figure(all, 0)
		}
		return treatment.Profile{Name: p.Name.Text, SetPoint: figure(p.SetPoint, 0), Hours: figure(p.Hours, 0), Cycles: whole(p.Cycles, 1),
			Between: or(p.Between, h.Between), Warm: or(p.Warm, h.Warm), Lead: or(p.Lead, h.Lead), Closed: or(p.Closed, h.Closed),
			MaxGap: or(p.MaxGap, h.MaxGap), Excursion: or(p.Excursion, h.Excursion), Rise: or(p.Rise, h.Rise)}, nil
	}
	return treatment.Profile{}, fmt.Errorf("treatment profile %q: the museum has %s", name, and(names))
}

func texts(leaves []ledger.Leaf) []string {
	var out []string
	for _, l := range leaves {
		if l.Text != "" {
			out = append(out, l.Text)
		}
	}
	return out
}
