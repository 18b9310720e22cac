package book

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/names"
	"blotter/ledger/reading"
)

// Name is one entry of names/ as read.
type Name struct {
	Given  *ledger.NameEntry
	Family string // as its file says
	Path   string // that file
	Read   reading.Name
	Slug   string // of its page: address when given, else made of the name
	Of     *Name  // the accepted name; nil when it is accepted itself or names one that is in no file
}

// Key is the canonical form, without authors.
func (n *Name) Key() string { return n.Read.Key() }

// Names is names/ made ready to be asked.
type Names struct {
	All     []*Name // by canonical form, then as written
	byKey   map[string]*Name
	bySlug  map[string]*Name
	near    *sync.Map         // canonical form -> what is most like it
	byGenus map[string]string // genus -> family; "" when two families claim it

	families   []string           // in order
	byEpithets map[string][]*Name // what follows the genus -> names; for slips in a genus
}

func newNames(files []*ledger.FamilyNames) Names {
	var all []*Name
	for _, f := range files {
		for i := range f.Names {
			n := &Name{Given: &f.Names[i], Family: f.Family.Text, Path: f.Path, Read: reading.ReadName(f.Names[i].Name.Text)}
			n.Slug = n.Given.Address.Text
			if n.Slug == "" && n.Read.Readable {
				n.Slug = n.Read.Read.Slug()
			}
			all = append(all, n)
		}
	}
	slices.SortStableFunc(all, func(a, b *Name) int {
		return cmp.Or(cmp.Compare(a.Key(), b.Key()), cmp.Compare(a.Given.Name.Text, b.Given.Name.Text), cmp.Compare(a.Path, b.Path))
	})
	return namesOf(all)
}

// namesOf makes names in their order ready to be asked.
func namesOf(all []*Name) Names {
	ns := Names{All: all, byKey: map[string]*Name{}, bySlug: map[string]*Name{}, near: &sync.Map{}, byGenus: map[string]string{}, byEpithets: map[string][]*Name{}}
	for _, n := range all {
		ns.put(n)
	}
	for _, n := range all {
		if of := n.Given.Of.Text; of != "" {
			n.Of = ns.byKey[reading.ReadName(of).Key()]
		}
	}
	return ns
}

// Map is ns with every entry changed by change, which may not change its name
// or what it is a synonym of; for ledger/public.
func (ns *Names) Map(change func(ledger.NameEntry) ledger.NameEntry) Names {
	all := make([]*Name, len(ns.All))
	for i, n := range ns.All {
		c, given := *n, change(*n.Given)
		c.Given = &given
		all[i] = &c
	}
	return namesOf(all)
}

func (ns *Names) put(n *Name) {
	k := n.Key()
	if n.Slug != "" && ns.bySlug[n.Slug] == nil {
		ns.bySlug[n.Slug] = n
	}
	if k == "" {
		return
	}
	// of two entries with one canonical form the accepted one answers
	if old := ns.byKey[k]; old == nil || old.Given.Of.Set() && !n.Given.Of.Set() {
		ns.byKey[k] = n
	}
	genus, epithets := GenusOf(k)
	if fam, ok := ns.byGenus[genus]; ok && fam != n.Family {
		ns.byGenus[genus] = ""
	} else {
		ns.byGenus[genus] = n.Family
	}
	if epithets != "" {
		ns.byEpithets[epithets] = append(ns.byEpithets[epithets], n)
	}
	if i, have := slices.BinarySearch(ns.families, n.Family); !have && n.Family != "" {
		ns.families = slices.Insert(ns.families, i, n.Family)
	}
}

// GenusOf is the genus of a canonical form, the sign of a hybrid genus with
// it, and what follows.
func GenusOf(key string) (genus, rest string) {
	from := 0
	for _, sign := range []string{"× ", "+ "} {
		if strings.HasPrefix(key, sign) {
			from = len(sign)
		}
	}
	genus, rest, _ = strings.Cut(key[from:], " ")
	return key[:from] + genus, rest
}

// Families are those that names/ has names of, in order.
func (ns *Names) Families() []string { return ns.families }

// Lists reports whether names/ has a name, or names of the genus or family
// that it is the name of.
func (ns *Names) Lists(key string) bool {
	if ns.byKey[key] != nil {
		return true
	}
	_, genus := ns.byGenus[key]
	_, family := slices.BinarySearch(ns.families, key)
	return genus || family
}

// Find is the entry of a canonical form; nil when names/ has none.
func (ns *Names) Find(key string) *Name { return ns.byKey[key] }

// Accepted is the accepted name of a canonical form, itself when it is
// accepted; nil when names/ does not know it. A ring of synonyms ends at the
// name that it began with.
func (ns *Names) Accepted(key string) *Name {
	if steps := ns.Renamings(key); len(steps) > 0 {
		return steps[len(steps)-1].Of
	}
	return ns.byKey[key]
}

// maxRenamings is how many synonyms may lead from one to the next.
const maxRenamings = 10

// Renamings are the entries of names/ that lead from a canonical form to the
// accepted name, which is the Of of the last: none when the name is accepted,
// is not known or is one of a ring.
func (ns *Names) Renamings(key string) []*Name {
	var steps []*Name
	for n := ns.byKey[key]; n != nil && n.Of != nil; n = n.Of {
		if len(steps) == maxRenamings {
			return nil
		}
		steps = append(steps, n)
	}
	return steps
}

// FamilyOf is the family of a canonical form, else that of its genus, when
// all of the genus stands in one family; "" when names/ does not say.
func (ns *Names) FamilyOf(key string) string {
	if n := ns.byKey[key]; n != nil {
		return n.Family
	}
	genus, _ := GenusOf(key)
	return ns.byGenus[genus]
}

// Empty reports whether the museum keeps no names.
func (ns *Names) Empty() bool { return len(ns.All) == 0 }

// BySlug is the name whose page has the address slug; nil when none has.
func (ns *Names) BySlug(slug string) *Name { return ns.bySlug[slug] }

// Near is what names/ has that is most like a canonical form: a name, or for
// one word a genus or family; at most that many letters differ. "" when there
// is none.
func (ns *Names) Near(key string, letters int) string {
	if ns.near == nil {
		return ""
	}
	if n, ok := ns.near.Load(key); ok {
		return n.(string)
	}
	n := ns.nearest(key, letters+1)
	ns.near.Store(key, n)
	return n
}

func (ns *Names) nearest(key string, least int) string {
	best := ""
	try := func(has, is string) {
		if d := names.Distance(has, key, least); d < least {
			best, least = is, d
		}
	}
	genus, epithets := GenusOf(key)
	if epithets == "" {
		for _, f := range ns.families {
			try(f, f)
		}
		for _, g := range slices.Sorted(maps.Keys(ns.byGenus)) {
			try(g, g)
		}
		return best
	}
	i, _ := slices.BinarySearchFunc(ns.All, genus, func(n *Name, g string) int { return cmp.Compare(n.Key(), g) })
	for ; i < len(ns.All) && strings.HasPrefix(ns.All[i].Key(), genus); i++ {
		try(ns.All[i].Key(), ns.All[i].Given.Name.Text)
	}
	for _, n := range ns.byEpithets[epithets] {
		try(n.Key(), n.Given.Name.Text)
	}
	return best
}

// Homonyms are the entries of one canonical form, in order: two or more when
// they differ by their authors.
func (ns *Names) Homonyms(key string) []*Name {
	if key == "" {
		return nil
	}
	i, _ := slices.BinarySearchFunc(ns.All, key, func(n *Name, k string) int { return cmp.Compare(n.Key(), k) })
	k := i
	for k < len(ns.All) && ns.All[k].Key() == key {
		k++
	}
	return ns.All[i:k]
}

// Divided is the entry of names/ that divided the name of a sheet among others
// after the sheet was named: only somebody who looks can say which of them it
// is. nil when no one need look.
func (m *Museum) Divided(e *Entry) *Name {
	n := m.Renamed(e)
	if n == nil {
		n = m.Names.byKey[e.NameKey]
	}
	if n == nil || len(n.Given.Split) == 0 || e.Fate != "" {
		return nil
	}
	since := dates.Read(n.Given.Date.Text, dates.Ask)
	if !since.Known() {
		return n
	}
	if e.Flags.Has(NamedDated) && e.NamedFirst >= since.First || e.LatestIn == "determinations" && e.Latest >= since.First {
		return nil
	}
	return n
}
