package public

import (
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// telltale is what the name of a picture of a withheld record may not hold:
// a word of the place that says something, or figures that do.
type telltale struct {
	words   map[uint64]bool
	figures []string
}

// leastFigures is how many figures together are no chance in a file's name.
const leastFigures = 3

// telltaleOf gathers it of a record withheld as c.
func (v *View) telltaleOf(r *ledger.Record, date reading.Date, c Class) telltale {
	t := telltale{words: map[uint64]bool{}}
	if len(r.Images) == 0 {
		return t
	}
	place := []string{r.Place.Locality.Text, r.Garden.Text, r.SourcePlace.Text}
	numbers := []string{r.Place.Elevation.Text}
	for _, p := range []string{r.Place.Position.Text, r.Read.Position.Is.Text} {
		for _, f := range strings.FieldsFunc(p, func(x rune) bool { return x < '0' || x > '9' }) {
			if len(f) > leastFigures { // decimals, or figures of a grid
				numbers = append(numbers, f)
			}
		}
	}
	if !c.Dated() {
		place = append(place, r.Place.District.Text)
		numbers = append(numbers, r.CollNo.Text)
		if date.Known && date.First == date.Last {
			y, m, d := date.First.Date()
			numbers = append(numbers, fmt.Sprintf("%d%02d%02d", y, m, d), fmt.Sprintf("%02d%02d%d", d, m, y))
		}
	}
	common := commonWords()
	told := map[uint64]bool{}
	for _, shown := range []string{r.Specimen.Text, r.Collector.Text, r.CoverName.Text, r.Family.Text, r.Place.Country.Text, r.Place.Province.Text} {
		for _, h := range hashesOf(shown) {
			told[h] = true
		}
	}
	for i := range r.Determinations {
		for _, h := range hashesOf(r.Determinations[i].Name.Text) {
			told[h] = true
		}
	}
	for _, p := range place {
		for _, w := range wordList(p) {
			if !w.figure && !common[w.hash] && !told[w.hash] {
				t.words[w.hash] = true
			}
		}
	}
	for _, n := range numbers {
		if n = onlyFigures(n); len(n) >= leastFigures {
			t.figures = append(t.figures, n)
		}
	}
	return t
}

// in reports whether the name of a file tells something.
func (t telltale) in(file string) bool {
	for _, w := range wordList(strings.ReplaceAll(file, "_", " ")) {
		if t.words[w.hash] {
			return true
		}
	}
	for _, run := range strings.FieldsFunc(file, func(x rune) bool { return (x < '0' || x > '9') && x != '-' && x != '_' && x != '.' }) {
		whole := onlyFigures(run)
		for _, f := range t.figures {
			if len(f) == 8 && strings.Contains(whole, f) { // a day, however it is parted
				return true
			}
			for _, part := range strings.FieldsFunc(run, func(x rune) bool { return x < '0' || x > '9' }) {
				if part == f {
					return true
				}
			}
		}
	}
	return false
}

func onlyFigures(s string) string {
	return strings.Map(func(x rune) rune {
		if x < '0' || x > '9' {
			return -1
		}
		return x
	}, s)
}
