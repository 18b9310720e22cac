// Package book holds ONE version of a ledger as read: a small entry for every
// record, the museum's own files, which pictures there are. It is what rules,
// lists, pages and searches look at; whoever needs a record's every word
// loads that record by its blob (Loader). Load makes a Book from a Source and
// a disposable cache; from scratch and from any cache or older Book the
// result is the same.
package book

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

// Entry is what the Book keeps of one record: little enough that a million fit
// in memory. Strings that many records share (countries, collectors, names) are
// interned; what few records have lies apart, one empty part for all others. An
// Entry is never changed once it is in a Book: the public Book has the same
// Shown of every record of which nothing is withheld.
type Entry struct {
	*Shown
	*Judged
}

// Shown is what lists, pages and searches show of a record.
type Shown struct {
	*Seldom

	Number ledger.Number
	Path   string
	Blob   ledger.BlobID
	Stage  ledger.Stage

	Collector string    // as written
	With      string    // further collectors as written, joined by "; "
	CollNo    string    // as written
	Date      string    // as written
	First     dates.Day // span of the reading that holds, a person's first; 0, 0 when Dated is false
	Last      dates.Day

	Country, Province, District, Locality string  // as written
	Lat, Lon                              float64 // degrees on WGS84
	Uncertainty                           float64 // metres: the radius of reading.Position; 0 when not Positioned

	Name                string    // current name as written, "" when not yet named
	NameKey             string    // canonical form of it without authors and qualifiers; "" when it could not be read
	By                  string    // who holds that opinion
	NamedFirst, NamedOn dates.Day // span of that opinion's date; only when NamedDated
	Once                []string  // canonical forms of every other name in its determinations, oldest first, each once
	People              []string  // everybody else who signed a determination, as written, each once
	Family              string    // as the record writes it; Museum.FamilyOf joins names/
	Kept                string    // kept_as as written
	Flags               Flags
	Dated, Positioned   bool
	Uncertain           bool // the date is about, doubtful or can be read in two ways
}

// Seldom is what few records have of Shown.
type Seldom struct {
	Fate   string     // "" here; else the last fate: lost, destroyed, ... (never "found")
	Fates  []Fated    // every withdrawal and find, in the order of the record
	Types  []string   // "isotype of NAME"; suspected ones begin with "possible "
	Images []string   // files of the ledger among its pictures, as written
	Sums   []ImageSum // those whose checksum the record keeps
}

// Judged is what the checks alone look at: a public Book has none of it.
type Judged struct {
	*SeldomJudged

	Who      string    // the collector named first: family name and first initial, folded
	Latest   dates.Day // first possible day of the latest of the dated acts, older opinions among them; 0: none
	LatestIn string    // the field of its date
	Taken    int32     // plants taken, as far as words of the record give one figure; 0: not said
	Lines    Lines
}

// SeldomJudged is what few records have of Judged.
type SeldomJudged struct {
	Findings []ledger.Finding // of this record alone, severity not yet raised by the museum; what Sic settles is among them
	Sic      []Sic            // warnings that somebody let stand
	Links    []Link           // numbers that it names beside its own
	Mark     Mark             // of sensitivity, in the record itself
	Beside   []string         // words of names on it that are in no readable opinion
	Since    []string         // canonical forms given after the release of its mark
	Permit   string           // words for the permit it was gathered under
}

// Link is a number that a record names.
type Link struct {
	Kind LinkKind
	To   string // as written
	Line int32
}

// LinkKind says what a number is to a record that names it.
type LinkKind uint8

const (
	PartNumber    LinkKind = iota + 1 // borne by one of its parts
	FurtherNumber                     // an old one, or another herbarium's
	SameGathering                     // another specimen here of the same plant
	SharesSheet                       // another specimen on the same board
	SameAs                            // the number under which it goes on
)

// Fated is one entry of a record's fate: a withdrawal, or its being found
// again.
type Fated struct {
	Is, To string    // as written
	On     dates.Day // the last possible day of its date; 0 when Dated is false
	Dated  bool
}

// ImageSum is a picture of the ledger and the checksum that it had when the
// record was written.
type ImageSum struct {
	File, Sum string // sha256:HEX
	Line, Col int32  // of the checksum
}

// Sic is one entry of a record's sic that has all it needs: it settles every
// warning of its code on the record, and those between the record and others.
type Sic struct {
	Code, Why, By, Date string // as written
	Line, Col           int32  // of the code
}

// Lines is where in the file some values stand, for findings; 0: nowhere.
type Lines struct {
	Specimen, Collector, With, CollNo, Date, Family, Name, By, Images, Latest, Types, Permit, Position int32 // Position: of the reading that holds
}

// Flags are yes-or-no facts of a record.
type Flags uint32

const (
	Sensitive    Flags = 1 << iota // marked in the record itself, and not released
	Imaged                         // has at least one image
	Cultivated                     // origin is cultivated or planted
	Disputed                       // two opinions stand
	Filed                          // filed_under says otherwise than the determinations
	Mixed                          // has parts or determinations of a part
	Typed                          // has a type entry that is not a mistake
	Questioned                     // has a question among its annotations
	Treated                        // carries the caution of poison, written or assumed
	Cautioned                      // carries any other caution
	Flower                         // phenology says in flower
	Fruit                          // phenology says in fruit or seed
	NamedDated                     // NamedOn holds
	Redet                          // named anew at least once since its first determination
	LabelDate                      // the date of the current opinion is, or may be, that of the gathering
	Wild                           // origin is wild
	Told                           // how far the position may be off is stated: by the label, the device or a person
	KeptSaid                       // kept_as has words
	PositionSaid                   // place.position has words, readable or not
	Private                        // grew in a private garden or house
)

// Has reports whether all of g are set.
func (f Flags) Has(g Flags) bool { return f&g == g }

// EntryOf is the digest of one record as read. Path and blob are the
// caller's, findings are empty.
func EntryOf(d *reading.Reading, in *Intern) Entry {
	r := d.Record
	e := Entry{&Shown{
		Seldom: &Seldom{Fate: in.Of(d.Fate)},
		Number: numberOf(r), Path: r.Path, Stage: ledger.Stage(in.Of(r.Entry.Text)),
		Collector: in.Of(r.Collector.Text), With: in.Of(joined(r.With)), CollNo: r.CollNo.Text,
		Date: r.Date.Text, Dated: d.Date.Known, First: d.Date.First, Last: d.Date.Last,
		Country: in.Of(r.Place.Country.Text), Province: in.Of(r.Place.Province.Text), District: in.Of(r.Place.District.Text),
		Locality:   in.Of(r.Place.Locality.Text),
		Positioned: d.Position.Known,
		Family:     in.Of(r.Family.Text), Kept: in.Of(r.KeptAs.Text), Flags: flagsOf(d),
		Uncertain: d.Date.Known && doubtful(d.Date.Read),
	}, &Judged{SeldomJudged: &SeldomJudged{}, Who: in.Of(d.Who)}}
	if d.Position.Known {
		e.Lat, e.Lon, e.Uncertainty = d.Position.Lat, d.Position.Lon, d.Position.Radius()
	}
	e.nameFrom(d, in)
	e.marks(d, in)
	e.rest(d, in)
	e.links(r)
	e.latest(d, in)
	e.fates(d, in)
	return e
}

// rest fills in what is a list.
func (e *Entry) rest(d *reading.Reading, in *Intern) {
	for _, t := range d.Types {
		if t.Holds() {
			e.Types = append(e.Types, in.Of(t.String()))
		}
	}
	r := d.Record
	for _, im := range r.Images {
		for _, f := range []string{im.File.Text, im.Public.Text} {
			if f != "" && !IsAddress(f) {
				e.Images = append(e.Images, f)
			}
		}
	}
	for _, im := range r.Images {
		if f := im.File.Text; f != "" && !IsAddress(f) && im.Checksum.Set() {
			e.Sums = append(e.Sums, ImageSum{f, im.Checksum.Text, im.Checksum.Line, im.Checksum.Col})
		}
	}
	if len(r.Types) > 0 {
		e.Lines.Types = r.Types[0].Status.Line
	}
	if len(r.Images) > 0 {
		e.Lines.Images = r.Images[0].File.Line
	}
	for _, s := range r.Sic {
		if s.Code.Set() && s.Why.Set() && s.By.Set() && s.Date.Set() {
			e.Sic = append(e.Sic, Sic{in.Of(s.Code.Text), in.Of(s.Why.Text), in.Of(s.By.Text), in.Of(s.Date.Text), s.Code.Line, s.Code.Col})
		}
	}
	e.Lines.Specimen = r.Specimen.Line
	if e.Positioned {
		e.Lines.Position = r.Place.Position.Line
		if d.Position.FromHand {
			e.Lines.Position = d.Position.ByHand.Is.Line
		}
	}
	e.Permit, e.Taken, e.Lines.Permit = in.Of(r.Permit.Text), int32(reading.ReadNumber(r.Taken.Text).Least), r.Permit.Line
	e.Lines.Collector, e.Lines.CollNo, e.Lines.Date, e.Lines.Family = r.Collector.Line, r.CollNo.Line, r.Date.Line, r.Family.Line
	if len(r.With) > 0 {
		e.Lines.With = r.With[0].Line
	}
}

// links fills in the numbers that a record names.
func (e *Entry) links(r *ledger.Record) {
	add := func(kind LinkKind, l ledger.Leaf) {
		if to := strings.TrimSpace(l.Text); to != "" {
			e.Links = append(e.Links, Link{kind, to, l.Line})
		}
	}
	for i := range r.Parts {
		add(PartNumber, r.Parts[i].Number)
	}
	for _, l := range r.FurtherNumbers {
		add(FurtherNumber, l)
	}
	for _, l := range r.SameGathering {
		add(SameGathering, l)
	}
	for _, l := range r.SharesSheet {
		add(SharesSheet, l)
	}
	for i := range r.Fate {
		if r.Fate[i].Is.Text == "same-as" {
			add(SameAs, r.Fate[i].To)
		}
	}
}

// fates fills in what became of the specimen.
func (e *Entry) fates(d *reading.Reading, in *Intern) {
	for i := range d.Record.Fate {
		f := &d.Record.Fate[i]
		to := Fated{Is: in.Of(strings.TrimSpace(f.Is.Text)), To: in.Of(f.To.Text)}
		for j := range d.Acts {
			if a := &d.Acts[j]; a.List == "fate" && a.Nth == i+1 && a.Date.Known {
				to.On, to.Dated = a.Date.Last, true
			}
		}
		e.Fates = append(e.Fates, to)
	}
}

// latest fills in the latest of what was done, but for the current opinion,
// which has fields of its own.
func (e *Entry) latest(d *reading.Reading, in *Intern) {
	take := func(day dates.Day, field string, line int32) {
		if e.LatestIn == "" || day > e.Latest {
			e.Latest, e.LatestIn, e.Lines.Latest = day, in.Of(field), line
		}
	}
	for i := range d.Acts {
		if a := &d.Acts[i]; a.Date.Known {
			take(a.Date.First, a.Field(), a.Of.Line)
		}
	}
	for i := range d.Opinions {
		if o := &d.Opinions[i]; i != d.Chain.Opinion && o.Date.Known {
			take(o.Date.First, "determinations", o.Given.Date.Line)
		}
	}
}

// IsAddress reports whether a picture's file is an address: on the web, or of a
// file outside the ledger.
func IsAddress(file string) bool {
	return strings.HasPrefix(file, "https://") || strings.HasPrefix(file, "http://") || IsOutside(file)
}

// IsOutside reports whether a picture's file is the address of a file outside
// the ledger, on some computer or share. It is for those who keep it: no page
// and no export names it.
func IsOutside(file string) bool { return strings.HasPrefix(file, "file:///") }

func doubtful(r dates.Reading) bool {
	return r.Approximate || r.Uncertain || r.Precision == dates.Ambiguous
}

// numberOf is the number that the file's name gives; a record that came from
// no file has the one it states.
func numberOf(r *ledger.Record) ledger.Number {
	if n, ok := ledger.NumberOfPath(r.Path); ok {
		return n
	}
	return ledger.Number(r.Specimen.Text)
}

func joined(ls []ledger.Leaf) string {
	if len(ls) == 0 {
		return ""
	}
	parts := make([]string, len(ls))
	for i, l := range ls {
		parts[i] = l.Text
	}
	return strings.Join(parts, "; ")
}

// nameFrom fills in the current name, who gave it and every other name.
func (e *Entry) nameFrom(d *reading.Reading, in *Intern) {
	name, at := d.Current()
	e.Name, e.NameKey = in.Of(name.Words), in.Of(name.Key())
	switch o := d.Chain.Opinion; {
	case o >= 0:
		op := &d.Opinions[o]
		e.By, e.NamedFirst, e.NamedOn = in.Of(op.Given.By.Text), op.Date.First, op.Date.Last
		e.Lines.By = op.Given.By.Line
		if op.Given.From.Text == "label" || op.Date.Read.Overlaps(d.Date.Read) {
			e.Flags |= LabelDate
		}
		if op.Date.Known {
			e.Flags |= NamedDated
		}
	case d.Chain.Filed:
		e.By = in.Of(d.Record.FiledUnder.By.Text)
	}
	if at >= 0 {
		e.Lines.Name = d.Opinions[at].Given.Name.Line
	} else {
		e.Lines.Name = d.Record.FiledUnder.Name.Line
	}
	for _, i := range d.Chain.Order {
		op := &d.Opinions[i]
		for _, k := range op.Name.Keys {
			if k != e.NameKey && !slices.Contains(e.Once, k) && op.State != opinionMistake && op.Kind != opinionNot {
				e.Once = append(e.Once, in.Of(k))
			}
		}
		if by := op.Given.By.Text; by != "" && by != e.By && !slices.Contains(e.People, by) {
			e.People = append(e.People, in.Of(by))
		}
	}
}
