package label

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	_ "blotter/ledger/ledgertest/seed"
	"blotter/ledger/reading"
)

// someWords are words of one drawn field; the last is in no other, so that
// the words of one are not taken for those of another.
func someWords(t *rapid.T, field string, most int) ledger.Leaf {
	n := rapid.IntRange(0, most).Draw(t, field)
	if n == 0 {
		return ledger.Leaf{}
	}
	alphabet := []string{"Zq", "zx", "Å", "é", "lake", "N", "km", "1.2", "40", "m", "°", "60°42′", "12″N", "S.", "Rask", "“dry”", "(wet)", "a;b", "½", "♀", "Ωμέγα", "xx", "pH", "5–6"}
	ws := make([]string, n, n+1)
	for i := range ws {
		ws[i] = rapid.SampledFrom(alphabet).Draw(t, field)
	}
	drawnFields++
	return ledger.Leaf{Text: strings.Join(append(ws, fmt.Sprintf("W%d", drawnFields)), " ")}
}

// drawnFields counts the fields of a record that was drawn.
var drawnFields int

// drawn is a record with words of any length in any field.
func drawn(t *rapid.T) *ledger.Record {
	drawnFields = 0
	r := &ledger.Record{Specimen: ledger.Leaf{Text: "LK7-0000001"}, Entry: ledger.Leaf{Text: "full"}}
	r.Family = ledger.Leaf{Text: rapid.SampledFrom([]string{"", "Poaceae", "Ranunculaceae"}).Draw(t, "family")}
	one := func(l *ledger.Leaf, field string, most int) { *l = someWords(t, field, most) }
	many := func(ls *[]ledger.Leaf, field string, most int) {
		for range rapid.IntRange(0, most).Draw(t, field+"s") {
			if l := someWords(t, field, 3); l.Set() {
				*ls = append(*ls, l)
			}
		}
	}
	one(&r.Collector, "collector", 8)
	one(&r.CollNo, "coll_no", 1)
	one(&r.Date, "date", 8)
	many(&r.With, "with", 6)
	p := &r.Place
	one(&p.Country, "country", 2)
	one(&p.Province, "province", 3)
	one(&p.District, "district", 3)
	one(&p.Locality, "locality", 120)
	one(&p.Position, "position", 8)
	one(&p.Datum, "datum", 2)
	one(&p.GPSAccuracy, "gps_accuracy", 2)
	one(&p.Uncertainty, "uncertainty", 2)
	one(&p.PositionBy, "position_by", 2)
	one(&p.Elevation, "elevation", 3)
	one(&p.ElevationBy, "elevation_by", 2)
	one(&r.Habitat, "habitat", 30)
	one(&r.Substrate, "substrate", 4)
	one(&r.Host, "host", 3)
	one(&r.Depth, "depth", 2)
	many(&r.Associates, "associates", 6)
	one(&r.Description, "description", 40)
	one(&r.Abundance, "abundance", 2)
	one(&r.Population, "population", 2)
	one(&r.Garden, "garden", 4)
	one(&r.SourcePlace, "source_place", 4)
	one(&r.Permit, "permit", 6)
	one(&r.Project, "project", 6)
	one(&r.FormerHerb, "former_herbarium", 4)
	one(&r.Remarks, "remarks", 10)
	one(&r.Exsiccata.Series, "series", 3)
	one(&r.Exsiccata.Number, "exsiccata", 1)
	many(&r.FurtherNumbers, "further_numbers", 2)
	one(&r.Fieldbook.Volume, "volume", 1)
	one(&r.Fieldbook.Page, "page", 1)
	many(&r.Cautions, "caution", 3)
	r.Origin.Text = rapid.SampledFrom([]string{"", "wild", "cultivated", "escaped", "planted"}).Draw(t, "origin")
	for _, w := range rapid.SliceOfN(rapid.SampledFrom([]string{"bud", "flower", "fruit", "sterile", "galls"}), 0, 3).Draw(t, "phenology") {
		r.Phenology = append(r.Phenology, ledger.Leaf{Text: w})
	}
	if rapid.Bool().Draw(t, "named") {
		r.Determinations = []ledger.Determination{{Name: ledger.Leaf{Text: rapid.SampledFrom([]string{
			"Poa annua L.", "Ranunculus acris cf. subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", "Salix aurita L. × Salix lapponum L.", "Poaceae", "Poa sp. 3", "quite unreadable zx",
			"Pectocarya recurvata (Hook. & Arn.) A.Gray ex Torr. & A.Gray var. penicillata (Hook. & Arn.) I.M.Johnst. ex Jeps.",
		}).Draw(t, "name")}, By: ledger.Leaf{Text: "Zq Rask"}, Date: someWords(t, "detdate", 2)}}
	}
	return r
}

// TestNothingLostNothingAdded: for any record the words on a label, or on its
// parts, are those that the settings ask for and fixed words of the language;
// no part meets another or leaves the text. What cannot be set is refused with
// a code, a reason and something to type.
func TestNothingLostNothingAdded(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m, _ := ledger.DecodeMuseum(ledger.MuseumFile, []byte(museumText))
		h := ledger.WithStandard(m)
		l := &h.Labels
		l.Language.Text = rapid.SampledFrom(LanguageCodes).Draw(rt, "language")
		l.Barcode.Text = rapid.SampledFrom([]string{"none", "datamatrix", "qr", "code128"}).Draw(rt, "barcode")
		l.Sections = nil
		for _, s := range rapid.Permutation(ledger.LabelSections).Draw(rt, "sections")[:rapid.IntRange(0, len(ledger.LabelSections)).Draw(rt, "shown")] {
			l.Sections = append(l.Sections, ledger.Leaf{Text: s})
		}
		r := drawn(rt)
		in := &Input{Record: r, Reading: reading.Of(r, reading.ConventionsOf(m)), Museum: m, Habits: h, Family: r.Family.Text, Draft: true}
		in.Withheld = rapid.Bool().Draw(rt, "withheld")
		made, refused := Labels([]*Input{in}, Options{Parts: 9})
		for _, x := range refused {
			if x.Why == "" || x.Try == "" || x.Code != CodeWordWide && x.Code != CodeTooLong {
				rt.Fatalf("refused: %+v", x)
			}
		}
		for _, x := range made {
			s := newSetting(in)
			tt := &failing{TB: t}
			for _, b := range x.Blocks {
				sound(tt, "drawn", b)
				if got := partNamed(b, "barcode").Text; got != map[bool]string{true: "", false: r.Specimen.Text}[l.Barcode.Text == "none"] {
					rt.Fatalf("barcode %s has %q", l.Barcode.Text, got)
				}
			}
			textHas(tt, in, joinParts(x), expected(in, s.shownName(), s.name.given))
			if len(tt.said) > 0 {
				rt.Fatal(strings.Join(tt.said, "\n"))
			}
		}
	})
}

// onEvery are the parts that stand on each label of several.
var onEvery = map[string]bool{"heading": true, "family": true, "transcript": true, "collector": true, "date": true, "with": true, "number": true, "between": true}

// joinParts is the text of a label whose body goes on over several blocks:
// each part's words from all of them, what stands on every one only once.
func joinParts(m Made) string {
	var order []string
	text := map[string]string{}
	for i, b := range m.Blocks {
		for _, p := range b.Parts {
			if p.Name == "part" || p.Name == "barcode" { // "label 1 of 2"; no words
				continue
			}
			if _, seen := text[p.Name]; !seen {
				order = append(order, p.Name)
			} else if i > 0 && (onEvery[p.Name] || p.Name == "name") {
				continue
			}
			text[p.Name] = strings.TrimSpace(text[p.Name] + " " + p.Text)
		}
	}
	out := ""
	for _, n := range order {
		out += text[n] + " | "
	}
	return out
}

// failing gathers what a check says, for rapid to shrink.
type failing struct {
	testing.TB
	said []string
}

func (f *failing) Helper() {}
func (f *failing) Errorf(format string, args ...any) {
	f.said = append(f.said, fmt.Sprintf(format, args...))
}
