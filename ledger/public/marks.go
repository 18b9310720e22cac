package public

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/names"
	"blotter/ledger/reading"
)

// mark is one reason to withhold: a record's own, that of a name or of a
// place.
type mark struct {
	class   Class
	on      dates.Day // when it was made; 0: not known, so that any release is younger
	why     string
	written string // category as written
	review  string
	name    string // the name that is marked
	private bool
}

// stricter is the stricter of two marks, the first when they are alike; each
// may be nil.
func stricter(a, b *mark) *mark {
	if a == nil || b != nil && b.class > a.class {
		return b
	}
	return a
}

// taxa are the marked names of names/ made ready to be asked.
type taxa struct {
	names  *book.Names
	marks  map[string][]*mark // by canonical form: of the marked names and of what they are synonyms of
	genera map[string][]*mark // by genus: of the marked names in it, by any of their synonyms
	known  *sync.Map          // words -> []*mark
}

func (v *View) newTaxa(ns *book.Names) *taxa {
	t := &taxa{names: ns, marks: map[string][]*mark{}, genera: map[string][]*mark{}, known: &sync.Map{}}
	var synonyms map[string][]string // by accepted form
	for _, n := range ns.All {
		given := book.MarkOf(n.Given.Sensitive)
		if !given.Holds() {
			continue
		}
		s := n.Given.Sensitive
		m := &mark{class: v.classOf(s.Category.Text), on: given.On, why: s.Why.Text, written: s.Category.Text, review: s.Review.Text, name: n.Given.Name.Text}
		if synonyms == nil {
			synonyms = synonymsIn(ns)
		}
		t.list(n, m, synonyms)
	}
	return t
}

func synonymsIn(ns *book.Names) map[string][]string {
	out := map[string][]string{}
	for _, n := range ns.All {
		if n.Of == nil || n.Key() == "" {
			continue
		}
		if a := ns.Accepted(n.Key()); a != nil {
			out[a.Key()] = append(out[a.Key()], n.Key())
		}
	}
	return out
}

// list enters a marked name under every form that it may be met by.
func (t *taxa) list(n *book.Name, m *mark, synonyms map[string][]string) {
	keys := n.Read.Keys
	if len(keys) == 0 {
		keys = []string{n.Given.Name.Text} // it cannot be read; it is met by its words
	}
	for _, k := range keys {
		forms := []string{k}
		if a := t.names.Accepted(k); a != nil && a.Key() != k && a.Key() != "" {
			forms = append(forms, a.Key())
		}
		for _, f := range forms {
			t.marks[f] = append(t.marks[f], m)
			if other := names.FamilyByType(f); other != f {
				t.marks[other] = append(t.marks[other], m)
			}
		}
		t.listGenera(append(forms, synonyms[forms[len(forms)-1]]...), m)
	}
}

// listGenera enters the genera of a marked name's forms. A family is entered
// under none: its genera are found through it.
func (t *taxa) listGenera(forms []string, m *mark) {
	for _, f := range forms {
		genus, rest := book.GenusOf(f)
		if rest != "" && !slices.Contains(t.genera[genus], m) {
			t.genera[genus] = append(t.genera[genus], m)
		}
	}
}

// empty reports whether no name is marked.
func (t *taxa) empty() bool { return len(t.marks) == 0 }

// of is the marks that a name has, in canonical form or in any words: its own,
// those of its synonyms, of every taxon above it, of a hybrid's parents and of
// each of "A or B". A name that goes no further than the genus may be any of
// the genus.
func (t *taxa) of(words string) []*mark {
	if t.empty() || words == "" {
		return nil
	}
	if ms, ok := t.known.Load(words); ok {
		return ms.([]*mark)
	}
	l := &lookup{taxa: t, seen: map[string]bool{}}
	l.words(words)
	t.known.Store(words, l.found)
	return l.found
}

// ofFamily is the marks of a family as a record writes it.
func (t *taxa) ofFamily(family string) []*mark {
	if t.empty() || family == "" {
		return nil
	}
	return t.of(family)
}

type lookup struct {
	*taxa
	seen  map[string]bool
	found []*mark
}

func (l *lookup) add(ms []*mark) {
	for _, m := range ms {
		if !slices.Contains(l.found, m) {
			l.found = append(l.found, m)
		}
	}
}

func (l *lookup) words(words string) {
	l.add(l.marks[words])
	if reading.AbsenceOf(words) != reading.Present {
		return
	}
	n, err := names.Read(words)
	if err != nil {
		l.unread(words)
		return
	}
	l.name(n, true)
}

// unread looks for a listed genus among words that are no name.
func (l *lookup) unread(words string) {
	for _, w := range strings.FieldsFunc(words, func(r rune) bool { return !unicode.IsLetter(r) && r != '-' }) {
		l.add(l.genera[w])
		l.add(l.marks[w])
	}
}

// name adds the marks of a name and of what it lies in; itself says that it
// is the plant's own name, or one that it is a synonym of, and no taxon above.
func (l *lookup) name(n names.Name, itself bool) {
	for _, p := range slices.Concat(n.Parents, n.Or) {
		l.name(p, itself)
	}
	if len(n.Parents)+len(n.Or) > 0 {
		return
	}
	key := n.Canonical()
	if l.seen[key] {
		return
	}
	l.seen[key] = true
	l.add(l.marks[key])
	if itself && n.Genus != "" && (n.Species == "" || n.SpeciesHybrid && l.names.Find(key) == nil) {
		genus, _ := book.GenusOf(key)
		l.add(l.genera[genus]) // may be any of them; of a hybrid that is in no list, any may be a parent
	}
	for i := range key {
		if key[i] == ' ' && i > 0 {
			l.above(key[:i])
		}
	}
	for _, fam := range []string{l.names.FamilyOf(key), n.Family()} {
		l.above(fam)
		l.above(names.FamilyByType(fam))
	}
	l.accepted(key, itself)
}

// above adds the marks of a taxon that the name lies in.
func (l *lookup) above(key string) {
	if key != "" && !l.seen[key] {
		l.seen[key] = true
		l.add(l.marks[key])
		l.accepted(key, false)
	}
}

// accepted goes on with the name that a form is a synonym of.
func (l *lookup) accepted(key string, itself bool) {
	if a := l.names.Accepted(key); a != nil && a.Read.Readable {
		l.name(a.Read.Read, itself)
	}
}

// unreleased is the strictest of marks that are younger than a release; a
// release of 0 is none. since is the names that were given after it, whose
// marks it does not end.
func (t *taxa) unreleased(keys []string, family string, released dates.Day, since []string) *mark {
	var out *mark
	for _, k := range keys {
		for _, m := range t.of(k) {
			if released == 0 || m.on > released || slices.Contains(since, k) {
				out = stricter(out, m)
			}
		}
	}
	for _, m := range t.ofFamily(family) {
		if released == 0 || m.on > released {
			out = stricter(out, m)
		}
	}
	return out
}

// classOf is the class of a category as this museum holds it: what blotter.yaml
// makes stricter counts, what it would make less strict does not.
func (v *View) classOf(category string) Class {
	c := ClassOf(category)
	for _, as := range v.full.Museum.Sensitive.Categories {
		if as.Category.Set() && as.As.Set() && ClassOf(as.Category.Text) == ClassOf(category) {
			c = max(c, ClassOf(as.As.Text))
		}
	}
	return c
}
