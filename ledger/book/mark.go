package book

import (
	"slices"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// Mark is a mark of sensitivity and its release as read.
type Mark struct {
	Set      bool      // any of its fields is filled in
	Category string    // as written
	On       dates.Day // the last day on which it may have been made; 0 when that is not known
	Review   dates.Day // the last day of when it is looked at again; 0 when that is not known
	Released dates.Day // the first day on which it may have been released; 0 when it is not
}

// Holds reports whether there is a mark that no release ended: one that may
// be younger than the release stays.
func (m Mark) Holds() bool { return m.Set && (m.Released == 0 || m.On > m.Released) }

// MarkOf reads a mark. A mark that lacks its category or reason still
// protects; a release that lacks one of its three fields, or whose date
// cannot be read, is none.
func MarkOf(s ledger.Sensitive) Mark {
	m := Mark{Set: s.Why.Set() || s.Category.Set() || s.Review.Set() || s.By.Set() || s.Date.Set(), Category: s.Category.Text}
	if s.Date.Set() {
		if d := dates.Read(s.Date.Text, dates.Ask); d.Known() && !d.OpenEnd {
			m.On = d.Last
		}
	}
	if s.Review.Set() {
		if d := dates.Read(s.Review.Text, dates.Ask); d.Known() && !d.OpenEnd {
			m.Review = d.Last
		}
	}
	if r := s.Released; r.Why.Set() && r.By.Set() && r.Date.Set() {
		if d := dates.Read(r.Date.Text, dates.Ask); d.Known() && !d.OpenStart {
			m.Released = d.First
		}
	}
	return m
}

// MarkedSensitive reports whether s withholds something.
func MarkedSensitive(s ledger.Sensitive) bool { return MarkOf(s).Holds() }

// marks fills in what the record says of its sensitivity, and the names on it
// that are no opinions.
func (e *Entry) marks(d *reading.Reading, in *Intern) {
	r := d.Record
	e.Mark = MarkOf(r.Sensitive)
	e.Mark.Category = in.Of(e.Mark.Category)
	e.Beside = Beside(d, e.NameKey, in)
	if e.Mark.Released == 0 {
		return
	}
	for i := range d.Opinions {
		if o := &d.Opinions[i]; counts(o) && o.Date.Known && o.Date.Last > e.Mark.Released {
			for _, k := range o.Name.Keys {
				e.Since = append(e.Since, in.Of(k))
			}
		}
	}
}

// counts reports whether an opinion says what the plant is: not that it is
// something else, and not by mistake.
func counts(o *reading.Opinion) bool { return o.State != opinion.Mistake && o.Kind != opinion.Not }

// Beside is the words of names that stand on a record and are in no readable
// opinion: on its cover, where it is filed, of which it is a type, and those
// that cannot be read. known is a canonical form that need not be said again.
func Beside(d *reading.Reading, known string, in *Intern) []string {
	r := d.Record
	var out []string
	add := func(words string) {
		if words != "" && words != known && !slices.Contains(out, words) {
			out = append(out, in.Of(words))
		}
	}
	if cover := r.CoverName.Text; !slices.ContainsFunc(r.Determinations, func(t ledger.Determination) bool { return t.Name.Text == cover }) {
		add(cover)
	}
	add(r.FiledUnder.Name.Text)
	for i := range d.Types {
		if !d.Types[i].Mistake {
			add(d.Types[i].Of.Words)
		}
	}
	for i := range d.Opinions {
		if o := &d.Opinions[i]; counts(o) && len(o.Name.Keys) == 0 && !o.Name.Unnamed {
			add(o.Name.Words)
		}
	}
	return out
}
