package work

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// Sending is what somebody is about to do with sheets.
type Sending struct {
	File     *File
	Verb     string
	On       dates.Day
	Sheets   []ledger.Number
	Material string // of a sampling: what is taken; "" as the heading says
}

// Bar is one reason for which a sheet is not to go.
type Bar struct {
	Rule  string        // its code among LendingRules
	Sheet ledger.Number // "": all of them
	Words string        // the reason, lower case, no full stop
}

// Bars are the reasons that stand against a sending, sheet by sheet in the
// order of the sheets. What an earlier line of the same work gave a reason for
// is not told again, unless it lies in the state of the sheet itself.
func (w *Works) Bars(ctx context.Context, load *book.Loader, s Sending) ([]Bar, error) {
	j := &barring{w: w, s: s, kind: s.File.Kind.Name, taxa: map[string]*taxonCount{}}
	var entries []*book.Entry
	for _, n := range s.Sheets {
		if e := w.book.Find(n); e != nil {
			entries = append(entries, e)
		}
	}
	j.countTaxa(entries)
	j.grades, j.held = w.conditions(s.Sheets, s.On)
	for _, e := range entries {
		r, err := load.Record(ctx, e)
		if err != nil {
			return nil, err
		}
		j.sheet(e, r)
	}
	answered := w.answered(s)
	return slices.DeleteFunc(j.out, func(b Bar) bool {
		return answered[b.Sheet.Key()] && !slices.Contains([]string{"grade", "held", "place", "untreated", "withdrawn"}, b.Rule)
	}), nil
}

// barring is one run of Bars.
type barring struct {
	w      *Works
	s      Sending
	kind   string
	taxa   map[string]*taxonCount
	grades map[string]string
	held   map[string]string
	before map[string][]took
	out    []Bar
}

func (j *barring) say(rule string, e *book.Entry, words string) {
	if holdsFor(rule, j.kind) {
		j.out = append(j.out, Bar{rule, e.Number, words})
	}
}

func (j *barring) sheet(e *book.Entry, r *ledger.Record) {
	if len(e.Types) > 0 {
		j.say("type", e, "it is a type: "+strings.Join(e.Types, ", "))
	}
	j.scarce(e)
	if words := j.w.Protection(e); words != "" {
		j.say("protected", e, "its taxon is protected: "+words)
	}
	if j.w.Withheld(e) {
		j.say("sensitive", e, "its place is withheld, since the plant is at risk")
	}
	if j.kind == "sampling" {
		j.sampling(e, r)
	}
	j.permits(e, r)
	j.treaty(e)
	j.state(e)
}

// state tells of what the sheet itself cannot bear now.
func (j *barring) state(e *book.Entry) {
	key := e.Number.Key()
	if j.grades[key] == "4" {
		j.say("grade", e, "its condition is grade 4, not to be handled")
	}
	if by := j.held[key]; by != "" {
		j.say("held", e, "it is held by "+by)
	}
	if e.Fate != "" {
		j.say("withdrawn", e, "it is withdrawn: "+e.Fate)
		return
	}
	if j.s.Verb == "approved" {
		return
	}
	s := j.w.State(e.Number, j.s.On)
	if s.By != nil && s.By.File.Number == j.s.File.Number {
		return // it is this work that has it
	}
	by := ""
	if s.By != nil {
		by = ", " + string(s.By.File.Number)
	}
	switch s.Where {
	case Returned:
		j.say("untreated", e, "it came back from a loan and has not been treated since"+by)
	case OnLoan, Missing, Freezer, InBag, Weights, InPress, Display, OutCard, Stray, Packed, Gone, Coming:
		j.say("place", e, "it is "+placeWords[s.Where]+by)
	}
}

var placeWords = map[Place]string{
	OnLoan: "on loan", Missing: "missing", Freezer: "in the freezer or under treatment", InBag: "out of the freezer in its closed bag", Weights: "under weight",
	InPress: "in the press", Display: "on display", OutCard: "taken out", Stray: "misplaced", Packed: "packed for another", Gone: "gone", Coming: "not here yet",
}

// permits tells of permits under which a sheet was gathered and that do not
// allow what is about to be done.
func (j *barring) permits(e *book.Entry, r *ledger.Record) {
	for _, f := range j.w.PermitsOf(r.Permit.Text) {
		p := &f.Work.Permit
		name := permitName(f)
		if p.ThirdParty.Text == "no" {
			j.say("third-party", e, name+" does not let material pass to others")
		}
		if len(p.Uses) > 0 && !allowsUse(p.Uses, j.s.File.Work.Purpose.Text) {
			var uses []string
			for _, u := range p.Uses {
				uses = append(uses, u.Text)
			}
			purpose := "the purpose is not said"
			if t := j.s.File.Work.Purpose.Text; t != "" {
				purpose = "the purpose is " + t
			}
			j.say("uses", e, name+" allows "+strings.Join(uses, ", ")+"; "+purpose)
		}
	}
}

// wideWords are words of a purpose that say nothing of it.
var wideWords = map[string]bool{"research": true, "study": true, "studies": true, "work": true, "purposes": true, "purpose": true, "project": true, "with": true, "from": true, "uses": true, "only": true, "analysis": true}

// allowsUse reports whether a purpose is within one of the uses: the words of
// one stand in the other, or they share a word that means something.
func allowsUse(uses []ledger.Leaf, purpose string) bool {
	purpose = strings.ToLower(purpose)
	if strings.TrimSpace(purpose) == "" {
		return false
	}
	for _, u := range uses {
		use := strings.ToLower(u.Text)
		if strings.Contains(purpose, use) || strings.Contains(use, purpose) {
			return true
		}
		for _, word := range strings.FieldsFunc(use, notLetter) {
			if len(word) >= 4 && !wideWords[word] && slices.Contains(strings.FieldsFunc(purpose, notLetter), word) {
				return true
			}
		}
	}
	return false
}

func notLetter(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= 0x80) }

// treaty tells of a listed plant that would cross a border.
func (j *barring) treaty(e *book.Entry) {
	listed := j.w.Treaty(e)
	if listed == "" {
		return
	}
	partner := j.s.File.Work.Partner.Text
	crosses, known := j.w.crosses(partner)
	if known && !crosses || j.w.registered(partner) || j.hasPermit("treaty", "export") {
		return
	}
	words := "its taxon is in appendix " + listed + " of the treaty on trade in species, and "
	if !known {
		words += "the partners in blotter.yaml do not say whether it crosses a border"
	} else {
		words += "it crosses a border: both institutions must be registered, or a permit named"
	}
	j.say("treaty", e, words)
}

// registered reports whether both sides have a code in the treaty's register.
func (w *Works) registered(partner string) bool {
	here, there := w.own(), w.PartnerOf(partner)
	return here != nil && there != nil && here.Treaty.Set() && there.Treaty.Set()
}

// hasPermit reports whether the work names a permit for one of these that
// holds on the day.
func (j *barring) hasPermit(kinds ...string) bool {
	for _, l := range j.s.File.Work.Permits {
		for _, f := range j.w.PermitsOf(l.Text) {
			p := ReadPermit(f)
			if slices.Contains(kinds, f.Work.Permit.For.Text) && p.Holds(j.s.On) {
				return true
			}
		}
	}
	return false
}

// conditions are, of some sheets, the grade last noted and the incident that
// holds them.
func (w *Works) conditions(ns []ledger.Number, on dates.Day) (grades, held map[string]string) {
	grades, held = map[string]string{}, map[string]string{}
	wanted := map[string]bool{}
	for _, n := range ns {
		wanted[n.Key()] = true
	}
	inFile := map[*File]map[string]bool{}
	for _, e := range w.events {
		if e.Day > on {
			break
		}
		touched := inFile[e.File]
		if touched == nil {
			touched = map[string]bool{}
			inFile[e.File] = touched
		}
		about := touched
		if !e.All() {
			about = map[string]bool{}
			for _, i := range e.Items {
				for key := range wanted {
					if i.has(key) {
						about[key], touched[key] = true, true
					}
				}
			}
		}
		for key := range about {
			if g := e.Line.Grade.Text; g != "" {
				grades[key] = g
			}
			switch e.Verb {
			case "held":
				held[key] = string(e.File.Number)
			case "cleared", ledger.EventClosed:
				if held[key] == string(e.File.Number) {
					delete(held, key)
				}
			}
		}
	}
	return grades, held
}

// has reports whether an item names the specimen of a key.
func (i Item) has(key string) bool {
	if i.Sheet == "" {
		return false
	}
	first := i.Sheet.Key()
	if i.Last == "" {
		return first == key
	}
	last := i.Last.Key()
	if len(first) == len(last) && len(key) == len(first) {
		return first <= key && key <= last
	}
	stem := strings.TrimRight(first, "0123456789")
	n, err := strconv.Atoi(strings.TrimPrefix(key, stem))
	a, errA := strconv.Atoi(strings.TrimPrefix(first, stem))
	b, errB := strconv.Atoi(strings.TrimPrefix(last, stem))
	return strings.HasPrefix(key, stem) && err == nil && errA == nil && errB == nil && a <= n && n <= b
}

// answered are the sheets for which an earlier line of the same work that
// sends or samples gave its reason.
func (w *Works) answered(s Sending) map[string]bool {
	out := map[string]bool{}
	for _, e := range s.File.Events {
		if !e.Line.Why.Set() || !Judged(s.File.Kind.Name, e.Verb) {
			continue
		}
		for _, n := range s.Sheets {
			if e.All() || slices.ContainsFunc(e.Items, func(i Item) bool { return i.has(n.Key()) }) {
				out[n.Key()] = true
			}
		}
	}
	return out
}
