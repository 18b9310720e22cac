package land

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
)

//go:embed countries.txt
var countriesText string

//go:embed former.txt
var formerText string

// Kind says what a name of a country is.
type Kind uint8

const (
	Today  Kind = iota // a country or territory that has a code of its own
	Former             // a state or colony that is no more: USSR
	Part               // a part of one country that has no code: Scotland
	Lands              // lands of several countries: Borneo
)

// Named is what a name of a country means today.
type Named struct {
	Codes []string // ISO 3166-1 alpha-2; several when the name is several countries of today; not to be changed
	Kind  Kind
	Was   string // of what is not Today: what it is or was, "the Soviet Union, 1922-1991"
}

// country is one row of countries.txt.
type country struct {
	alpha2, alpha3, of, name string
}

// atlas is what is known about names of countries.
type atlas struct {
	codes  []string // ISO 3166-1, sorted
	byCode map[string]country
	byName map[string]Named // by folded name
	names  []string         // the folded names, sorted, for suggestions
	whole  map[string]string
}

var known = sync.OnceValue(func() *atlas {
	a := &atlas{byCode: make(map[string]country, 256), byName: make(map[string]Named, 2048), whole: make(map[string]string, 2048)}
	for row := range rows(countriesText) {
		f := strings.Split(row, "|")
		c := country{strings.TrimSpace(f[0]), strings.TrimSpace(f[1]), strings.TrimSpace(f[2]), strings.TrimSpace(f[3])}
		a.byCode[c.alpha2] = c
		if c.alpha2 != "XK" && c.alpha2 != "XZ" && c.alpha2 != "ZZ" {
			a.codes = append(a.codes, c.alpha2)
		}
		is := Named{Codes: []string{c.alpha2}}
		a.add(c.name, is)
		for _, n := range strings.Split(f[4], ";") {
			a.add(n, is)
		}
	}
	kinds := map[string]Kind{"former": Former, "part": Part, "region": Lands}
	for row := range rows(formerText) {
		kind, rest, _ := strings.Cut(row, "|")
		names, rest, _ := strings.Cut(rest, "=")
		codes, was, _ := strings.Cut(rest, "|")
		is := Named{Codes: strings.Fields(codes), Kind: kinds[strings.TrimSpace(kind)], Was: strings.TrimSpace(was)}
		for _, n := range strings.Split(names, ";") {
			a.add(n, is)
		}
	}
	slices.Sort(a.codes)
	slices.Sort(a.names)
	return a
})

// memo remembers answers, since many records ask for the same words. It is for
// several goroutines at once and stops growing at a thousand.
type memo[T any] struct {
	all sync.Map
	n   atomic.Int32
}

func (m *memo[T]) get(words string) (T, bool) {
	if v, ok := m.all.Load(words); ok {
		return v.(T), true
	}
	var none T
	return none, false
}

func (m *memo[T]) put(words string, v T) {
	if m.n.Load() < 1000 {
		m.n.Add(1)
		m.all.Store(strings.Clone(words), v)
	}
}

var asked memo[Named]

// rows gives the lines of an embedded table without its comments.
func rows(text string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for line := range strings.Lines(text) {
			if line = strings.TrimRight(line, "\n"); line != "" && line[0] != '#' && !yield(line) {
				return
			}
		}
	}
}

// add keeps a name; the first row that has it wins.
func (a *atlas) add(name string, is Named) {
	name = strings.TrimSpace(name)
	key := fold(name)
	if _, has := a.byName[key]; has || key == "" {
		return
	}
	a.byName[key] = is
	a.whole[key] = name
	a.names = append(a.names, key)
}

// Country tells what country words name: an official, common, local or former
// name, an alpha-2 or alpha-3 code in capitals. Capitals, accents, full stops
// and "the" do not matter, nor a name turned about at a comma ("Korea, South")
// nor a second name in brackets ("Norge (Norway)").
func Country(words string) (Named, bool) {
	if is, ok := asked.get(words); ok {
		return is, len(is.Codes) > 0
	}
	is, ok := countryOf(words)
	asked.put(words, is)
	return is, ok
}

func countryOf(words string) (Named, bool) {
	a := known()
	words = strings.TrimSpace(words)
	if c, ok := a.byAlpha(words); ok {
		return Named{Codes: []string{c}}, true
	}
	if is, ok := a.byName[fold(words)]; ok {
		return is, true
	}
	if i := strings.IndexAny(words, "(["); i > 0 {
		outside, _ := a.byName[fold(words[:i])]
		inside, ok := a.byName[fold(words[i:])]
		switch {
		case len(outside.Codes) > 0 && (!ok || slices.Equal(outside.Codes, inside.Codes)):
			return outside, true
		case len(outside.Codes) == 0 && ok:
			return inside, true
		}
	}
	if first, rest, ok := strings.Cut(words, ","); ok {
		is, ok := a.byName[fold(rest+" "+first)]
		return is, ok
	}
	return Named{}, false
}

// byAlpha is the alpha-2 code of a code written in capitals.
func (a *atlas) byAlpha(s string) (string, bool) {
	switch len(s) {
	case 2:
		_, ok := a.byCode[s]
		return s, ok
	case 3:
		for _, c := range a.codes {
			if a.byCode[c].alpha3 == s {
				return c, true
			}
		}
	}
	return "", false
}

// CodeOf gives the ISO 3166-1 alpha-2 code of a country as words name it (see
// Country); false when nothing or more than one country is named so. Kosovo
// is XK, as is common; XZ is the high seas and ZZ unknown or several, as
// Darwin Core has them.
func CodeOf(words string) (alpha2 string, ok bool) {
	is, ok := Country(words)
	if !ok || len(is.Codes) != 1 {
		return "", false
	}
	return is.Codes[0], true
}

// Codes lists the 249 alpha-2 codes of ISO 3166-1, sorted. The caller may not
// change it. XK, XZ and ZZ are not among them.
func Codes() []string { return known().codes }

// Official reports whether a code is one of ISO 3166-1.
func Official(alpha2 string) bool {
	_, ok := slices.BinarySearch(known().codes, alpha2)
	return ok
}

// Name is the common English name of a country by its alpha-2 code; empty for
// a code that there is not.
func Name(alpha2 string) string { return known().byCode[alpha2].name }

// Alpha3 is the ISO 3166-1 alpha-3 code; empty when there is none.
func Alpha3(alpha2 string) string { return known().byCode[alpha2].alpha3 }

// PartOf is the country that a territory with a code of its own belongs to,
// NO for SJ; empty for a country. From memory: the territories as the United
// Nations and the countries themselves list them.
func PartOf(alpha2 string) string { return known().byCode[alpha2].of }

// SuggestCountry is the known name nearest to words that name no country, at
// most two slips away; empty when none or more than one country is as near.
func SuggestCountry(words string) string {
	n, ok := suggested.get(words)
	if !ok {
		n = suggestCountry(words)
		suggested.put(words, n)
	}
	return n
}

var suggested memo[string]

func suggestCountry(words string) string {
	a := known()
	if _, ok := Country(words); ok {
		return ""
	}
	best, ok := nearest(fold(words), a.names, func(x, y string) bool { return slices.Equal(a.byName[x].Codes, a.byName[y].Codes) })
	if !ok {
		return ""
	}
	return a.whole[best]
}
