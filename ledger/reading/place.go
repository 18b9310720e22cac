package reading

import (
	"blotter/ledger"
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
	Known    bool
	Lat, Lon float64 // degrees, north and east positive
	// Uncertainty is the radius in metres that a person or the label states,
	// or the device showed; 0: nobody said. It leaves out the precision of
	// the words, which is Read.Precision.
	Uncertainty float64
}

// positionOf reads the position; a person's reading, if there is one that can
// be read, goes before the words.
func positionOf(p ledger.Place, hand *ledger.ReadValue) Position {
	out := Position{Words: p.Position.Text, ByHand: hand, Written: places.ReadPosition(p.Position.Text)}
	out.Read = out.Written
	stated := metres(p.Uncertainty.Text)
	if stated == 0 {
		stated = metres(p.GPSAccuracy.Text)
	}
	if hand != nil {
		if r := places.ReadPosition(hand.Is.Text); r.Known() {
			out.Read, out.FromHand = r, true
			stated = metres(hand.Uncertainty.Text)
		}
	}
	if out.Known = out.Read.Known(); out.Known {
		out.Lat, out.Lon, out.Uncertainty = out.Read.Lat, out.Read.Lon, stated
	} else {
		out.Absence = absenceOfPlace(out.Read.None)
	}
	return out
}

// Radius is the radius in metres within which the plant grew, as far as
// somebody stated it or the words are precise: the sum of Uncertainty and the
// precision of the words; 0 when there is no reading or nobody stated one.
func (p Position) Radius() float64 {
	if !p.Known || p.Uncertainty == 0 {
		return 0
	}
	return p.Uncertainty + p.Read.Precision()
}

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
