package reading

import (
	"blotter/ledger"
	"blotter/ledger/dates"
)

// Date is one date as written and as read.
type Date struct {
	Words   string
	Absence Absence           // Present when First and Last hold
	Written dates.Reading     // the program's reading of the words
	ByHand  *ledger.ReadValue // a person's reading; nil: none
	Read    dates.Reading     // the reading that holds: the person's, if it can be read, else the program's

	Known       bool // Read has a first and a last day, which follow
	First, Last dates.Day

	fromHand bool
}

// date reads words; a person's reading, if there is one that can be read,
// goes before the program's.
func (x *Reader) date(words string, hand *ledger.ReadValue, o dates.Options) Date {
	d := Date{Words: words, ByHand: hand}
	d.Written = x.day(words, o)
	d.Read = d.Written
	if hand != nil {
		if r := x.day(hand.Is.Text, x.c.Slips()); r.Known() {
			d.Read, d.fromHand = r, true
		}
	}
	d.Known = d.Read.Known() && !d.Read.OpenStart && !d.Read.OpenEnd
	if d.Known {
		d.First, d.Last = d.Read.First, d.Read.Last
	}
	if !d.Read.Known() {
		d.Absence = absenceOfDate(d.Read.None)
	}
	return d
}

func absenceOfDate(n dates.None) Absence {
	switch n {
	case dates.NotRecorded:
		return None
	case dates.Illegible:
		return Illegible
	case dates.NotTyped:
		return Untyped
	}
	return Unread
}

// FromHand reports whether the reading that holds is a person's.
func (d Date) FromHand() bool { return d.fromHand }
