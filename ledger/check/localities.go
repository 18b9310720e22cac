package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/georeference"
	"blotter/ledger/reading"
)

var localityRules = []Rule{
	{Code: "locality-near", Severity: ledger.Warning, NewOnly: true,
		Says: "A locality of today's material says how far and which way, not near.",
		Why:  "Near is a hundred metres to one and ten kilometres to another; nothing can be reckoned from it (Chapman & Wieczorek 2020, on localities).",
		One:  localityNear},
	{Code: "locality-heading", Severity: ledger.Warning, NewOnly: true,
		Says: "A distance in a locality of today's material has its direction.",
		Why:  "Without a direction the plant may have grown anywhere around the place (Chapman & Wieczorek 2020, on localities).",
		One:  localityHeading},
	{Code: "locality-distance", Severity: ledger.Warning, NewOnly: true,
		Says: "A direction in a locality of today's material has its distance.",
		Why:  "NE of a place has no end (Chapman & Wieczorek 2020, on localities).",
		One:  func(d *reading.Reading, say say) { localityWords(d, "locality-distance", say) }},
	{Code: "locality-unit", Severity: ledger.Warning,
		Says: "A distance in a locality has its unit.",
		Why:  "10 NE of a place may be kilometres or miles, which is six kilometres apart.",
		One:  func(d *reading.Reading, say say) { localityWords(d, "locality-unit", say) }},
}

func localityNear(d *reading.Reading, say say) {
	if georeference.ReadOffset(localityOf(d)).Relation == georeference.Near {
		sayLocality(d, "locality-near", "says near, which gives no distance and no direction", say)
	}
}

func localityHeading(d *reading.Reading, say say) {
	o := georeference.ReadOffset(localityOf(d))
	if o.Relation == georeference.Away && len(o.Legs) == 1 && o.Legs[0].Heading.Name == "" && !o.ByRoad {
		sayLocality(d, "locality-heading", "gives a distance without a direction", say)
	}
}

// localityOf is the words of the locality; "" for words for none.
func localityOf(d *reading.Reading) string { return stated(d.Record.Place.Locality.Text) }

func sayLocality(d *reading.Reading, code, message string, say say) {
	n := numberOf(d)
	say(at(d.Record.Place.Locality, "place.locality"), words{message,
		lines("If the field book has more, add it. A position beside the words says it as well.", accept(n, code))})
}

// points of the compass as labels abbreviate them, and words that follow them
// when a place comes.
var (
	compass = wordsOf("N S E W NE NW SE SW NNE ENE ESE SSE SSW WSW WNW NNW NØ SØ NO SO NV SV N. S. E. W. N.E. N.W. S.E. S.W.")
	ofWords = wordsOf("of av for von")
)

func wordsOf(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(list) {
		out[w] = true
	}
	return out
}

// localityWords looks for a direction from a place, "NE of Voss", and at what
// stands before it: a figure wants a unit, nothing at all a distance.
func localityWords(d *reading.Reading, code string, say say) {
	ws := strings.Fields(localityOf(d))
	for i := 0; i+2 < len(ws); i++ {
		if !compass[ws[i]] || !ofWords[ws[i+1]] {
			continue
		}
		before := ""
		if i > 0 {
			before = ws[i-1]
		}
		switch {
		case isFigure(before):
			if code == "locality-unit" {
				sayLocality(d, code, "gives a distance without its unit", say)
			}
		case before == "" || strings.HasSuffix(before, ",") || strings.HasSuffix(before, ";"):
			if code == "locality-distance" {
				sayLocality(d, code, "gives a direction without a distance", say)
			}
		}
		return
	}
}

// isFigure reports whether a word is a plain figure: 10, 1.5, 2,5, 5-10.
func isFigure(w string) bool {
	return w != "" && strings.Trim(w, "0123456789.,-–") == "" && '0' <= w[0] && w[0] <= '9' && '0' <= w[len(w)-1] && w[len(w)-1] <= '9'
}
