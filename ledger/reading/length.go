package reading

import (
	"blotter/ledger"
	"blotter/ledger/places"
)

// Length is a height above the sea as written and as read.
type Length struct {
	Words    string
	Absence  Absence           // Present when Metres holds
	Written  places.Length     // the program's reading of the words
	ByHand   *ledger.ReadValue // a person's reading; nil: none
	Read     places.Length     // the reading that holds: the person's, if it can be read, else the program's
	FromHand bool
	Known    bool
	Metres   float64 // the middle, when the words give a span
}

func lengthOf(words string, hand *ledger.ReadValue) Length {
	l := Length{Words: words, ByHand: hand, Written: places.ReadElevation(words)}
	l.Read = l.Written
	if hand != nil {
		if r := places.ReadElevation(hand.Is.Text); r.Known() {
			l.Read, l.FromHand = r, true
		}
	}
	if l.Known = l.Read.Known(); l.Known {
		l.Metres = l.Read.Mid()
	} else {
		l.Absence = absenceOfPlace(l.Read.None)
	}
	return l
}
