package check

import (
	"blotter/ledger"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

var positionRules = []Rule{
	{Code: "position-unread", Severity: ledger.Warning,
		Says: "A position can be read as latitude and longitude.",
		Why:  "A position that the program cannot read is kept and printed as it is, and stands on no map. Somebody may give a reading beside it.",
		One:  func(d *reading.Reading, say say) { positionWarning(d, "position-unread", say) }},
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
			}
			n := numberOf(d)
			say(at(l, field), words{message, lines(
				"If a map settles it: blotter set "+n+" position-read=\"60.7033, 6.6514\" --why \"map 1:50 000\"", accept(n, code))})
		}
	}
	if !d.Position.FromHand {
		tell(d.Position.Written.Warnings, d.Record.Place.Position, "place.position")
	}
	if h := d.Position.ByHand; h != nil && !d.Position.FromHand {
		tell(places.ReadPosition(h.Is.Text).Warnings, h.Is, "read.position.is")
	}
}

func positionZero(d *reading.Reading, say say) {
	if p := d.Position; p.Known && p.Lat == 0 && p.Lon == 0 {
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
	if !d.Position.Written.Known() || p.Datum.Set() {
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
