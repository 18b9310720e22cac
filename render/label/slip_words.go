package label

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// slip is a slip or type label before it is set: its name or act in large
// letters, what is said of it in small ones, who and when at the foot.
type slip struct {
	in    *Input
	lang  *Language
	field string      // what it tells of: determinations.2
	kind  slipKind    // how it is drawn
	noun  string      // slips or types, as print calls it
	head  []paper.Run // the name; of an annotation the act
	part  string      // of the head: name or act
	notes []sentence
	mark  string // before who: det.
	who   []ledger.Leaf
	date  string
	short bool // agrees with the name above it and says no more: one line
}

type slipKind uint8

const (
	plainSlip slipKind = iota
	typeLabel          // between two thick rules
)

func newSlip(in *Input) *slip {
	return &slip{in: in, lang: LanguageOf(in.Habits.Labels.Language.Text), part: "name", noun: "slips"}
}

// event takes in what an entry of the record says.
func (s *slip) event(e slipEvent) *slip {
	s.field = e.list + "." + itoa(e.at+1)
	if e.list == "annotations" {
		return s.annotation(&s.in.Record.Annotations[e.at])
	}
	return s.opinion(e.at)
}

func (s *slip) opinion(at int) *slip {
	o := &s.in.Reading.Opinions[at]
	d := o.Given
	if o.Kind == opinion.Not {
		s.head = append(s.head, paper.Run{Style: paper.Style{Size: slipUpright}, Text: s.lang.NotThis, Keep: true}, paper.Run{Style: paper.Style{Size: slipUpright}, Text: " ", Keep: true})
	}
	s.head = append(s.head, Name(s.named(d.Name.Text), slipName, slipUpright)...)
	if o.Kind == opinion.NameChange {
		s.phrase("kind", s.lang.NotLookedAt)
		if link := s.in.Reading.Chain.Links[at]; link >= 0 {
			st := paper.Style{Size: slipNote}
			runs := append([]paper.Run{{Style: st, Text: s.lang.DeterminedAs + " "}}, plant(s.in.Record.Determinations[link].Name.Text, st, Measure)...)
			s.notes = append(s.notes, sentence{field: "name", runs: runs, fixed: true})
		}
	}
	s.say("part", d.Part)
	s.say("why", d.Why)
	s.say("source", d.Source)
	s.phrase("seen", map[string]string{"picture": s.lang.FromPicture, "duplicate": s.lang.FromDuplicate, "dna": s.lang.FromDNA}[d.Seen.Text])
	s.mark = map[opinion.Kind]string{opinion.Det: s.lang.Det, opinion.Conf: s.lang.Conf}[o.Kind]
	s.who, s.date = []ledger.Leaf{d.By, d.At}, s.dated(d.Date)
	s.short = o.Kind == opinion.Conf && len(s.notes) == 0 && s.renewsLast(at)
	return s
}

// renewsLast reports whether the conf at a place agrees with the opinion just
// before it, in the same name: the slip below it on the sheet has that name.
func (s *slip) renewsLast(at int) bool {
	d := s.in.Reading
	link, last := d.Chain.Links[at], -1
	for _, i := range d.Chain.Order {
		if i == at {
			break
		}
		if d.Opinions[i].State != opinion.Mistake {
			last = i
		}
	}
	if link < 0 || link != last && (last < 0 || d.Opinions[last].Kind != opinion.Conf || d.Chain.Links[last] != link) {
		return false
	}
	a, b := &d.Opinions[at].Name, &d.Opinions[last].Name
	return a.Words == b.Words || a.Readable && b.Readable && a.Key() == b.Key() && len(a.Read.Qualifiers)+len(b.Read.Qualifiers) == 0
}

func (s *slip) annotation(a *ledger.Annotation) *slip {
	st := paper.Style{Size: slipUpright}
	words, known := s.lang.Acts[a.Kind.Text]
	if !known {
		words = a.Kind.Text
	}
	s.part, words = "act", upper(words)
	if a.What.Set() {
		words += s.lang.Colon()
	}
	s.head = append(prose(words, st, Measure), paper.Run{Style: st, Text: " "})
	if a.What.Set() {
		s.head = append(s.head, prose(a.What.Text, st, Measure)...)
	}
	s.who, s.date = []ledger.Leaf{a.By}, s.dated(a.Date)
	return s
}

// named is a name with the authors that names/ has for it, where the words
// have none and the settings do not forbid it.
func (s *slip) named(words string) string {
	if s.in.Known == nil || s.in.Habits.Labels.Authors.Text == "written" {
		return words
	}
	if authors, _ := s.in.Known(words); authors != "" {
		return words + " " + authors
	}
	return words
}

// say puts a field of the entry among the notes.
func (s *slip) say(field string, l ledger.Leaf) {
	if !l.Set() {
		return
	}
	n := sentence{field: field, runs: prose(l.Text, paper.Style{Size: slipNote}, Measure)}
	if k := len(s.notes) - 1; k >= 0 && s.notes[k].field == "name" && lower(l.Text) {
		n.sep = s.lang.Semicolon() + " " // the stop of an author is not that of a sentence
	}
	s.notes = append(s.notes, n)
}

// phrase puts words of the language among the notes.
func (s *slip) phrase(field, words string) {
	if words != "" {
		s.notes = append(s.notes, sentence{field: field, runs: prose(words, paper.Style{Size: slipNote}, Measure), fixed: true})
	}
}

// dated is a date as it stands on a slip: a day in figures, year first, with
// its month in Roman figures when the settings say so; any other as written.
func (s *slip) dated(l ledger.Leaf) string {
	if s.in.Habits.Slips.Dates.Text != "written" {
		return RomanDate(l.Text)
	}
	return l.Text
}

// RomanDate writes 2026-11-02 as 2.xi.2026, which no reader can take for
// another day; words of any other form, and days that no calendar has, are
// given back as they are.
func RomanDate(words string) string {
	if len(words) != 10 || words[4] != '-' || words[7] != '-' || strings.Trim(words, "0123456789-") != "" {
		return words
	}
	r := dates.Read(words, dates.Ask)
	if !r.Single() {
		return words
	}
	y, m, d := r.First.Date()
	if y < 1000 {
		return words
	}
	return itoa(d) + "." + [...]string{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"}[m-1] + "." + itoa(y)
}

// signature is who, at the left of the foot: det. M. Ostrander, Fjellheim
// Museum, 2.xi.2026. A person's initials, and the date, are never broken.
func (s *slip) signature() []paper.Run {
	st := paper.Style{Size: slipFoot}
	var out []paper.Run
	if s.mark != "" {
		out = append(out, paper.Run{Style: st, Text: s.mark, Keep: true}, paper.Run{Style: st, Text: " ", Keep: true})
	}
	first := true
	add := func(runs []paper.Run) {
		if !first {
			out = append(out, paper.Run{Style: st, Text: ", "})
		}
		out, first = append(out, runs...), false
	}
	for _, l := range s.who {
		if l.Set() {
			add(prose(l.Text, st, Measure))
		}
	}
	if s.date != "" {
		add(whole(s.date, st, Measure))
	}
	return out
}

// Renamed is the slip of a sheet whose name is another by a publication or by
// the museum's list, while nobody looked: now is the accepted name, was that
// of the determination, by and date whoever entered the change, source what it
// rests on. It is no event of the record.
type Renamed struct {
	Now, Was, Source, By, Date string
}

// RenamedSlip sets it.
func RenamedSlip(in *Input, c Renamed, o SlipOptions) (*paper.Block, *Refusal) {
	s := newSlip(in)
	s.field, s.noun = "name", "renamings"
	s.head = Name(s.named(c.Now), slipName, slipUpright)
	s.phrase("kind", s.lang.NotLookedAt)
	st := paper.Style{Size: slipNote}
	runs := append([]paper.Run{{Style: st, Text: s.lang.DeterminedAs + " "}}, plant(c.Was, st, Measure)...)
	s.notes = append(s.notes, sentence{field: "name", runs: runs, fixed: true})
	if reading.AbsenceOf(c.By) == reading.Present {
		s.who = []ledger.Leaf{{Text: c.By}}
	}
	s.date = s.dated(ledger.Leaf{Text: c.Date})
	switch source := (ledger.Leaf{Text: c.Source}); {
	case len(s.who) > 0 || s.date != "":
		s.say("source", source)
	case source.Set(): // nobody else answers for it
		s.who = []ledger.Leaf{source}
	default:
		s.who = []ledger.Leaf{{Text: s.lang.NoSource}}
	}
	return s.fit(o.Parts)
}
