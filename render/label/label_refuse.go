package label

import (
	"fmt"
	"math"
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
func (s *setting) pieces() []piece {
	var out []piece
	for _, l := range append(s.head(1), s.foot()...) {
		for _, c := range l.cells {
			out = append(out, piece{c.part, c.runs, Measure})
		}
	}
	for _, c := range s.content(s.steps[0]) {
		for _, x := range c.sentences {
			out = append(out, piece{x.field, x.runs, c.width()})
		}
	}
	return out
}

// unsettable is why a label cannot be set at any size: a letter that the
// typeface lacks, a word wider than the line at the smallest size.
func (s *setting) unsettable() *Refusal {
	n := s.in.Record.Specimen.Text
	for _, p := range s.pieces() {
		if r, lacks := paper.Lacks(p.runs...); lacks {
			out := s.refuse(CodeLetter, fmt.Sprintf("the typeface has no letter %s, in %s", paper.LetterName(r), fieldWord(p.field)),
				"If it is a slip of typing: blotter edit "+n+"   Otherwise write this label by hand")
			return &out
		}
	}
	smallest := 0
	for i, st := range s.steps {
		if st.size < s.steps[smallest].size {
			smallest = i
		}
	}
	for _, c := range s.content(s.steps[smallest]) {
		if wide := paper.Overflow(paper.Set(c.runs(), c.width()), c.width()); wide != "" {
			return s.tooWide(c, wide)
		}
	}
	for _, l := range append(s.head(1), s.foot()...) {
		for _, c := range l.cells {
			if len(c.runs) > 0 && (c.x < -0.001 || c.x+paper.Width(c.runs...) > Measure+0.001) {
				out := s.refuse(CodeWordWide, fmt.Sprintf("%s has a word of %.0f mm; the line is %.0f mm", fieldWord(c.part), math.Ceil(paper.Width(c.runs...)), Measure), "Nothing is cut from a label. Look at the word: blotter edit "+n)
				return &out
			}
		}
	}
	return nil
}

// tooWide names the field whose word is wider than the line.
func (s *setting) tooWide(c content, line string) *Refusal {
	field := c.part
	for _, x := range c.sentences {
		if paper.Overflow(paper.Set(x.runs, c.width()), c.width()) != "" {
			field = x.field
		}
	}
	shown := ""
	if !s.in.Withheld {
		shown = ", " + line + ","
	}
	out := s.refuse(CodeWordWide, fmt.Sprintf("%s has a word%s that is wider than the line of %.0f mm", fieldWord(field), shown, c.width()),
		"Nothing is cut from a label. Look at the word: blotter edit "+s.in.Record.Specimen.Text)
	return &out
}

// tooLong says which field is the longest and how high the label would be.
func (s *setting) tooLong(parts int) *Refusal {
	least, tallest := math.Inf(1), 0.0
	for i, st := range s.steps {
		least, tallest = min(least, s.layout(i, 1).needs()), max(tallest, st.height)
	}
	field, letters := "", 0
	for _, p := range s.pieces() {
		if n := utf8.RuneCountInString(textOf(p.runs)); n > letters {
			field, letters = p.field, n
		}
	}
	n := s.in.Record.Specimen.Text
	why := fmt.Sprintf("%s, %s letters, needs %.0f mm; the tallest label is %.0f mm", fieldWord(field), thousands(letters), math.Ceil(least), tallest)
	if parts > 1 {
		why += fmt.Sprintf(", and %d parts do not hold it", parts)
	}
	out := s.refuse(CodeTooLong, why, fmt.Sprintf("Nothing is cut from a label. Print it in %s parts: blotter print labels %s --parts %d   All others now: --except %s", inWords(parts+1), n, parts+1, n))
	return &out
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
