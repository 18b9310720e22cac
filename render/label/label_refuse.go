package label

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// Codes of refusals.
const (
	CodeTooLong   = "label-too-long"       // fits none of the heights
	CodeWordWide  = "label-word-wide"      // a word is wider than the line
	CodeLetter    = "label-letter-lacking" // the typeface lacks a letter
	CodeFact      = "label-fact-missing"   // a required field says nothing
	CodeUnsettled = "label-date-unsettled" // the date of new material can be read in several ways
)

// Refusal is why there is no label, in one sentence, and what to type.
type Refusal struct {
	Of   ledger.Number
	Code string
	Why  string
	Try  string
}

func (s *setting) refuse(code, why, try string) Refusal {
	return Refusal{Of: s.in.Number(), Code: code, Why: why, Try: try}
}

// refusals are what the record itself lacks; a draft is printed all the same.
func (s *setting) refusals() []Refusal {
	if s.in.Draft {
		return nil
	}
	n := s.in.Record.Specimen.Text
	if !s.in.isNew() {
		return nil
	}
	var out []Refusal
	for _, l := range s.set.Required {
		if s.missing(l.Text) {
			word := fieldWord(l.Text)
			out = append(out, s.refuse(CodeFact, word+" is missing", s.howToSay(l.Text)))
		}
	}
	if d := s.in.Reading.Date; len(d.Read.Readings) > 1 {
		var ways []string
		for _, r := range d.Read.Readings {
			ways = append(ways, r.ISO())
		}
		out = append(out, s.refuse(CodeUnsettled, "its date, "+d.Words+", can be read as "+strings.Join(ways, " or "),
			fmt.Sprintf(`If the field book settles it: blotter set %s date-read=%s --why "field book, p. 12"`, n, ways[0])))
	}
	return out
}

// howToSay is what to type for a field that is missing.
func (s *setting) howToSay(field string) string {
	n := s.in.Record.Specimen.Text
	switch field {
	case "family":
		return "blotter set " + n + " family=NAME, or enter its name in names/"
	case "determinations":
		return "blotter determine " + n
	}
	none := map[string]string{"collector": "unknown", "coll_no": "s.n.", "date": "s.d."}[field]
	if none == "" {
		none = `"not recorded"`
	}
	return fmt.Sprintf("blotter set %s %s=WORDS; where nobody knows: %s=%s", n, field, field, none)
}

// missing reports whether a required field says nothing, not even that there
// is nothing. What belongs to a position or an elevation is asked for only
// beside one.
func (s *setting) missing(field string) bool {
	r := s.in.Record
	p := r.Place
	says := func(ls ...ledger.Leaf) bool {
		for _, l := range ls {
			if reading.AbsenceOf(l.Text) != reading.Untyped {
				return true
			}
		}
		return false
	}
	one := map[string]ledger.Leaf{
		"collector": r.Collector, "coll_no": r.CollNo, "date": r.Date, "habitat": r.Habitat, "description": r.Description,
		"abundance": r.Abundance, "origin": r.Origin, "permit": r.Permit, "project": r.Project,
		"place.country": p.Country, "place.province": p.Province, "place.district": p.District, "place.locality": p.Locality,
		"place.position": p.Position, "place.elevation": p.Elevation,
	}
	switch field {
	case "family":
		return s.name.family == ""
	case "determinations":
		return len(r.Determinations) == 0
	case "phenology":
		return !says(r.Phenology...)
	case "place.datum":
		return present(p.Position) && !says(p.Datum)
	case "place.gps_accuracy":
		return present(p.Position) && !says(p.GPSAccuracy, p.Uncertainty)
	case "place.elevation_by":
		return present(p.Elevation) && !says(p.ElevationBy)
	}
	l, known := one[field]
	return known && !says(l)
}

// fieldWord is a field as a message names it: place.locality is locality.
func fieldWord(field string) string {
	field = field[strings.LastIndexByte(field, '.')+1:]
	return strings.ReplaceAll(field, "_", " ")
}

// piece is the words of one field on the label and the room they have.
type piece struct {
	field string
	runs  []paper.Run
	width float64
}

// pieces are all words of the label by field.
func (l *layout) pieces() []piece {
	var out []piece
	for _, line := range slices.Concat(l.head, l.foot) {
		for _, c := range line.cells {
			out = append(out, piece{c.part, c.runs, Measure})
		}
	}
	for _, c := range l.of {
		for _, x := range c.sentences {
			out = append(out, piece{x.field, x.runs, c.width()})
		}
	}
	return out
}

// unsettable is why a label cannot be set at any size: a letter that the
// typeface lacks, a word of head or foot wider than the line.
func (s *setting) unsettable(l *layout) *Refusal {
	n := s.in.Record.Specimen.Text
	for _, p := range l.pieces() {
		if r, lacks := paper.Lacks(p.runs...); lacks {
			out := s.refuse(CodeLetter, fmt.Sprintf("the typeface has no letter %s, in %s", paper.LetterName(r), fieldWord(p.field)),
				"If it is a slip of typing: blotter edit "+n+"   Otherwise write this label by hand")
			return &out
		}
	}
	for i, line := range slices.Concat(l.head, l.foot) {
		measure := Measure
		if i >= len(l.head) {
			measure = s.footWidth()
		}
		for _, c := range line.cells {
			if wide := paper.Width(c.runs...); c.x < -tiny || c.x+wide > measure+tiny {
				out := s.refuse(CodeWordWide, fmt.Sprintf("%s has a word of %.0f mm; the line is %.0f mm", fieldWord(c.part), math.Ceil(wide), measure), lookAtWord+n)
				return &out
			}
		}
	}
	return nil
}

const lookAtWord = "Nothing is cut from a label. Look at the word: blotter edit "

// tooWide names the field a word of which is wider than the line even in the
// smallest size; nil when there is none.
func (s *setting) tooWide() *Refusal {
	least := 0
	for i, st := range s.steps {
		if st.size < s.steps[least].size {
			least = i
		}
	}
	for _, c := range s.layout(least, 1).of {
		for _, x := range c.sentences {
			wide := paper.Overflow(paper.Set(x.runs, c.width()), c.width())
			if wide == "" {
				continue
			}
			shown := ""
			if !s.in.Withheld {
				shown = ", " + wide + ","
			}
			out := s.refuse(CodeWordWide, fmt.Sprintf("%s has a word%s that is wider than the line of %.0f mm", fieldWord(x.field), shown, c.width()),
				lookAtWord+s.in.Record.Specimen.Text)
			return &out
		}
		if wide := paper.Overflow(paper.Set(c.runs(), c.width()), c.width()); wide != "" {
			out := s.refuse(CodeWordWide, fmt.Sprintf("%s has a word that is wider than the line of %.0f mm", c.part, c.width()), lookAtWord+s.in.Record.Specimen.Text)
			return &out
		}
	}
	return nil
}

// tooLong says which field is the longest and how high the label would be.
func (s *setting) tooLong(parts int) *Refusal {
	least, tallest := math.Inf(1), 0.0
	for i, st := range s.steps {
		least, tallest = min(least, s.layout(i, 1).needs()), max(tallest, st.height)
	}
	field, letters := "", 0
	for _, p := range s.layout(0, 1).pieces() {
		if n := utf8.RuneCountInString(textOf(p.runs)); n > letters {
			field, letters = p.field, n
		}
	}
	n := s.in.Record.Specimen.Text
	why := fmt.Sprintf("%s, %s letters, needs %.0f mm; the tallest label is %.0f mm", fieldWord(field), thousands(letters), math.Ceil(least), tallest)
	if parts > 1 {
		why += ", and " + inWords(parts) + " parts do not hold it"
	}
	try := "Nothing is cut from a label."
	if enough := s.enough(parts); enough > 0 {
		try += fmt.Sprintf(" Print it in %s parts: blotter print %s %s --parts %d", inWords(enough), s.in.kind(), n, enough)
	}
	out := s.refuse(CodeTooLong, why, try)
	return &out
}

// mostParts is into how many labels anybody would divide one.
const mostParts = 20

// enough is how many parts hold the label, more than tried; 0: not even
// mostParts.
func (s *setting) enough(tried int) int {
	for n := tried + 1; n <= mostParts; n++ {
		for i := range s.steps {
			if l := s.layout(i, n); l.wide {
				continue
			} else if _, ok := s.divide(l, n); ok {
				return n
			}
		}
	}
	return 0
}

func thousands(n int) string {
	s := itoa(n)
	if n >= 1000 {
		s = itoa(n/1000) + "," + s[len(s)-3:]
	}
	return s
}

func inWords(n int) string {
	if w := []string{"", "", "two", "three", "four", "five", "six"}; n < len(w) {
		return w[n]
	}
	return itoa(n)
}
