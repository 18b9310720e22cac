package label

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/render/paper"
)

// Codes of refusals of labels of exsiccatae.
const (
	CodeNotIssued      = "exsiccata-none"     // the record is of no series, or has no number in it
	CodeIssuedWithheld = "exsiccata-withheld" // the exact place may not become public
)

// Exsiccatae sets the labels of a printed set, one for each record: the title
// of the series at the head, its own number before the name, the collector's
// number at the foot. They bear no number of the museum's, since all sets have
// the same words. What goes into a set is published with it: a place that is
// withheld is refused, and a record without a series or a number in it.
func Exsiccatae(ins []*Input, series []ledger.IssuedSeries, o Options) ([]Made, []Refusal) {
	var refused []Refusal
	var all []*Input
	for _, in := range ins {
		x := in.Record.Exsiccata
		n := in.Record.Specimen.Text
		switch {
		case !present(x.Series) || !present(x.Number):
			field := "exsiccata.number"
			if !present(x.Series) {
				field = "exsiccata.series"
			}
			refused = append(refused, Refusal{Of: in.Number(), Code: CodeNotIssued, Why: field + " is missing, so it is of no printed set",
				Try: "blotter set " + n + " " + field + `=WORDS --why TEXT   Or leave it out: --except ` + n})
			continue
		case in.Withheld:
			refused = append(refused, Refusal{Of: in.Number(), Code: CodeIssuedWithheld, Why: "its exact place may not become public, and a printed set is published",
				Try: "Leave it out: --except " + n})
			continue
		}
		one := *in
		one.Issued = seriesOf(x.Series.Text, series)
		one.Sheet, one.Sheets, one.Copy = 0, 0, false
		all = append(all, &one)
	}
	if len(refused) > 0 {
		return nil, refused
	}
	return Labels(all, o)
}

// seriesOf is what the settings say of a series.
func seriesOf(title string, series []ledger.IssuedSeries) *ledger.IssuedSeries {
	for i := range series {
		if strings.EqualFold(series[i].Series.Text, title) {
			return &series[i]
		}
	}
	return &ledger.IssuedSeries{Series: ledger.Leaf{Text: title}}
}

// kind is what print calls the label.
func (in *Input) kind() string {
	if in.Issued != nil {
		return "exsiccata"
	}
	return "labels"
}

// issuedHeading is the title of the series, its editor and imprint.
func (in *Input) issuedHeading(l *Language) []string {
	out := leafTexts(in.Issued.Heading)
	if len(out) == 0 {
		out = []string{strings.ToUpper(in.Issued.Series.Text)}
	}
	var line []string
	if in.Issued.Editor.Set() {
		line = append(line, l.EditedBy+" "+in.Issued.Editor.Text)
	}
	if in.Issued.Imprint.Set() {
		line = append(line, in.Issued.Imprint.Text)
	}
	if len(line) > 0 {
		out = append(out, upper(strings.Join(line, ". ")))
	}
	return out
}

// fascicle is the part of the set, at the right of the heading.
func (s *setting) fascicle(st paper.Style) cell {
	if f := s.in.Record.Exsiccata.Fascicle; present(f) {
		return rightCell("fascicle", Fill(s.lang.Fascicle, f.Text), st)
	}
	return cell{part: "fascicle"}
}

// issuedNumber is the number in the set, before the name.
func (s *setting) issuedNumber() []paper.Run {
	if s.in.Issued == nil {
		return nil
	}
	st := paper.Style{Size: nameSize}
	return []paper.Run{{Style: st, Text: strings.TrimSuffix(s.in.Record.Exsiccata.Number.Text, ".") + ".", Keep: true}, {Style: st, Text: " ", Keep: true}}
}

// issuedSections are the sections of a label without those that belong to one
// sheet of the museum and not to every set.
func issuedSections(set *ledger.Labels) *ledger.Labels {
	out := *set
	out.Sections = slices.DeleteFunc(slices.Clone(set.Sections), func(l ledger.Leaf) bool {
		return slices.Contains([]string{"exsiccata", "former_herbarium", "further_numbers", "remarks"}, l.Text)
	})
	if !slices.ContainsFunc(out.Sections, func(l ledger.Leaf) bool { return l.Text == "name" }) {
		out.Sections = slices.Insert(out.Sections, 0, ledger.Leaf{Text: "name"})
	}
	return &out
}
