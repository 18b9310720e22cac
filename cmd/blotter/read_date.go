package main

import "blotter/ledger/dates"

// dateTold is the reading of a date.
type dateTold struct {
	readHead
	First    string   `json:"first,omitempty"` // ISO day; absent when nothing is said of the first day
	Last     string   `json:"last,omitempty"`
	EDTF     string   `json:"edtf,omitempty"`
	Readings []string `json:"readings,omitempty"` // when it can be read in more than one way
	words    string
	season   bool
}

func (t *dateTold) object() any { return t }

func readDateText(x *readDesk, text string) told {
	t := &dateTold{readHead: headOf(text)}
	r := dates.ReadWith(text, x.habits.Collected())
	for _, w := range r.Warnings {
		t.warn(w.Code, w.Message)
		if len(w.Readings) > 0 {
			t.Readings = w.Readings
		}
	}
	switch {
	case r.Known():
		if !r.OpenStart {
			t.First = r.First.String()
		}
		if !r.OpenEnd {
			t.Last = r.Last.String()
		}
		if y, m, d := x.Now().Date(); !r.OpenStart && r.First > dates.DayOf(y, int(m), d) {
			t.warn("date-future", "lies in the future")
		}
		t.EDTF, t.words = r.EDTF(), "read as "+r.String()
		t.season = r.Precision == dates.ToSeason
	case r.None != dates.Stated:
		t.words = noneSaid(r.None == dates.NotRecorded, r.None == dates.Illegible)
	default:
		t.refuse("no date can be read in these words")
	}
	return t
}

func (t *dateTold) lines() []string {
	var more []string
	if t.EDTF != "" {
		more = append(more, "from "+orNothing(t.First)+" to "+orNothing(t.Last)+", in EDTF "+t.EDTF)
	}
	if t.season {
		more = append(more, "a season has no set days and lies otherwise south of the equator, so any day of that year may be meant")
	}
	return t.linesWith(t.words, more...)
}

func orNothing(s string) string {
	if s == "" {
		return "nobody says"
	}
	return s
}

// noneSaid is the phrase for words that give no value.
func noneSaid(notRecorded, illegible bool) string {
	switch {
	case notRecorded:
		return "none on the label"
	case illegible:
		return "there, but not legible"
	}
	return "not yet typed"
}
