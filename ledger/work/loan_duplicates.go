package work

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

// Spare is the duplicates of one gathering that have no specimen number: as
// its record and the works tell, each sending once.
type Spare struct {
	Made   int // 0: not said
	Stated int // on hand, as the record says; -1: not said
	Sent   []Despatch
}

// Despatch is duplicates that went to one partner on one day.
type Despatch struct {
	Partner string // as written
	Day     dates.Day
	Dated   bool
	Count   int
	Number  string            // theirs
	By      ledger.WorkNumber // "": the record tells it
}

// OnHand is how many are still here: what was made less what was sent, or what
// the record says is left less what works sent since; false when neither is
// said. Below 0 more were sent than made.
func (s Spare) OnHand() (int, bool) {
	sent, byWorks := 0, 0
	for _, d := range s.Sent {
		sent += d.Count
		if d.By != "" {
			byWorks += d.Count
		}
	}
	switch {
	case s.Made > 0:
		return s.Made - sent, true
	case s.Stated >= 0:
		return s.Stated - byWorks, true
	}
	return 0, false
}

var countBefore = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9]{1,3}) *(?:×|x|to|:)? +(.+)$`) })

// DuplicatesOf is the spare duplicates of a record's gathering. What both the
// record and a work tell, to one partner on one day or with no day in the
// record, counts once.
func (w *Works) DuplicatesOf(e *book.Entry, r *ledger.Record) Spare {
	s := Spare{Stated: -1}
	for _, l := range r.Duplicates {
		if n := reading.ReadNumber(l.Made.Text); n.Known {
			s.Made += n.Least
		}
		if n := reading.ReadNumber(l.OnHand.Text); n.Known {
			s.Stated = max(s.Stated, 0) + n.Least
		}
		if l.Sent.Set() {
			d := Despatch{Partner: l.Sent.Text, Count: 1, Number: l.Number.Text}
			if m := countBefore().FindStringSubmatch(l.Sent.Text); m != nil {
				d.Count, _ = strconv.Atoi(m[1])
				d.Partner = m[2]
			}
			if read := dates.Read(l.Date.Text, dates.Ask); read.Known() {
				d.Day, d.Dated = read.Last, true
			}
			s.Sent = append(s.Sent, d)
		}
	}
	told := len(s.Sent)
	for _, d := range w.despatches()[gatheringOf(e)] {
		if !w.toldBefore(s.Sent[:told], d) {
			s.Sent = append(s.Sent, d)
		}
	}
	return s
}

// toldBefore reports whether the record tells a sending itself; one of its
// entries answers one sending.
func (w *Works) toldBefore(told []Despatch, d Despatch) bool {
	for i := range told {
		t := &told[i]
		if t.By == "" && w.PartnerKey(t.Partner) == w.PartnerKey(d.Partner) && (!t.Dated || t.Day == d.Day || t.Day.Year() == d.Day.Year() && t.Day >= d.Day) {
			t.Count = max(t.Count, d.Count)
			t.By, t.Day, t.Dated = d.By, d.Day, true
			return true
		}
	}
	return false
}

// despatches are the duplicates that gifts and exchanges sent, by gathering;
// worked out once. A count beside one gathering is how many of it; without one,
// or beside several, each is one.
func (w *Works) despatches() map[string][]Despatch {
	w.sentOnce.Do(func() {
		w.sent = map[string][]Despatch{}
		for _, f := range w.Files {
			if f.Kind.Name != "gift" && f.Kind.Name != "exchange" {
				continue
			}
			for _, e := range f.Events {
				if e.Verb != "sent" {
					continue
				}
				var keys []string
				for _, i := range w.gatheringsOf(f, e) {
					for _, no := range figuresOf(i.No, i.LastN) {
						keys = append(keys, reading.Who(i.Who)+"|"+strings.ToLower(no))
					}
				}
				count := 1
				if n, _, ok := ReadCount(e.Line.Count.Text); ok && len(keys) == 1 {
					count = n
				}
				for _, key := range keys {
					w.sent[key] = append(w.sent[key], Despatch{Partner: f.Work.Partner.Text, Day: e.Day, Dated: true, Count: count, By: f.Number})
				}
			}
		}
	})
	return w.sent
}

// gatheringsOf are the gatherings that a line of a work is about: what it
// names, or what lines before it named.
func (w *Works) gatheringsOf(f *File, e *Event) []Item {
	from := []*Event{e}
	if e.All() {
		from = from[:0]
		for _, x := range f.Events {
			if x.N < e.N && (x.Verb == "selected" || x.Verb == "packed") {
				from = append(from[:0], x) // the last of them
			}
		}
	}
	var out []Item
	for _, x := range from {
		for _, i := range x.Items {
			if i.Who != "" && i.No != "" {
				out = append(out, i)
			}
		}
	}
	return out
}

// Holder is a partner who has a duplicate of a sheet.
type Holder struct {
	Partner string // as written
	Number  string // theirs, when it is known
	Count   int
}

// Holders are the partners who have duplicates of a record's gathering, each
// once, in the order in which they got them.
func (w *Works) Holders(e *book.Entry, r *ledger.Record) []Holder {
	var out []Holder
	at := map[string]int{}
	for _, d := range w.DuplicatesOf(e, r).Sent {
		key := w.PartnerKey(d.Partner)
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, Holder{Partner: w.PartnerWords(d.Partner)})
		}
		out[i].Count += d.Count
		if out[i].Number == "" {
			out[i].Number = d.Number
		}
	}
	return out
}
