package work

import (
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// Breach is one thing that a record says against the permit under which it
// was gathered.
type Breach struct {
	Code  string // permit-unknown, permit-day, permit-person, permit-taxon, permit-place
	Words string // never the words of a place
}

// HasPermits reports whether the museum keeps its permits in work/.
func (w *Works) HasPermits() bool {
	for _, f := range w.Files {
		if f.Kind.Name == "permit" {
			return true
		}
	}
	return false
}

// Breaches compares a record with the permits that it names. Without permits
// in work/ nothing is said; a record that names several needs one that covers
// each thing.
func (w *Works) Breaches(e *book.Entry) []Breach {
	if e.Permit == "" || !w.HasPermits() {
		return nil
	}
	files := w.PermitsOf(e.Permit)
	if len(files) == 0 {
		return []Breach{{"permit-unknown", "names a permit that is not in work/permit/, so nobody can say whether it was kept"}}
	}
	var out []Breach
	for _, c := range []struct {
		code  string
		keeps func(*File) (bool, string)
	}{
		{"permit-day", w.dayUnder(e)}, {"permit-person", w.personUnder(e)}, {"permit-taxon", w.taxonUnder(e)}, {"permit-place", w.placeUnder(e)},
	} {
		kept, words := false, ""
		for _, f := range files {
			ok, why := c.keeps(f)
			kept = kept || ok
			if !ok && words == "" {
				words = permitName(f) + " " + why
			}
		}
		if !kept {
			out = append(out, Breach{c.code, words})
		}
	}
	return out
}

// dayUnder asks whether a sheet was gathered while the permit held. A date
// that is partly inside may have been kept.
func (w *Works) dayUnder(e *book.Entry) func(*File) (bool, string) {
	return func(f *File) (bool, string) {
		p := ReadPermit(f)
		switch {
		case p.Refused:
			return false, "was refused"
		case !p.Granted:
			return false, "was applied for and is not granted"
		case !e.Dated:
			return true, ""
		case p.From != 0 && e.Last < p.From:
			return false, "holds from " + dates.Words(p.From) + " on, after the day of gathering"
		case p.To != 0 && e.First > p.To:
			return false, "held until " + dates.Words(p.To) + ", before the day of gathering"
		case p.Lapsed != 0 && e.First >= p.Lapsed:
			return false, "lapsed on " + dates.Words(p.Lapsed) + ", before the day of gathering"
		}
		return true, ""
	}
}

func (w *Works) personUnder(e *book.Entry) func(*File) (bool, string) {
	people := &w.book.Museum.People
	return func(f *File) (bool, string) {
		if len(f.Work.Permit.Persons) == 0 || e.Collector == "" {
			return true, ""
		}
		for _, l := range f.Work.Permit.Persons {
			for _, who := range strings.Split(e.Collector+"; "+e.With, "; ") {
				a, b := people.Find(l.Text), people.Find(who)
				if who != "" && (strings.EqualFold(l.Text, who) || a != nil && a == b || identify(people, l.Text).same(identify(people, who))) {
					return true, ""
				}
			}
		}
		return false, "does not name the collector"
	}
}

func (w *Works) taxonUnder(e *book.Entry) func(*File) (bool, string) {
	return func(f *File) (bool, string) {
		if len(f.Work.Permit.Taxa) == 0 || e.NameKey == "" {
			return true, ""
		}
		family := w.book.Museum.FamilyOf(w.taxon(e), e.Family)
		for _, l := range f.Work.Permit.Taxa {
			for key := range w.keysAbove(e) {
				if strings.EqualFold(key, strings.TrimSpace(l.Text)) || strings.HasPrefix(strings.ToLower(l.Text), strings.ToLower(key)+" ") && strings.Count(key, " ") > 0 {
					return true, ""
				}
			}
			if family != "" && strings.EqualFold(family, strings.TrimSpace(l.Text)) {
				return true, ""
			}
		}
		return false, "does not cover " + e.NameKey
	}
}

// keysAbove are a sheet's names, as it was named and as it is accepted, and
// what they belong to.
func (w *Works) keysAbove(e *book.Entry) map[string]bool {
	out := map[string]bool{}
	for _, key := range []string{e.NameKey, w.taxon(e)} {
		for ; key != ""; key = above(key) {
			out[key] = true
		}
	}
	return out
}

func (w *Works) placeUnder(e *book.Entry) func(*File) (bool, string) {
	return func(f *File) (bool, string) {
		if len(f.Work.Permit.Places) == 0 {
			return true, ""
		}
		words := strings.ToLower(strings.Join([]string{e.Country, e.Province, e.District, e.Locality}, "\n"))
		for _, l := range f.Work.Permit.Places {
			if p := strings.ToLower(strings.TrimSpace(l.Text)); p != "" && strings.Contains(words, p) {
				return true, ""
			}
		}
		return strings.TrimSpace(words) == "", "does not cover the place"
	}
}

// Collected is what was gathered under a permit.
type Collected struct {
	Sheets     int
	Gatherings int
	Taken      int // plants: those that records say, one for each gathering that says nothing
}

// CollectedUnder sums what was gathered under every permit, in one walk. The
// sheets of one gathering are one taking.
func (w *Works) CollectedUnder() map[*File]Collected {
	out := map[*File]Collected{}
	if !w.HasPermits() {
		return out
	}
	type taking struct {
		file *File
		key  string
	}
	most := map[taking]int{}
	named := map[string][]*File{}
	for e := range w.book.All() {
		if e.Permit == "" {
			continue
		}
		files, known := named[e.Permit]
		if !known {
			files = w.PermitsOf(e.Permit)
			named[e.Permit] = files
		}
		for _, f := range files {
			c := out[f]
			c.Sheets++
			key := taking{f, gatheringOf(e)}
			had, seen := most[key]
			n := max(int(e.Taken), 1)
			if !seen {
				c.Gatherings++
			}
			c.Taken += max(n-had, 0)
			most[key] = max(n, had)
			out[f] = c
		}
	}
	return out
}

// PermitFindings are what permits themselves want: a report, consent, no more
// than they allow.
func (w *Works) PermitFindings(today dates.Day) []ledger.Finding {
	var out []ledger.Finding
	under := w.CollectedUnder()
	access := dates.Day(0)
	if r := dates.Read(w.Habits.Collecting.AccessFrom.Text, dates.Ask); r.Known() {
		access = r.First
	}
	for _, f := range w.Files {
		if f.Kind.Name != "permit" {
			continue
		}
		p, paper := ReadPermit(f), &f.Work.Permit
		say := func(code, field string, l ledger.Leaf, message, hint string) {
			if !l.Set() {
				l = f.Work.Work
			}
			out = append(out, ledger.Finding{Path: f.Path, Line: int(l.Line), Col: int(l.Col), Field: field, Severity: ledger.Warning, Code: code, Message: message, Hint: hint})
		}
		if most := figure(paper.Most); most > 0 && under[f].Taken > most {
			say("permit-most", "permit.most", paper.Most, fmt.Sprintf("%d were taken under it, and it allows %d", under[f].Taken, most), "Ask whoever gave it. If a record counts too many, mend its taken:")
		}
		if today != 0 && p.Report != 0 && p.Reported == 0 && p.Granted && today > p.Report {
			say("permit-report", "permit.report", paper.Report, fmt.Sprintf("its report was due on %s, %d days ago", dates.Words(p.Report), today-p.Report), "Once it is sent: blotter log "+string(f.Number)+" reported")
		}
		accessed, _ := span(paper.Accessed.Text)
		if accessed == 0 && paper.For.Text == "access" {
			accessed = p.From
		}
		if access != 0 && accessed >= access && paper.Country.Set() && !paper.Consent.Set() {
			say("permit-consent", "permit.country", paper.Country, "gives access to genetic resources of a country and has no reference of its consent", "permit.consent: the reference, or why none is needed")
		}
	}
	return out
}
