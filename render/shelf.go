package render

import (
	"cmp"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/georeference"
	"blotter/ledger/names"
	"blotter/ledger/public"
	"blotter/ledger/reading"
	"blotter/render/page"
)

// shelf is the published part of a Book, grouped for the pages: which sheets
// bear a name now or bore it once, who collected them, where and when.
type shelf struct {
	in *Input
	// download is the archive, known once the jobs are; nil: the site has none.
	download *archived

	site *page.Site
	lang *page.Language

	gazetteer *georeference.Gazetteer // of the places in places.yaml that everybody may see

	sheets   []*book.Entry // published, in order of path
	names    map[string]*taxon
	families map[string]*taxon
	people   map[string]*person
	places   map[string]*region
	years    map[int][]*book.Entry
	undated  []*book.Entry
	number   map[string]*book.Entry // by number ignoring case
	memo     memo

	initialled bool // somebody in people.yaml is shown by initials

	slugs map[string]bool // of names

	synonymsOf map[string][]*book.Name // accepted key -> the names that names/ refers to it
	stamped    string                  // see stamp
	set0       string                  // see publishedKey

	drafts, stubs, withheld int

	renumbered []*book.Entry // what is left of numbers whose plants go on under others
}

// taxon is a name, a genus or a family with its sheets.
type taxon struct {
	key   string // canonical form, or a family's name
	slug  string
	now   []*book.Entry
	once  []*book.Entry
	under []*taxon // genera of a family, names of a genus; by key
	fam   string
	genus string
}

// person is a collector or determiner with the sheets.
type person struct {
	name      string
	slug      string
	listed    *ledger.Person // nil: not in people.yaml
	collected []*book.Entry
	named     []*book.Entry // their opinion stands
	with      []*book.Entry // they were in the party
	earlier   []*book.Entry // they signed another determination
	spellings map[string]bool
}

// region is a country, province or district.
type region struct {
	words  []string // from large to small
	path   string   // norway/vestland/voss
	sheets []*book.Entry
	parts  []*region
}

func newShelf(in *Input) *shelf {
	s := &shelf{in: in, lang: page.LanguageOf(in.Book.Museum.Site.Language.Text),
		names: map[string]*taxon{}, families: map[string]*taxon{}, people: map[string]*person{}, places: map[string]*region{},
		years: map[int][]*book.Entry{}, memo: newMemo(), number: make(map[string]*book.Entry, in.Book.Len()), slugs: map[string]bool{}, synonymsOf: map[string][]*book.Name{}}
	for _, n := range in.Book.Museum.Names.All {
		if n.Of != nil {
			s.synonymsOf[n.Of.Key()] = append(s.synonymsOf[n.Of.Key()], n)
		}
	}
	for i := range in.Book.Museum.People.All {
		s.initialled = s.initialled || in.Book.Museum.People.All[i].Initials.Text == "yes"
	}
	s.site, s.gazetteer = siteOf(in, s.lang), reading.Gazetteer(in.Book.Museum.Places)
	for e := range in.Book.All() {
		switch {
		case e.Stage == ledger.Full && e.Number.Valid() && s.published(e.Number) == nil:
			s.put(s.dated(e))
		case retired(e):
			s.renumbered = append(s.renumbered, e)
		case e.Stage == ledger.Stub:
			s.stubs++
		default:
			s.drafts++
		}
	}
	s.arrange()
	return s
}

func siteOf(in *Input, l *page.Language) *page.Site {
	m := &in.Book.Museum.Museum
	s := &page.Site{Staff: in.Book.Staff(), Title: page.Words(m.Site.Title.Text), Museum: page.Words(m.Name.Text), Language: l}
	if s.Title == "" {
		s.Title = s.Museum
	}
	if a := strings.TrimRight(m.Site.Address.Text, "/"); strings.HasPrefix(a, "https://") && !strings.ContainsAny(a, " \"'<>") {
		s.Base = a + "/"
	}
	return s
}

func (s *shelf) put(e *book.Entry) {
	s.sheets = append(s.sheets, e)
	s.number[e.Number.Key()] = e
	if hidden(e) {
		s.withheld++
	}
	now := s.currentKey(e)
	if now != "" {
		t := s.taxon(now, e)
		t.now = append(t.now, e)
	}
	once := e.Once
	if e.NameKey != now && e.NameKey != "" {
		once = append(slices.Clone(once), e.NameKey)
	}
	for _, k := range once {
		if k != now {
			t := s.taxon(k, e)
			t.once = append(t.once, e)
		}
	}
	s.putCollectors(e)
	if p := s.person(e.By); p != nil {
		p.named = append(p.named, e)
	}
	for _, by := range e.People {
		if p := s.person(by); p != nil {
			p.earlier = append(p.earlier, e)
		}
	}
	if e.With != "" {
		for _, w := range strings.Split(e.With, "; ") {
			if p := s.person(w); p != nil {
				p.with = append(p.with, e)
			}
		}
	}
	s.putPlace(e)
	if y, ok := yearOf(e); ok {
		s.years[y] = append(s.years[y], e)
	} else {
		s.undated = append(s.undated, e)
	}
}

// published is the sheet of a number that has a page; nil when there is none.
func (s *shelf) published(n ledger.Number) *book.Entry { return s.number[n.Key()] }

// hidden reports whether the exact place of e is withheld; what else is, the
// public Book has left out.
func hidden(e *book.Entry) bool { return e.Flags.Has(book.Sensitive) }

// class is how strictly e is withheld.
func (s *shelf) class(e *book.Entry) public.Class {
	if !hidden(e) {
		return public.Open
	}
	return s.in.Book.Class(e.Number)
}

// yearOf is the year that e was surely collected in.
func yearOf(e *book.Entry) (int, bool) {
	if !e.Dated || e.First.Year() != e.Last.Year() {
		return 0, false
	}
	return e.First.Year(), true
}

// currentKey is the name that e stands under: the canonical form of the
// accepted name, or of that of its determination, or the words when they could
// not be read; "" when not yet named.
func (s *shelf) currentKey(e *book.Entry) string {
	if a := s.in.Book.Museum.Renamed(e); a != nil {
		return a.Key()
	}
	if e.NameKey != "" {
		return e.NameKey
	}
	return e.Name
}

func genusOf(key string) string {
	g, _, _ := strings.Cut(strings.TrimPrefix(key, "×"), " ")
	return g
}

// taxon is the group of a canonical name, made when first met. A name of one
// word that is no genus but its family's own is the family's group.
func (s *shelf) taxon(key string, e *book.Entry) *taxon {
	if t := s.names[key]; t != nil {
		return t
	}
	fam := s.in.Book.Museum.FamilyOf(key, e.Family)
	t := &taxon{key: key, slug: nameSlug(key), fam: fam}
	if n := s.in.Book.Museum.Names.Find(key); n != nil && n.Slug != "" {
		t.slug = page.Device(page.Slug(n.Slug))
	}
	s.unique(t)
	s.names[key] = t
	if strings.Contains(key, " ") {
		t.genus = genusOf(key)
		g := s.names[t.genus]
		if g == nil {
			g = &taxon{key: t.genus, slug: nameSlug(t.genus), fam: fam}
			s.unique(g)
			s.names[t.genus] = g
			s.underFamily(g)
		}
		g.under = append(g.under, t)
	} else {
		s.underFamily(t)
	}
	return t
}

// unique gives the second of two names with one slug another (the museum
// settles it by an address in names/; check has a finding until then).
func (s *shelf) unique(t *taxon) {
	base := t.slug
	for i := 2; s.slugs[t.slug]; i++ {
		t.slug = base + "-" + itoa(i)
	}
	s.slugs[t.slug] = true
}

func (s *shelf) underFamily(t *taxon) {
	if t.fam == "" || t.fam == t.key {
		return
	}
	f := s.families[t.fam]
	if f == nil {
		f = &taxon{key: t.fam, slug: page.Slug(t.fam)}
		s.families[t.fam] = f
	}
	f.under = append(f.under, t)
}

func nameSlug(key string) string {
	if sl := names.Slug(key); sl != "" {
		return page.Device(sl)
	}
	return page.Slug(key)
}

// person is the one that words name; nil when they name nobody.
func (s *shelf) person(words string) *person {
	name, listed := s.who(words)
	if name == "" {
		return nil
	}
	slug := s.slug(name)
	p := s.people[slug]
	if p == nil {
		p = &person{name: name, slug: slug, listed: listed, spellings: map[string]bool{}}
		s.people[slug] = p
	}
	if words != name && listed != nil && listed.Initials.Text != "yes" {
		p.spellings[words] = true
	}
	return p
}

// who is the name that a person is shown by, and the entry in people.yaml;
// "" for words that say that nobody is named.
func (s *shelf) who(words string) (string, *ledger.Person) {
	x := s.memo.people.get(words, func() shownPerson {
		name, listed := s.findPerson(words)
		return shownPerson{name, listed}
	})
	return x.name, x.listed
}

func (s *shelf) findPerson(words string) (string, *ledger.Person) {
	if absent(words) {
		return "", nil
	}
	p := s.in.Book.Museum.People.Find(words)
	if p == nil {
		return s.veiled(words), nil
	}
	if p.Initials.Text == "yes" {
		return initials(p.Name.Text), p
	}
	return p.Name.Text, p
}

// initials are the first letters of a person's names.
func initials(name string) string {
	var b strings.Builder
	for _, w := range strings.Fields(name) {
		for _, r := range w {
			b.WriteRune(r)
			b.WriteByte('.')
			break
		}
	}
	return b.String()
}

func (s *shelf) putPlace(e *book.Entry) {
	var above *region
	var words []string
	path := ""
	for _, w := range []string{e.Country, e.Province, e.District} {
		sl := s.slug(w)
		if absent(w) || sl == "" {
			continue
		}
		words = append(words, w)
		if path += "/" + sl; above == nil {
			path = sl
		}
		r := s.places[path]
		if r == nil {
			r = &region{words: slices.Clone(words), path: path}
			s.places[path] = r
			if above != nil {
				above.parts = append(above.parts, r)
			}
		}
		r.sheets = append(r.sheets, e)
		above = r
	}
}

// arrange puts every group in its order.
func (s *shelf) arrange() {
	byKey := func(a, b *taxon) int { return cmp.Compare(a.key, b.key) }
	for _, t := range s.names {
		slices.SortFunc(t.under, byKey)
	}
	for _, t := range s.families {
		slices.SortFunc(t.under, byKey)
	}
	for _, r := range s.places {
		slices.SortFunc(r.parts, func(a, b *region) int { return cmp.Compare(a.path, b.path) })
	}
}

// byDate orders sheets by the day of collecting, the undated last, then by
// number.
func byDate(list []*book.Entry) []*book.Entry {
	out := slices.Clone(list)
	slices.SortStableFunc(out, func(a, b *book.Entry) int {
		if da, db := a.Dated, b.Dated; da != db {
			return cmp.Compare(boolInt(db), boolInt(da))
		} else if !da {
			return cmp.Compare(a.Path, b.Path)
		}
		return cmp.Or(cmp.Compare(a.First, b.First), cmp.Compare(a.Last, b.Last), cmp.Compare(a.Path, b.Path))
	})
	return out
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// sorted are the keys of m in order.
func sorted[K cmp.Ordered, V any](m map[K]V) []K {
	out := make([]K, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// total is the number of sheets that a genus or family holds, each once.
func (t *taxon) total() int {
	n := len(t.now)
	for _, u := range t.under {
		n += u.total()
	}
	return n
}
