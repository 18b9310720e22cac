package reading

import (
	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/georeference"
	"blotter/ledger/places"
)

// Position is where the plant grew, as written and as read.
type Position struct {
	Words   string
	Absence Absence           // Present when Lat and Lon hold
	Written places.Position   // the program's reading of the words
	ByHand  *ledger.ReadValue // a person's reading; nil: none
	Read    places.Position   // the reading that holds: the person's, if it can be read, else the program's

	// FromHand says that the reading that holds is a person's: it is exported
	// with its author and never printed as the collector's.
	FromHand bool
	// Estimate is the reading that holds brought to WGS84, its radius and the
	// shares of it; Known, Lat, Lon, Metres, Parts and Unsaid are its.
	georeference.Estimate
}

// positionOf reads the position; a person's reading, if there is one that can
// be read, goes before the words. The date is that of gathering.
func positionOf(p ledger.Place, hand *ledger.ReadValue, date Date) Position {
	out := Position{Words: p.Position.Text, ByHand: hand, Written: places.ReadPosition(p.Position.Text)}
	out.Read = out.Written
	said := SaidOf(p, out.Written)
	said.Era = eraOf(date)
	if hand != nil {
		if r := places.ReadPosition(hand.Is.Text); r.Known() {
			out.Read, out.FromHand = r, true
			said = saidByHand(hand, r)
		}
	}
	if out.Estimate = georeference.Of(said); !out.Known {
		out.Absence = absenceOfPlace(out.Read.None)
	}
	return out
}

// SaidOf is what a place says of its position, which was read as p.
func SaidOf(place ledger.Place, p places.Position) georeference.Said {
	return georeference.Said{Position: p, Datum: place.Datum.Text, Uncertainty: place.Uncertainty.Text, Accuracy: place.GPSAccuracy.Text, From: place.PositionBy.Text}
}

// saidByHand is what a person says of a reading; without a datum in its words
// it is on WGS84.
func saidByHand(hand *ledger.ReadValue, p places.Position) georeference.Said {
	return georeference.Said{Position: p, Datum: "WGS84", Uncertainty: hand.Uncertainty.Text, From: hand.From.Text, Era: georeference.ByAPerson}
}

// undimmed is the day from which satellite positions were no longer made worse
// on purpose.
var undimmed = dates.DayOf(2000, 5, 1)

func eraOf(d Date) georeference.Era {
	if d.Known && d.First >= undimmed {
		return georeference.Undimmed
	}
	return georeference.Degraded
}

// Radius is the radius in metres about Lat and Lon within which the plant
// grew, the sum of its Parts; 0 when there is no reading.
func (p Position) Radius() float64 { return p.Metres }

// Shifted reports whether the reading that holds was brought to WGS84 from
// another datum.
func (p Position) Shifted() bool { return p.Known && (p.Lat != p.Read.Lat || p.Lon != p.Read.Lon) }

func absenceOfPlace(n places.None) Absence {
	switch n {
	case places.NotRecorded:
		return None
	case places.Illegible:
		return Illegible
	case places.NotTyped:
		return Untyped
	}
	return Unread
}

// PositionOf is the Date and Position of Of, for whoever needs nothing else.
func PositionOf(r *ledger.Record, c Conventions) (Date, Position) {
	x := NewReader(c)
	date := x.date(r.Date.Text, byHand(&r.Read.Date), c.Collected())
	return date, positionOf(r.Place, byHand(&r.Read.Position), date)
}
