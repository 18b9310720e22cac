package book

import (
	"sync"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/names"
	"blotter/ledger/people"
)

// People is people.yaml made ready to be asked.
type People struct {
	All []ledger.Person // in the order of the file

	index *people.Index
	known *sync.Map // words -> []*ledger.Person: the same words are asked for again and again
	near  *sync.Map // words -> *ledger.Person
	lives map[*ledger.Person]Life
}

// Life is a person's years as people.yaml has them; what it does not say is
// not Known.
type Life struct{ Born, Died dates.Reading }

// Life is the years of a person of All; false when nothing is said of them.
func (p *People) Life(who *ledger.Person) (Life, bool) {
	l, ok := p.lives[who]
	return l, ok
}

// NewPeople makes ready what people.yaml says.
func NewPeople(p *ledger.People) People {
	list := make([]people.Entry, len(p.People))
	for i := range p.People {
		list[i].Name = p.People[i].Name.Text
		for _, s := range p.People[i].Spellings {
			list[i].Spellings = append(list[i].Spellings, s.Text)
		}
	}
	lives := map[*ledger.Person]Life{}
	for i := range p.People {
		if one := &p.People[i]; one.Born.Set() || one.Died.Set() {
			lives[one] = Life{dates.Read(one.Born.Text, dates.Ask), dates.Read(one.Died.Text, dates.Ask)}
		}
	}
	return People{All: p.People, index: people.NewIndex(list), known: &sync.Map{}, near: &sync.Map{}, lives: lives}
}

// Find is the one person whom words name, by name, spelling or initials; nil
// when none or several may be meant.
func (p *People) Find(words string) *ledger.Person {
	if all := p.FindAll(words); len(all) == 1 {
		return all[0]
	}
	return nil
}

// FindAll is everybody whom words name, in order; nil for each who is not in
// people.yaml or may be one of several.
func (p *People) FindAll(words string) []*ledger.Person {
	if p.index == nil || words == "" {
		return nil
	}
	if all, ok := p.known.Load(words); ok {
		return all.([]*ledger.Person)
	}
	var out []*ledger.Person
	for _, m := range p.index.FindAll(words) {
		if m.Found() {
			out = append(out, &p.All[m.Entry])
		} else {
			out = append(out, nil)
		}
	}
	p.known.Store(words, out)
	return out
}

// Near is the person one of whose spellings differs least from words, by at
// most two letters; nil when there is none.
func (p *People) Near(words string) *ledger.Person {
	if p.near == nil {
		return nil
	}
	if n, ok := p.near.Load(words); ok {
		return n.(*ledger.Person)
	}
	var best *ledger.Person
	least := 3
	for i := range p.All {
		for _, l := range append([]ledger.Leaf{p.All[i].Name}, p.All[i].Spellings...) {
			if d := names.Distance(l.Text, words, least); d < least && utf8.RuneCountInString(words) > 2*d+2 {
				best, least = &p.All[i], d
			}
		}
	}
	p.near.Store(words, best)
	return best
}

// Empty reports whether the museum keeps no people.yaml.
func (p *People) Empty() bool { return len(p.All) == 0 }

// Clash is a name or spelling that two people of people.yaml share.
type Clash struct {
	Spelling      ledger.Leaf // of the second
	First, Second int         // places in All
}

// Clashes lists them in the order of the file.
func (p *People) Clashes() []Clash {
	var out []Clash
	first := map[string]int{}
	put := func(l ledger.Leaf, i int) {
		k := people.Person{Family: l.Text}.Key()
		if old, ok := first[k]; ok && old != i {
			out = append(out, Clash{l, old, i})
		} else if k != "" {
			first[k] = i
		}
	}
	for i := range p.All {
		put(p.All[i].Name, i)
	}
	for i := range p.All {
		for _, s := range p.All[i].Spellings {
			put(s, i)
		}
	}
	return out
}

// Map is p with every person changed by change.
func (p *People) Map(change func(ledger.Person) ledger.Person) People {
	out := &ledger.People{People: make([]ledger.Person, len(p.All))}
	for i := range p.All {
		out.People[i] = change(p.All[i])
	}
	return NewPeople(out)
}

// FindPerson is the one person of people.yaml who a person as read is; nil
// when none or several may be meant.
func (p *People) FindPerson(read people.Person) *ledger.Person {
	if p.index == nil {
		return nil
	}
	if m := p.index.FindPerson(read); m.Found() {
		return &p.All[m.Entry]
	}
	return nil
}
