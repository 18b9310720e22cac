package label

import (
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/names"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// expected are the words that a label must have by its settings: every value
// of the record that a section shows. It is written apart from the code that
// sets labels.
func expected(in *Input, name string, given *ledger.Determination) []string {
	r, lang := in.Record, LanguageOf(in.Habits.Labels.Language.Text)
	p := r.Place
	var out []string
	add := func(ls ...ledger.Leaf) {
		for _, l := range ls {
			if reading.AbsenceOf(l.Text) == reading.Present {
				out = append(out, l.Text)
			}
		}
	}
	always := func(ls ...ledger.Leaf) {
		for _, l := range ls {
			if l.Set() {
				out = append(out, l.Text)
			}
		}
	}
	either := func(words map[string]string, ls ...ledger.Leaf) {
		for _, l := range ls {
			if w, ok := words[strings.ToLower(l.Text)]; ok {
				out = append(out, w)
			} else {
				add(l)
			}
		}
	}
	sections := map[string]func(){
		"name": func() { out = append(out, setAs(name)) }, "determination": func() {
			if given != nil && (reading.AbsenceOf(given.By.Text) == reading.Present || reading.AbsenceOf(given.Date.Text) == reading.Present) {
				always(given.By, given.At, given.Date)
			}
		},
		"place": func() { add(p.Country, p.Province, p.District, p.Locality) },
		"position": func() {
			if p.Position.Set() {
				either(lang.ElevationBy, p.Position, p.Datum, p.Uncertainty, p.GPSAccuracy, p.PositionBy)
			}
			if p.Elevation.Set() {
				either(lang.ElevationBy, p.Elevation, p.ElevationBy)
			}
		},
		"origin":           func() { add(r.Garden, r.SourcePlace) },
		"habitat":          func() { add(r.Habitat, r.Substrate, r.Host, r.Depth); add(r.Associates...) },
		"plant":            func() { add(r.Description); either(lang.Phenology, r.Phenology...) },
		"abundance":        func() { either(lang.Abundance, r.Abundance); add(r.Population) },
		"remarks":          func() { add(r.Remarks) },
		"former_herbarium": func() { add(r.FormerHerb) },
		"exsiccata":        func() { add(r.Exsiccata.Series, r.Exsiccata.Fascicle, r.Exsiccata.Number) },
		"further_numbers":  func() { add(r.FurtherNumbers...) },
		"fieldbook":        func() { add(r.Fieldbook.Volume, r.Fieldbook.Page) },
		"permit":           func() { add(r.Permit) }, "project": func() { add(r.Project) },
		"caution": func() {},
	}
	for _, s := range in.Habits.Labels.Sections {
		sections[s.Text]()
	}
	either(lang.Cautions, r.Cautions...)
	always(r.Collector, r.CollNo, r.Date, r.Specimen)
	add(r.With...)
	return append(out, in.Family, strings.ToUpper(in.Museum.Name.Text))
}

// setAs is a name as it is set: the sign × for x, single spaces.
func setAs(words string) string {
	if n, err := names.Read(words); err == nil {
		return n.Text
	}
	return words
}

// sameWords holds a label to the words that it must have: each is there, to
// the letter, and what else is there are fixed words of the language.
func sameWords(t testing.TB, in *Input, blocks []*paper.Block, want []string) (ok bool) {
	t.Helper()
	text := ""
	for _, b := range blocks {
		for _, p := range b.Parts {
			text += " " + p.Text + " |"
		}
	}
	return textHas(t, in, text, want)
}

func textHas(t testing.TB, in *Input, text string, want []string) bool {
	t.Helper()
	ok := true
	text = strings.Join(strings.Fields(text), " ")
	slices.SortStableFunc(want, func(a, b string) int { return len(b) - len(a) })
	for _, w := range want {
		w = strings.Join(strings.Fields(w), " ")
		if w == "" {
			continue
		}
		at := indexWords(text, w)
		if at < 0 {
			if at = indexWords(text, upper(w)); at < 0 {
				t.Errorf("%s: %q is not on the label:\n%s", in.Number(), w, text)
				ok = false
				continue
			}
		}
		text = text[:at] + " \x00 " + text[at+len(w):]
	}
	known := vocabulary(LanguageOf(in.Habits.Labels.Language.Text))
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		if !known[strings.ToLower(w)] {
			t.Errorf("%s: %q is on the label and nowhere in the record: %q", in.Number(), w, text)
			ok = false
		}
	}
	return ok
}

// indexWords is where words stand in a text as words of their own.
func indexWords(text, words string) int {
	inner := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }
	for from := 0; ; {
		at := strings.Index(text[from:], words)
		if at < 0 {
			return -1
		}
		at += from
		before, _ := utf8.DecodeLastRuneInString(text[:at])
		after, _ := utf8.DecodeRuneInString(text[at+len(words):])
		first, _ := utf8.DecodeRuneInString(words)
		last, _ := utf8.DecodeLastRuneInString(words)
		if !(inner(before) && inner(first)) && !(inner(after) && inner(last)) {
			return at
		}
		from = at + 1
	}
}

// vocabulary is every fixed word of a language, in lower case.
func vocabulary(l *Language) map[string]bool {
	out := map[string]bool{"gps": true}
	add := func(text string) {
		for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
			out[strings.ToLower(w)] = true
		}
	}
	v := reflect.ValueOf(*l)
	for i := range v.NumField() {
		switch f := v.Field(i); f.Kind() {
		case reflect.String:
			add(f.String())
		case reflect.Map:
			for w := range maps.Values(f.Interface().(map[string]string)) {
				add(w)
			}
		}
	}
	return out
}
