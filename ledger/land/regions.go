package land

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
)

//go:embed regions.txt
var regionsText string

// region is a name of a first-level region of a country and what it covers.
type region struct {
	name  string // as the data or regions.txt spell it
	units []*unit
}

// regionNames are the regions of one country by folded name, twice: as they
// are, and without words for the kind of region.
type regionNames struct {
	full, bare map[string]*region
	keys       []string // of full and bare, sorted, for suggestions
	asked      memo[*region]
	suggested  memo[string]
}

var regionsOf sync.Map // alpha-2 -> *regionNames

// extra is the rows of regions.txt by country.
var extra = sync.OnceValue(func() map[string][][]string {
	out := map[string][][]string{}
	for row := range rows(regionsText) {
		f := strings.Split(row, "|")
		out[f[0]] = append(out[f[0]], f[1:])
	}
	return out
})

func regionsIn(alpha2 string) *regionNames {
	if r, ok := regionsOf.Load(alpha2); ok {
		return r.(*regionNames)
	}
	units := whole().byCountry[alpha2]
	r := &regionNames{full: map[string]*region{}, bare: map[string]*region{}}
	for _, u := range units {
		if u.name != "" {
			r.add(u.name, u.name, []*unit{u})
		}
	}
	for _, f := range extra()[alpha2] {
		var under []*unit
		for _, n := range strings.Split(f[1], ";") {
			if x := r.full[fold(n)]; x != nil {
				under = append(under, x.units...)
			}
		}
		names := strings.Split(f[0], ";")
		for _, n := range names {
			r.add(n, names[0], under)
		}
	}
	for _, u := range units {
		for _, n := range strings.Split(u.others, ";") {
			if n != "" {
				r.add(n, n, []*unit{u})
			}
		}
	}
	for k := range r.full {
		r.keys = append(r.keys, k)
	}
	for k := range r.bare {
		if r.full[k] == nil {
			r.keys = append(r.keys, k)
		}
	}
	slices.Sort(r.keys)
	kept, _ := regionsOf.LoadOrStore(alpha2, r)
	return kept.(*regionNames)
}

// add keeps a name of what is called so; a name that several units bear covers
// them all.
func (r *regionNames) add(name, called string, units []*unit) {
	put := func(m map[string]*region, key string) {
		x := m[key]
		if x == nil {
			x = &region{name: called}
			m[key] = x
		}
		for _, u := range units {
			if !slices.Contains(x.units, u) {
				x.units = append(x.units, u)
			}
		}
	}
	key := fold(name)
	put(r.full, key)
	if b := bare(key); b != "" {
		put(r.bare, b)
	}
}

// find is the region of that name; nil when there is none.
func (r *regionNames) find(words string) *region {
	x, ok := r.asked.get(words)
	if !ok {
		key := fold(words)
		if x = r.full[key]; x == nil {
			x = r.bare[bare(key)]
		}
		r.asked.put(words, x)
	}
	return x
}

// kinds are words for the kind of a region, in the languages of labels.
var kinds = sync.OnceValue(func() map[string]bool {
	return wordSet(`province prov provincia provincie provinz provinsi provins state estado etat staat land department departement departamento
 dept dep depto county counties co comitat county region regione région regio distrikt district distrito distretto dist canton kanton cantone fylke
 amt laen lan län maakunta oblast krai kray okrug autonomous republic rep raion rayon prefecture ken governorate gouvernement gov municipality
 municipio comune opstina obcina judetul judet wojewodztwo voivodeship woj zupanija megye kraj territory terr territoire territorio parish
 muhafazat wilaya vilayet il ostan changwat of de del della di du des d l da do the av i freistaat freie hansestadt und city`)
})

func wordSet(s string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(s) {
		out[fold(w)] = true
	}
	return out
}

// bare is a folded name without words for the kind of region at its ends; the
// name itself when nothing else would be left.
func bare(key string) string {
	kind := kinds()
	ws := strings.Fields(key)
	from, to := 0, len(ws)
	for from < to && kind[ws[from]] {
		from++
	}
	for to > from && kind[ws[to-1]] {
		to--
	}
	if from == to {
		return key
	}
	return strings.Join(ws[from:to], " ")
}

// called is the name of a region: that of the data when it is one unit, else
// the first that regions.txt or the data give to its units together.
func (x *region) called() string {
	if len(x.units) == 1 && x.units[0].name != "" {
		return x.units[0].name
	}
	return x.name
}

// Region gives the name of a first-level region of a country, as the boundary
// data or regions.txt spell it (Bayern for Bavaria), by words that may have other capitals, no
// accents, words such as County or fylke, or be shortened as labels do. False
// when the country has none of that name here, which is no proof that there
// is none: the data have one level of each country, of about 2018.
func Region(alpha2, words string) (name string, ok bool) {
	x := regionsIn(alpha2).find(words)
	if x == nil {
		return "", false
	}
	return x.called(), true
}

// Regions lists the first-level regions of a country as the boundary data name
// them, sorted.
func Regions(alpha2 string) []string {
	var out []string
	for _, u := range whole().byCountry[alpha2] {
		if u.name != "" {
			out = append(out, u.name)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// SuggestRegion is the known region of a country nearest to words that name
// none, at most two slips away; empty when none is or when two are as near.
func SuggestRegion(alpha2, words string) string {
	r := regionsIn(alpha2)
	n, ok := r.suggested.get(words)
	if !ok {
		n = r.suggest(words)
		r.suggested.put(words, n)
	}
	return n
}

func (r *regionNames) suggest(words string) string {
	if r.find(words) != nil {
		return ""
	}
	of := func(key string) *region {
		if x := r.full[key]; x != nil {
			return x
		}
		return r.bare[key]
	}
	alike := func(a, b string) bool { return slices.Equal(of(a).units, of(b).units) }
	for _, s := range []string{fold(words), bare(fold(words))} {
		if best, ok := nearest(s, r.keys, alike); ok {
			return of(best).called()
		}
	}
	return ""
}

// CountriesOf lists the countries, by alpha-2 code, sorted, that have a
// first-level region of that name: AU and US for WA.
func CountriesOf(words string) []string {
	key := fold(words)
	short := bare(key)
	return slices.Compact(slices.Sorted(func(yield func(string) bool) {
		for _, keys := range []string{key, short} {
			for _, c := range everyRegion()[keys] {
				if x := regionsIn(c).find(words); x != nil && !yield(c) {
					return
				}
			}
		}
	}))
}

// everyRegion is the countries that have a region by a folded name. It is
// made at the first question, in some 80 ms.
var everyRegion = sync.OnceValue(func() map[string][]string {
	out := map[string][]string{}
	w := whole()
	codes := make([]string, 0, len(w.byCountry))
	for c := range w.byCountry {
		codes = append(codes, c)
	}
	slices.Sort(codes)
	for _, c := range codes {
		r := regionsIn(c)
		for _, k := range r.keys {
			out[k] = append(out[k], c)
		}
	}
	return out
})

// OutsideRegion is how many metres a point lies outside a region of a country:
// 0 inside. Not known when the words name no region here (see Region), or the
// point lies in that country where the data have no regions.
func OutsideRegion(lat, lon float64, alpha2, words string) (metres float64, known bool) {
	x, y, ok := steps(lat, lon)
	if !ok {
		return 0, false
	}
	r := regionsIn(alpha2).find(words)
	if r == nil || len(r.units) == 0 {
		return 0, false
	}
	d := outside(r.units, x, y)
	if d > 0 {
		if u := whole().on(x, y); u != nil && u.name == "" && u.of(alpha2) {
			return 0, false
		}
	}
	return d, true
}
