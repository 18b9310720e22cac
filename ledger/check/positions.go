package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/land"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

var positionRules = []Rule{
	{Code: "position-unread", Severity: ledger.Warning,
		Says: "A position can be read as latitude and longitude.",
		Why:  "A position that the program cannot read is kept and printed as it is, and stands on no map. Somebody may give a reading beside it.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-unread", say) }},
	{Code: "position-no-side", Severity: ledger.Warning,
		Says: "A position has its N or S and its E or W.",
		Why:  "Without them nobody knows on which side of the world the point lies; a single one that lacks is taken as north or east.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-no-side", say) }},
	{Code: "position-doubtful", Severity: ledger.Warning,
		Says: "A position can be read in one way only.",
		Why:  "A minus sign with a letter, S as a band or as south, minutes typed with a point: where words can mean two places, the finding says which one was taken.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-doubtful", say) }},
	{Code: "position-grid", Severity: ledger.Warning,
		Says: "A reference in a grid is complete and possible: zone and band, easting and northing.",
		Why:  "UTM, the military, quarter-degree, British and Irish grids are read; others, and those without their zone, are kept as written and stand on no map.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-grid", say) }},
	{Code: "position-township", Severity: ledger.Warning,
		Says: "Township, range and section have a reading in degrees beside them.",
		Why:  "The land survey of the United States is recognised and kept, not solved: that needs its own tables and its meridian, which labels leave out.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-township", say) }},
	{Code: "position-unknown", Severity: ledger.Warning,
		Says: "A position that is not known is written as not recorded.",
		Why:  "Nines are what forms and machines write for it, and are no coordinate.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-unknown", say) }},
	{Code: "position-range", Severity: ledger.Warning,
		Says: "Latitude lies between 90° S and 90° N, longitude between 180° W and 180° E.",
		Why:  "Outside them there is no such point; most often the two are swapped or a figure is missing.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-range", say) }},
	{Code: "position-letter-o", Severity: ledger.Warning,
		Says: "East and west are written E and W.",
		Why:  "O is east in German and the Scandinavian languages and west in French, Spanish and Portuguese.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-letter-o", say) }},
	{Code: "position-zero", Severity: ledger.Warning,
		Says: "A position is not 0, 0.",
		Why:  "Nought and nought is what machines write when they know nothing; the point lies in the Gulf of Guinea.",
		One:  positionZero},
	{Code: "position-datum", Severity: ledger.Warning,
		Says: "A position has its datum, or the words not recorded.",
		Why:  "Without the datum a point may be off by some hundred metres; a reading takes WGS84.",
		One:  positionDatum},
	{Code: "position-accuracy", Severity: ledger.Warning,
		Says: "An uncertainty in metres goes with a position.",
		Why:  "Without a position nobody knows what the metres are about.",
		One:  positionAccuracy},
}

// positionWarning passes on what the reader of positions says under code, of
// the words and of a person's reading.
func positionWarning(d *reading.Reading, code string, say say) {
	tell := func(ws []places.Warning, l ledger.Leaf, field string) {
		for _, w := range ws {
			if w.Code != code {
				continue
			}
			message := w.Message
			if hidden(d) {
				message = "cannot be read as a point"
				if code == "position-doubtful" {
					message = "can be read as more than one point"
				}
			}
			n := numberOf(d)
			say(at(l, field), words{message, lines(
				"If a map settles it: blotter set "+n+" position-read="+quoted(otherHalf(d, code, l.Text))+" --why \"map 1:50 000\"", accept(n, code))})
		}
	}
	if !d.Position.FromHand {
		tell(d.Position.Written.Warnings, d.Record.Place.Position, "place.position")
	}
	if h := d.Position.ByHand; h != nil && !d.Position.FromHand {
		tell(places.ReadPosition(h.Is.Text).Warnings, h.Is, "read.position.is")
	}
}

// otherHalf is what a hint proposes for a position that cannot be read: UTM
// without its half of the earth on the one where the country named lies, else
// words to put the figures in place of.
func otherHalf(d *reading.Reading, code, text string) string {
	zone, rest, ok := strings.Cut(strings.TrimSpace(text), " ")
	if s := countriesOf(d); code == "position-grid" && ok && len(s) == 1 && !hidden(d) && strings.Trim(zone, "0123456789") == "" {
		for _, half := range []string{"N ", "S "} {
			if p := places.ReadPosition(zone + half + rest); p.Known() {
				if far, known := land.Outside(p.Lat, p.Lon, s[0]); known && far == 0 {
					return zone + half + rest
				}
			}
		}
	}
	return "LATITUDE, LONGITUDE"
}

func positionZero(d *reading.Reading, say say) {
	if p := d.Position; p.Known && p.Read.Lat == 0 && p.Read.Lon == 0 {
		l, field := d.Record.Place.Position, "place.position"
		if p.FromHand {
			l, field = p.ByHand.Is, "read.position.is"
		}
		say(at(l, field), words{"is the point 0, 0 in the Gulf of Guinea, which machines write when they know nothing",
			"Take the line away, or write the position. " + accept(numberOf(d), "position-zero")})
	}
}

func positionDatum(d *reading.Reading, say say) {
	p := d.Record.Place
	if w := d.Position.Written; !w.Known() || w.Datum != "" || p.Datum.Set() {
		return
	}
	say(at(p.Position, "place.position"), words{"has no datum, so the point may be off by some hundred metres",
		lines(set(numberOf(d), "place.datum", "WGS84"), "or, if the label has none: "+set(numberOf(d), "place.datum", "not recorded"))})
}

func positionAccuracy(d *reading.Reading, say say) {
	p := d.Record.Place
	if p.Position.Set() || d.Position.ByHand != nil {
		return
	}
	for _, f := range []struct {
		l     ledger.Leaf
		field string
	}{{p.GPSAccuracy, "place.gps_accuracy"}, {p.Uncertainty, "place.uncertainty"}} {
		if f.l.Set() {
			say(at(f.l, f.field), words{"stands without a position, so nobody knows what the metres are about",
				"Add the position, or take the line away. " + accept(numberOf(d), "position-accuracy")})
		}
	}
}
