package main

import (
	"fmt"
	"strings"

	"blotter/ledger/georeference"
	"blotter/ledger/land"
	"blotter/ledger/places"
)

// placeTold is the reading of a place in words.
type placeTold struct {
	readHead
	pointTold
	Countries []string `json:"countries,omitempty"` // when the name is several countries of today
	From      string   `json:"from,omitempty"`      // what the point was reckoned from
	said      []string
}

func (t *placeTold) object() any { return t }

func readPlaceText(x *readDesk, text string) told {
	t := &placeTold{readHead: headOf(text)}
	in := t.lands(text)
	e := x.gazetteer.Reckon(text, in)
	offset := georeference.ReadOffset(text)
	for _, w := range offset.Warnings {
		t.warn(w.Code, w.Message)
	}
	switch {
	case e.Known:
		t.take(e)
		t.Datum, t.From = "WGS84", e.From
		point := places.Position{Lat: e.Lat, Lon: e.Lon, Form: places.Decimal, Step: 1e-7}
		t.said = append(t.said, fmt.Sprintf("reckoned as %s, ± %s, from %s", point.Within(e.Metres), georeference.Metres(e.Metres), e.From))
		t.said = append(append(t.said, t.shares()...), unsaid(e)...)
	case len(t.said) > 0: // a country at least
		if offset.Relation != georeference.NoRelation && e.Why != "" {
			t.said = append(t.said, "no point can be reckoned: "+e.Why)
		}
	case strings.TrimSpace(text) == "":
		t.said = []string{noneSaid(false, false)}
	default:
		t.Error = "names no country"
		if near := land.SuggestCountry(text); near != "" {
			t.Error += "; did you mean " + near + "?"
			break
		}
		if e.Why != "" {
			t.Error += ", and no point can be reckoned: " + e.Why
		}
	}
	return t
}

// lands finds the country and region among the parts of a text: Norway:
// Vestland, Voss.
func (t *placeTold) lands(text string) georeference.Within {
	var in georeference.Within
	parts := strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == ':' || r == '|' || r == '/' })
	for _, part := range parts {
		n, ok := land.Country(part)
		if !ok || in.Country != "" {
			continue
		}
		in.Country = strings.TrimSpace(part)
		if len(n.Codes) == 1 {
			t.Country = n.Codes[0]
		} else {
			t.Countries = n.Codes
		}
		words := "read as " + namesOf(n.Codes)
		if n.Was != "" {
			words += "; it names " + n.Was
		}
		t.said = append(t.said, words)
	}
	for _, part := range parts {
		if t.Country == "" || strings.TrimSpace(part) == in.Country {
			continue
		}
		if r, ok := land.Region(t.Country, part); ok {
			in.Province, t.Region = strings.TrimSpace(part), r
			t.said = append(t.said, "region: "+r)
			break
		}
	}
	return in
}

// namesOf are countries with their codes.
func namesOf(codes []string) string {
	var all []string
	for _, c := range codes {
		all = append(all, land.Name(c)+" ("+c+")")
	}
	return strings.Join(all, ", ")
}

func (t *placeTold) lines() []string {
	if len(t.said) == 0 {
		return t.linesWith("")
	}
	return t.linesWith(t.said[0], t.said[1:]...)
}
