package exchange

import (
	"hash/maphash"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Profile is what the cells of a table look like, column by column.
type Profile struct {
	Rows    int
	Columns []ColumnProfile

	titled int // the line of the headings, when titles stand above them
}

// ColumnProfile is what the cells of one column look like.
type ColumnProfile struct {
	Head    string
	Filled  int      // cells with words
	Samples []string // a few that differ

	words    map[string]int // how often each, as long as there are not too many
	distinct map[uint64]struct{}
	twice    bool           // some cell stands twice
	apart    map[string]int // cells with each separator
	names    map[string]int // cells whose parts by that separator are all names
	plants   int            // cells that begin as the name of a plant
	numeric  int            // cells of figures, ranges too
	dayFirst int            // dates in figures that only fit one order
	monFirst int
	either   string // a date that fits both
	eithers  int
}

const (
	maxWords    = 1000 // distinct cells of a column that are counted
	maxDistinct = 200_000
	maxSamples  = 3
)

var separators = []string{"|", ";", ",", "/", "\n", " > "}

var seed = maphash.MakeSeed()

// NewProfile reads a table through once.
func NewProfile(src Source) (*Profile, error) {
	p := &Profile{}
	if t, ok := src.(interface{ titled() int }); ok {
		p.titled = t.titled()
	}
	for _, h := range src.Heads() {
		p.Columns = append(p.Columns, ColumnProfile{Head: h, words: map[string]int{}, distinct: map[uint64]struct{}{}, apart: map[string]int{}, names: map[string]int{}})
	}
	for row, err := range src.Rows() {
		if err != nil {
			return nil, err
		}
		p.Rows++
		for i := range p.Columns {
			if words := row.Cells[i]; words != "" {
				p.Columns[i].add(words)
			}
		}
	}
	return p, nil
}

// find is a column by its heading; nil for none.
func (p *Profile) find(head string) *ColumnProfile {
	for i := range p.Columns {
		if p.Columns[i].Head == head {
			return &p.Columns[i]
		}
	}
	return nil
}

func (c *ColumnProfile) add(words string) {
	c.Filled++
	if c.words[words] > 0 || len(c.words) < maxWords {
		c.words[words]++
	}
	if len(c.Samples) < maxSamples && c.words[words] == 1 && len(words) < 200 {
		c.Samples = append(c.Samples, words)
	}
	if !c.twice && len(c.distinct) < maxDistinct {
		h := maphash.String(seed, words)
		_, c.twice = c.distinct[h]
		c.distinct[h] = struct{}{}
		if c.twice {
			c.distinct = nil
		}
	}
	for _, sep := range separators {
		if strings.Contains(words, sep) {
			c.apart[sep]++
			if allNames(strings.Split(words, sep)) {
				c.names[sep]++
			}
		}
	}
	if looksNamed(words) {
		c.plants++
	}
	figures := words
	for _, about := range []string{"ca.", "ca", "c.", "about", "approx.", "etwa", "env.", "omkring", "omtrent"} {
		figures = strings.TrimPrefix(figures, about)
	}
	if strings.ContainsAny(figures, "0123456789") && strings.Trim(figures, "0123456789.,-–+±~<> ") == "" {
		c.numeric++
	}
	c.addDate(words)
}

// addDate looks at a date in figures: which of the first two can be a month.
func (c *ColumnProfile) addDate(words string) {
	parts := strings.FieldsFunc(words, func(r rune) bool { return strings.ContainsRune("/.- ", r) })
	if len(parts) != 3 || len(parts[0]) > 2 || len(parts[1]) > 2 || strings.Trim(parts[2], "0123456789") != "" {
		return
	}
	first, err := strconv.Atoi(parts[0])
	second, err2 := strconv.Atoi(parts[1])
	switch {
	case err != nil || err2 != nil || first > 31 || second > 31 || first == second:
	case first > 12 && second <= 12:
		c.dayFirst++
	case second > 12 && first <= 12:
		c.monFirst++
	default:
		if c.eithers++; c.either == "" {
			c.either = words
		}
	}
}

// allNames reports whether each part looks like the name of a plant, or is the
// mark of agreement; there must be two.
func allNames(parts []string) bool {
	names := 0
	for _, p := range parts {
		switch p = strings.TrimSpace(p); {
		case p == "" || p == "!":
		case !looksNamed(p):
			return false
		default:
			names++
		}
	}
	return names > 0 && len(parts) > 1
}

// looksNamed reports whether words begin as the name of a genus does, with a
// second word that is not capitalised.
func looksNamed(words string) bool {
	genus, rest, ok := strings.Cut(strings.TrimLeft(words, "×x? "), " ")
	if !ok || utf8.RuneCountInString(genus) < 3 {
		return false
	}
	for i, r := range genus {
		if i == 0 != unicode.IsUpper(r) || !unicode.IsLetter(r) {
			return false
		}
	}
	next, _ := utf8.DecodeRuneInString(strings.TrimLeft(rest, "×? "))
	return unicode.IsLower(next)
}

// list is the separator that parts most cells into entries; "" for none.
func (c *ColumnProfile) list() string {
	best, most := "", 0
	for _, sep := range []string{"|", ";", ","} {
		if n := c.apart[sep]; n > most {
			best, most = sep, n
		}
	}
	return best
}

// named is the separator that parts several names; "" for none. Authors hold
// commas too, so nearly all parts must be names.
func (c *ColumnProfile) named() string {
	best, most := "", 0
	for _, sep := range separators {
		if n := c.names[sep]; n > most && n*10 >= c.apart[sep]*8 {
			best, most = sep, n
		}
	}
	return best
}

// unique reports whether no cell stands twice and nearly every row has one.
func (c *ColumnProfile) unique(rows int) bool {
	return rows > 1 && !c.twice && c.Filled*50 >= rows*49
}

// figures reports whether nearly all cells are figures without a unit.
func (c *ColumnProfile) figures() bool {
	filled := c.Filled
	for _, n := range nothings {
		filled -= c.has(n)
	}
	return filled > 0 && c.numeric*10 >= filled*8
}

// order is the order of dates in figures when the cells settle it.
func (c *ColumnProfile) order() string {
	switch {
	case c.monFirst > 0 && c.dayFirst == 0:
		return "month-day"
	case c.dayFirst > 0 && c.monFirst == 0:
		return "day-month"
	}
	return ""
}
