package check

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

var seriesRules = []Rule{
	{Code: "collno-twice", Severity: ledger.Warning,
		Says:  "Two sheets with one collector and one collector's number have one date and one place.",
		Why:   "One number is one gathering. Where date or place differ, a number is misread or the collector used it twice.",
		Of:    &byCollNo,
		Group: collNoTwice},
	{Code: "collector-two-places", Severity: ledger.Warning,
		Says:  "A collector is at one place on one day: at most 100 km apart by position, or without positions in one province.",
		Why:   "A day's journey may be true; more often a date, a collector or a place is misread. 100 km: our choice, no source.",
		Of:    &byDay,
		Group: collectorTwoPlaces},
}

// stated is a text that says something; "" for words for none.
func stated(text string) string {
	if reading.AbsenceOf(text) != reading.Present {
		return ""
	}
	return text
}

// byCollNo puts sheets of one collector and number together.
var byCollNo = Grouping{Name: "collno", Keys: func(keys []string, e *book.Entry) []string {
	who, no := stated(e.Collector), stated(e.CollNo)
	if who == "" || no == "" {
		return keys
	}
	return append(keys, who+"|"+no)
}}

// collNoTwice compares all with the first, and the first ones with one that
// differs from it: a number may stand on hundreds of sheets.
func collNoTwice(g *group, say sayOf) {
	same := g.same
	first := same[0]
	var unlike *book.Entry
	for _, e := range same[1:] {
		if differs(first, e) != "" {
			unlike = e
			break
		}
	}
	if unlike == nil {
		return
	}
	for _, e := range same {
		other := first
		what := differs(e, first)
		if what == "" {
			other, what = unlike, differs(e, unlike)
		}
		if what != "" {
			say(e, place{line: int(e.Lines.CollNo), field: "coll_no"}, words{
				fmt.Sprintf("%s has the same collector and number with another %s; one number is one gathering", other.Number, what),
				lines("Look at both labels. Duplicates have one date and one place.", accept(short(e.Number), "collno-twice"))}, other)
		}
	}
}

// differs names what speaks against two sheets being of one gathering.
func differs(a, b *book.Entry) string {
	switch {
	case a.Dated && b.Dated && (a.Last < b.First || b.Last < a.First):
		return "date"
	case a.Positioned && b.Positioned && apart(a, b) > 1:
		return "position"
	case unlike(a.Country, b.Country) || unlike(a.Province, b.Province) || unlike(a.District, b.District):
		return "place"
	}
	return ""
}

// unlike reports whether both say something and not the same.
func unlike(a, b string) bool {
	return stated(a) != "" && stated(b) != "" && !strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// byDay puts together what one collector collected on one day.
var byDay = Grouping{Name: "day", Keys: func(keys []string, e *book.Entry) []string {
	who := stated(e.Collector)
	if who == "" || !e.Dated || e.First != e.Last || e.Uncertain {
		return keys
	}
	return append(keys, who+"|"+strconv.Itoa(int(e.First)))
}}

// mostApart is how far two gatherings of one person on one day may lie apart,
// in kilometres.
const mostApart = 100

func collectorTwoPlaces(g *group, say sayOf) {
	same := g.same
	// all are compared with the first that has a place, and that one with the
	// first that is far from it: a day may have hundreds
	for i, e := range same {
		from := same[0]
		if i == 0 {
			from = farFrom(e, same)
		}
		if from == nil || from == e || !far(e, from) {
			continue
		}
		say(e, place{line: int(e.Lines.Date), field: "date"}, words{
			fmt.Sprintf("the collector was elsewhere on that day: %s comes from more than a day's journey away", from.Number),
			lines("Look at the date and the collector of both.", accept(short(e.Number), "collector-two-places"))}, from)
	}
}

func farFrom(e *book.Entry, same []*book.Entry) *book.Entry {
	for _, o := range same {
		if far(e, o) {
			return o
		}
	}
	return nil
}

// far reports whether two gatherings lie too far apart for one day.
func far(a, b *book.Entry) bool {
	if a.Positioned && b.Positioned {
		return apart(a, b) > mostApart
	}
	return unlike(a.Country, b.Country) || unlike(a.Province, b.Province)
}

// apart is the least distance of two positions in kilometres, their
// uncertainties taken off, on a sphere of 6371 km (the mean radius of IUGG;
// haversine formula).
func apart(a, b *book.Entry) float64 {
	const deg = math.Pi / 180
	s := math.Sin((b.Lat - a.Lat) * deg / 2)
	t := math.Sin((b.Lon - a.Lon) * deg / 2)
	h := s*s + math.Cos(a.Lat*deg)*math.Cos(b.Lat*deg)*t*t
	km := 2 * 6371 * math.Asin(math.Sqrt(math.Min(1, h)))
	return math.Max(0, km-(a.Uncertainty+b.Uncertainty)/1000)
}
