package annual

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/mids"
	"blotter/ledger/reading"
	"blotter/ledger/work"
)

// count is the sums that grow record by record.
type count struct {
	Source
	book     *book.Book
	museum   *book.Museum
	from, to dates.Day

	holdings holdings
	teaching int
	sheets   [2]int // opening, closing
	gathered [2]map[string]bool
	missing  int
	onLoan   int

	activity activity
	names    naming
	types    [2]int // statements made in the year, specimens at its end
	closing  groups
	lack     lack
	midsAt   [mids.MaxLevel + 2]int
	lastSaid string // the highest number in use at the end
	last     uint64
}

func newCount(src Source, from, to dates.Day) *count {
	c := &count{Source: src, book: src.Works.Book(), from: from, to: to, holdings: holdings{}, activity: activity{}}
	c.museum = c.book.Museum
	c.gathered = [2]map[string]bool{{}, {}}
	c.closing = newGroups()
	return c
}

// add counts one record.
func (c *count) add(e *book.Entry, r *reading.Reading) {
	s := stayOf(c.Works, e, c.from, c.to)
	c.holdings.add(s, c.from, c.to)
	sheets := sheetsOf(r.Record)
	for i, here := range []bool{s.opened, s.closed} {
		if here {
			c.sheets[i] += sheets
			c.gathered[i][gatheringOf(e)] = true
		}
	}
	if s.teaching {
		c.teaching++
	}
	c.activity.add(s, c.from, c.to)
	c.names.add(r, c.from, c.to)
	c.types[0] += typesIn(r.Record, c.from, c.to)
	if !s.closed {
		return
	}
	if e.Flags.Has(book.Typed) {
		c.types[1]++
	}
	switch s.end.Where {
	case work.Missing:
		c.missing++
	case work.OnLoan:
		c.onLoan++
	}
	c.closing.add(e, c.museum)
	c.lack.add(e, s)
	c.midsAt[mids.OfEntry(e, c.museum, c.Entered).Level()+1]++
	if n, ok := e.Number.Serial(); ok && (n > c.last || c.lastSaid == "") {
		c.last, c.lastSaid = n, string(e.Number)
	}
}

// within reports whether a day lies in the year counted.
func (c *count) within(d dates.Day) bool { return d >= c.from && d <= c.to }

// sheetsOf is how many mounted sheets a specimen is: one, unless its parts say
// more or it is kept as something else.
func sheetsOf(r *ledger.Record) int {
	n := 0
	for _, p := range r.Parts {
		if strings.HasPrefix(strings.ToLower(p.Part.Text), "sheet") {
			n++
		}
	}
	switch {
	case len(r.Parts) > 0:
		return n
	case r.KeptAs.Set() && r.KeptAs.Text != "sheet":
		return 0
	}
	return 1
}

// gatheringOf is what specimens of one gathering share: collector and number,
// or when there is none what else tells gatherings apart.
func gatheringOf(e *book.Entry) string {
	if e.Who == "" || reading.AbsenceOf(e.CollNo) != reading.Present {
		return string(e.Number)
	}
	return e.Who + "\x00" + strings.ToLower(e.CollNo)
}

func typesIn(r *ledger.Record, from, to dates.Day) (n int) {
	for _, t := range r.Types {
		if d := dates.Read(t.Date.Text, dates.Ask); t.Date.Set() && !t.Mistake.Set() && d.Known() && !d.OpenEnd && d.Last >= from && d.Last <= to {
			n++
		}
	}
	return n
}

// tally counts words and gives them back, the most frequent first.
type tally struct {
	key, title string
	notes      []string
	n          map[string]int
	byWord     bool // in order of the words
}

func (t *tally) add(word string) { t.n[word]++ }

func (t *tally) section() Section {
	s := Section{Key: t.key, Title: t.title, Notes: t.notes, Chart: true}
	all := 0
	for word, n := range t.n {
		s.Rows = append(s.Rows, Row{Key: word, Label: word, N: n})
		all += n
	}
	slices.SortFunc(s.Rows, func(a, b Row) int {
		if t.byWord {
			return strings.Compare(a.Label, b.Label)
		}
		return cmp.Or(b.N-a.N, strings.Compare(a.Label, b.Label))
	})
	for i := range s.Rows {
		s.Rows[i].Of = all
	}
	return s
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// groups are the closing figures by subject.
type groups struct{ families, countries, decades, collectors tally }

const notSaid = "not said"

func newGroups() groups {
	make1 := func(key, title string) tally { return tally{key: key, title: title, n: map[string]int{}} }
	g := groups{make1("families", "By family"), make1("countries", "By country"), make1("decades", "By decade of collecting"), make1("collectors", "By collector")}
	g.decades.byWord = true
	g.collectors.notes = []string{"A specimen counts for the collector who is named first."}
	return g
}

func (g *groups) add(e *book.Entry, m *book.Museum) {
	g.families.add(cmp.Or(m.FamilyOf(e.NameKey, e.Family), notSaid))
	g.countries.add(cmp.Or(e.Country, notSaid))
	g.decades.add(decadeOf(e))
	who := e.Collector
	if p := m.People.Find(who); p != nil {
		who = p.Name.Text
	}
	if reading.AbsenceOf(who) != reading.Present {
		who = notSaid
	}
	g.collectors.add(who)
}

// decadeOf is the ten years in which a specimen was collected.
func decadeOf(e *book.Entry) string {
	if !e.Dated || e.First.Year()/10 != e.Last.Year()/10 {
		return notSaid
	}
	return strconv.Itoa(e.Last.Year()/10*10) + "s"
}
