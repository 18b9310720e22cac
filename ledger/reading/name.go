package reading

import (
	"errors"
	"strings"

	"blotter/ledger"
	"blotter/ledger/names"
	"blotter/ledger/opinion"
)

// Name is one name as written and as read.
type Name struct {
	Words    string
	Readable bool
	Unnamed  bool       // the words say that the plant was not named: indet.
	Read     names.Name // zero when not Readable
	Keys     []string   // canonical forms without authors and qualifiers; two or more for `A or B`
}

// Key is the canonical form of the name, or of the first of its
// alternatives; "" when it could not be read.
func (n Name) Key() string {
	if len(n.Keys) == 0 {
		return ""
	}
	return n.Keys[0]
}

// Opinion is one determination as read.
type Opinion struct {
	Given *ledger.Determination
	Kind  opinion.Kind
	Name  Name
	Date  Date
	State opinion.State
}

// ReadName reads one name, alternatives (`A or B`) included.
func ReadName(words string) Name {
	n := Name{Words: words}
	if AbsenceOf(words) != Present {
		n.Unnamed = true
		return n
	}
	read, err := names.Read(words)
	if err != nil {
		var not *names.NotAName
		n.Unnamed = errors.As(err, &not) && not.None
		return n
	}
	n.Readable, n.Read = true, read
	if len(read.Or) == 0 {
		n.Keys = []string{read.Canonical()}
		return n
	}
	for _, a := range read.Or {
		n.Keys = append(n.Keys, a.Canonical())
	}
	return n
}

// opinions reads the determinations and what they amount to.
func (x *Reader) opinions(d *Reading) {
	dets := d.Record.Determinations
	d.Opinions = make([]Opinion, len(dets))
	for i := range dets {
		t := &dets[i]
		d.Opinions[i] = Opinion{Given: t, Kind: opinion.KindOf(t.Kind.Text), Name: x.name(t.Name.Text)}
		if d.DatedAsCollected(i) {
			d.Opinions[i].Date = x.date(t.Date.Text, byHand(&d.Record.Read.Date), x.c.Collected())
		} else {
			d.Opinions[i].Date = x.date(t.Date.Text, nil, x.c.Slips())
		}
	}
	var filed []string
	if d.Record.FiledUnder.Name.Set() {
		d.Filed = x.name(d.Record.FiledUnder.Name.Text)
		filed = d.Filed.chainKeys()
	}
	d.Chain = opinion.Judge(d.given(), filed)
	for i := range d.Opinions {
		d.Opinions[i].State = d.Chain.States[i]
	}
}

// DatedAsCollected reports whether the label, or the collector, gave opinion i
// its date in the words of the date of collecting: then both are one writing,
// read in one way, and a person's reading of the one holds for the other.
func (d *Reading) DatedAsCollected(i int) bool {
	r, t := d.Record, &d.Record.Determinations[i]
	return t.Date.Text == r.Date.Text && (t.From.Text == "label" || t.By.Text == r.Collector.Text) && AbsenceOf(r.Date.Text) == Present
}

// given is the determinations in the form that ledger/opinion judges.
func (d *Reading) given() []opinion.Given {
	out := make([]opinion.Given, len(d.Opinions))
	for i := range d.Opinions {
		o := &d.Opinions[i]
		out[i] = opinion.Given{
			Kind: o.Kind, Names: o.Name.chainKeys(), By: o.Given.By.Text, Part: o.Given.Part.Text, Label: o.Given.From.Text == "label",
			Mistake: o.Given.Mistake.Set(), Aside: o.Given.Seen.Text == "duplicate", Dated: o.Date.Known, First: int32(o.Date.First), Last: int32(o.Date.Last),
		}
	}
	return out
}

// chainKeys are the keys that opinions are compared by: those of the name, or
// the words themselves when they cannot be read as a name.
func (n Name) chainKeys() []string {
	if n.Readable {
		return n.Keys
	}
	if w := strings.Join(strings.Fields(n.Words), " "); w != "" {
		return []string{w}
	}
	return nil
}

// Current is the name that holds now and the place of its opinion in the
// record's list; -1 when nobody gave it there (the words are filed_under's,
// or there are none). The zero Name means: not yet named.
func (d *Reading) Current() (Name, int) {
	if d.Chain.Current >= 0 {
		return d.Opinions[d.Chain.Current].Name, d.Chain.Current
	}
	if d.Chain.Filed {
		return d.Filed, -1
	}
	return Name{}, -1
}

// WithoutFiling is what the determinations amount to when filed_under is left
// aside.
func WithoutFiling(d *Reading) opinion.Chain { return opinion.Judge(d.given(), nil) }
