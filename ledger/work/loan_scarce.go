package work

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// taxonCount is what is here of one taxon.
type taxonCount struct {
	sheets     []*book.Entry
	gatherings map[string]bool
}

// countTaxa counts the sheets and gatherings that are here of the taxa of
// some sheets, in one walk through the records.
func (j *barring) countTaxa(entries []*book.Entry) {
	for _, e := range entries {
		if key := j.w.taxon(e); key != "" && j.taxa[key] == nil {
			j.taxa[key] = &taxonCount{gatherings: map[string]bool{}}
		}
	}
	if len(j.taxa) == 0 {
		return
	}
	for e := range j.w.book.All() {
		if e.Fate != "" {
			continue
		}
		if t := j.taxa[j.w.taxon(e)]; t != nil {
			t.sheets = append(t.sheets, e)
			t.gatherings[gatheringOf(e)] = true
		}
	}
}

// taxon is the accepted name under which a sheet stands; "" when it has none
// that can be read.
func (w *Works) taxon(e *book.Entry) string {
	if e.NameKey == "" {
		return ""
	}
	if n := w.book.Museum.Renamed(e); n != nil {
		return n.Key()
	}
	return e.NameKey
}

// gatheringOf is the same for all sheets of one gathering: collector and
// number, and the day where there is no number.
func gatheringOf(e *book.Entry) string {
	if no := strings.ToLower(strings.TrimSpace(e.CollNo)); e.Who != "" && strings.ContainsAny(no, "0123456789") {
		return e.Who + "|" + no
	}
	return e.Who + "||" + e.Date + "|" + e.Locality
}

// scarce tells of sheets that are the last, or nearly, of their taxon here.
func (j *barring) scarce(e *book.Entry) {
	t := j.taxa[j.w.taxon(e)]
	if t == nil || e.Fate != "" {
		return
	}
	if len(t.sheets) == 1 {
		j.say("unique", e, "it is the only sheet of "+j.w.taxon(e)+" here, and of its gathering")
	} else {
		j.keep(e, t)
	}
	if few := figure(j.w.Habits.Sampling.Few); len(t.gatherings) < few {
		j.say("few", e, fmt.Sprintf("there are only %d gatherings of %s here, fewer than %d", len(t.gatherings), j.w.taxon(e), few))
	}
}

// keep tells when too few sheets of the taxon would stay in the house.
func (j *barring) keep(e *book.Entry, t *taxonCount) {
	keep, stay := figure(j.w.Habits.Loans.Keep), 0
	for _, x := range t.sheets {
		if slices.ContainsFunc(j.s.Sheets, func(n ledger.Number) bool { return n.Key() == x.Number.Key() }) {
			continue
		}
		switch j.w.State(x.Number, j.s.On).Where {
		case OnLoan, Gone, Missing, Coming:
		default:
			stay++
		}
		if stay >= keep {
			return
		}
	}
	j.say("keep", e, fmt.Sprintf("only %d of %d sheets of %s would stay here, and the museum keeps %d", stay, len(t.sheets), j.w.taxon(e), keep))
}

func figure(l ledger.Leaf) int {
	n, err := strconv.Atoi(l.Text)
	if err != nil {
		return 0
	}
	return n
}

// sampling tells of sheets from which nothing more is to be taken.
func (j *barring) sampling(e *book.Entry, r *ledger.Record) {
	if year := figure(j.w.Habits.Sampling.Before); year > 0 {
		limit := dates.DayOf(year, 1, 1)
		switch {
		case e.Dated && e.Last < limit:
			j.say("old", e, fmt.Sprintf("it was gathered before %d", year))
		case !e.Dated || e.First < limit:
			j.say("old", e, fmt.Sprintf("it may have been gathered before %d: its date does not say", year))
		}
	}
	material := j.s.Material
	if material == "" {
		material = j.s.File.Work.Material.Text
	}
	if most := figure(j.w.Habits.Sampling.MostMM); most > 0 {
		if area, ok := ReadArea(material); ok && area > float64(most) {
			j.say("area", e, fmt.Sprintf("%g mm2 are to be taken, and the museum gives at most %d mm2 from a sheet", area, most))
		}
	}
	if before := j.sampled(e, r, material); before != "" {
		j.say("again", e, "the same kind of material was taken from it before: "+before)
	}
}

// sampled is the earlier sampling of the same kind; "" for none.
func (j *barring) sampled(e *book.Entry, r *ledger.Record, material string) string {
	for _, a := range r.Annotations {
		if a.Kind.Text == "material-removed" && sameMaterial(a.What.Text, material) {
			return strings.TrimSpace(a.What.Text + " " + a.Date.Text)
		}
	}
	for _, t := range j.samplings()[e.Number.Key()] {
		if sameMaterial(t.took, material) {
			return string(t.by)
		}
	}
	return ""
}

// took is one sampling that a sheet has been through.
type took struct {
	by   ledger.WorkNumber
	took string
}

// samplings are those of other works before the day, by sheet; worked out
// once.
func (j *barring) samplings() map[string][]took {
	if j.before != nil {
		return j.before
	}
	j.before = map[string][]took{}
	for _, f := range j.w.Files {
		if f.Kind.Name != "sampling" || f.Number == j.s.File.Number {
			continue
		}
		for _, x := range f.Events {
			if x.Verb != "sampled" || x.Day > j.s.On {
				continue
			}
			t := took{f.Number, x.Line.Material.Text}
			if t.took == "" {
				t.took = f.Work.Material.Text
			}
			for _, thing := range j.w.Loan(f, x.Day).Things {
				if thing.Stage == Out && thing.Sent == x.Day {
					key := thing.Sheet.Key()
					j.before[key] = append(j.before[key], t)
				}
			}
		}
	}
	return j.before
}

// materials are the words for parts of a plant that samples are made of.
var materials = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`leaf|leaves|pollen|anther|flower|seed|fruit|bark|wood|root|stem|spore|sorus|sori|moss|needle|bract|petal`)
})

// sameMaterial reports whether two samplings took the same kind of material;
// when one does not say what it took it may have been the same.
func sameMaterial(a, b string) bool {
	of := func(s string) []string {
		all := materials().FindAllString(strings.ToLower(s), -1)
		for i, m := range all {
			all[i] = strings.NewReplacer("leaves", "leaf", "anther", "pollen", "sori", "spore", "sorus", "spore").Replace(m)
		}
		return all
	}
	x, y := of(a), of(b)
	if len(x) == 0 || len(y) == 0 {
		return true
	}
	return slices.ContainsFunc(x, func(m string) bool { return slices.Contains(y, m) })
}

var (
	areaWords  = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`([0-9]+(?:[.,][0-9]+)?) *(cm|mm) *(?:2|²)`) })
	sidesWords = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`([0-9]+(?:[.,][0-9]+)?) *(?:cm|mm)? *[x×] *([0-9]+(?:[.,][0-9]+)?) *(cm|mm)`)
	})
)

// ReadArea reads an area in words: 0.8 cm2, 80 mm², 5 x 4 mm. It is in square
// millimetres.
func ReadArea(words string) (mm2 float64, ok bool) {
	words = strings.ToLower(words)
	figure := func(s string) float64 {
		x, _ := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
		return x
	}
	unit := map[string]float64{"cm": 100, "mm": 1}
	if m := sidesWords().FindStringSubmatch(words); m != nil {
		return figure(m[1]) * figure(m[2]) * unit[m[3]], true
	}
	if m := areaWords().FindStringSubmatch(words); m != nil {
		return figure(m[1]) * unit[m[2]], true
	}
	return 0, false
}
