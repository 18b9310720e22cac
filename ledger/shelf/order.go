package shelf

import (
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/land"
)

// Order puts specimens in the order of the cabinets.
type Order struct {
	museum   *book.Museum
	habits   ledger.FilingHabits
	levels   []level
	families map[string]familyPlace // by folded name
	groups   map[string]int         // rank, by folded name
	regions  []region
	planted  string         // the colour of covers of cultivated ones
	of       map[string]int // word of a place, folded -> region; only words that were asked for
	taxa     map[taxonKey]*taxon
}

type level uint8

const (
	byGroup level = iota
	byFamily
	byGenus
	byRegion
	bySpecies
	byCollector
)

var levelWords = []string{"group", "family", "genus", "region", "species", "collector"}

type familyPlace struct {
	rank          int
	number, group string
}

type region struct {
	name, colour string
	places       map[string]bool // folded words, and codes of countries
	rest         bool
}

// NewOrder is the order that habits ask for, with the names of m.
func NewOrder(habits ledger.FilingHabits, m *book.Museum) *Order {
	o := &Order{museum: m, habits: habits, families: map[string]familyPlace{}, groups: map[string]int{}, of: map[string]int{}, taxa: map[taxonKey]*taxon{}}
	for _, l := range habits.Order {
		if i := slices.Index(levelWords, l.Text); i >= 0 && !slices.Contains(o.levels, level(i)) {
			o.levels = append(o.levels, level(i))
		}
	}
	for _, g := range habits.Groups {
		o.group(g.Text)
	}
	for i, f := range habits.Sequence {
		if k := fold(f.Family.Text); k != "" {
			if _, twice := o.families[k]; !twice {
				o.families[k] = familyPlace{i, f.Number.Text, f.Group.Text}
			}
		}
		o.group(f.Group.Text)
	}
	for _, r := range habits.Regions {
		if fold(r.Region.Text) == "cultivated" {
			o.planted = r.Colour.Text
			continue
		}
		reg := region{name: r.Region.Text, colour: r.Colour.Text, places: map[string]bool{}, rest: len(r.Places) == 0}
		for _, p := range r.Places {
			reg.places[fold(p.Text)] = true
			if code, ok := land.CodeOf(p.Text); ok {
				reg.places[" "+code] = true
			}
		}
		o.regions = append(o.regions, reg)
	}
	return o
}

func (o *Order) group(name string) {
	if k := fold(name); k != "" {
		if _, ok := o.groups[k]; !ok {
			o.groups[k] = len(o.groups)
		}
	}
}

func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// has reports whether sheets are put in order by l.
func (o *Order) has(l level) bool { return slices.Contains(o.levels, l) }

// regionOf is the place of a sheet's region in the settings: the first that
// names its district, province or country; -1 for none.
func (o *Order) regionOf(e *book.Entry) int {
	if len(o.regions) == 0 {
		return -1
	}
	words := e.Country + "\x00" + e.Province + "\x00" + e.District
	if i, ok := o.of[words]; ok {
		return i
	}
	found := -1
	country, province, district := fold(e.Country), fold(e.Province), fold(e.District)
	code, _ := land.CodeOf(e.Country)
	for i, r := range o.regions {
		if r.rest || r.places[country] && country != "" || r.places[province] && province != "" || r.places[district] && district != "" || code != "" && r.places[" "+code] {
			found = i
			break
		}
	}
	o.of[words] = found
	return found
}

// The marks before a segment of a key: what lies first, in its place, behind.
const (
	first   = 0x10
	inTurn  = 0x20
	hybrid  = 0x28
	nowhere = 0x2e
	last    = 0x30
)

// series of a sheet: types apart, all others, then the words of apart.
func (o *Order) series(e *book.Entry) (mark byte, name string) {
	if len(e.Types) > 0 && o.habits.Types.Text == "apart" {
		return first, "types"
	}
	if e.Kept != "" {
		for i, w := range o.habits.Apart {
			if fold(w.Text) == fold(e.Kept) {
				return last + byte(min(i, 0x80)), w.Text
			}
		}
	}
	return inTurn, ""
}

// key is what sheets are compared by, as bytes; cover is how much of it is the
// same for all sheets of one cover.
func (o *Order) key(e *book.Entry, b []byte) (key []byte, cover int) {
	t := o.taxonOf(e)
	mark, _ := o.series(e)
	b = append(b, mark)
	cultivated := e.Flags.Has(book.Cultivated) && o.habits.Cultivated.Text != "among"
	for _, l := range o.levels {
		switch l {
		case byRegion:
			b = append(b, o.regionMark(e, cultivated))
		case byCollector:
		default:
			b = append(append(b, t.segments[l]...), 0)
		}
	}
	if cultivated && !o.has(byRegion) {
		b = append(b, last)
	} else {
		b = append(b, inTurn)
	}
	if len(e.Types) > 0 && o.habits.Types.Text == "folder" {
		b = append(b, first)
	} else {
		b = append(b, inTurn)
	}
	cover = len(b)
	if o.has(byCollector) {
		b = append(append(b, e.Who...), 0)
		b = appendNumber(b, e.CollNo)
	}
	return b, cover
}

func (o *Order) regionMark(e *book.Entry, cultivated bool) byte {
	if cultivated {
		return 0xff
	}
	if i := o.regionOf(e); i >= 0 {
		return byte(min(inTurn+i, 0xf0))
	}
	return 0xfe
}

// appendNumber writes a collector's number so that 9 stands before 10, and 12
// before 12a.
func appendNumber(b []byte, no string) []byte {
	i := strings.IndexFunc(no, func(r rune) bool { return r >= '0' && r <= '9' })
	if i < 0 {
		return append(append(b, 0xff), no...)
	}
	k := i
	for k < len(no) && no[k] >= '0' && no[k] <= '9' {
		k++
	}
	digits := strings.TrimLeft(no[i:k], "0")
	b = append(b, no[:i]...)
	b = append(b, byte(min(len(digits), 250)))
	return append(append(append(b, digits...), no[k:]...), 0)
}

// firstOf is the beginning of the keys of what a cabinet's first names: a
// series, a family, a genus, a name. nil when it names nothing that lies
// anywhere.
func (o *Order) firstOf(words string) []byte {
	if words == "" {
		return nil
	}
	if fold(words) == "types" {
		return []byte{first}
	}
	for i, w := range o.habits.Apart {
		if fold(w.Text) == fold(words) {
			return []byte{last + byte(min(i, 0x80))}
		}
	}
	t := o.taxonNamed(words)
	if t.genus == "" && t.family == "" {
		if rank, ok := o.groups[fold(words)]; ok && len(o.levels) > 0 && o.levels[0] == byGroup {
			return append([]byte{inTurn}, byte(inTurn+rank))
		}
		return nil
	}
	b := []byte{inTurn}
	for _, l := range o.levels {
		known := l == byGroup || l == byFamily || l == byGenus && t.genus != "" || l == bySpecies && t.epithets != ""
		if !known {
			break
		}
		b = append(append(b, t.segments[l]...), 0)
	}
	return b
}

// number of a setting; otherwise def.
func number(l ledger.Leaf, def int) int {
	if n, err := strconv.Atoi(strings.TrimSpace(l.Text)); err == nil && n > 0 {
		return n
	}
	return def
}
