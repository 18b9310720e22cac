package check

import (
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

// Rules lists every rule of this package in the order of FORMAT.md. The
// caller may not change it.
func Rules() []Rule { return sorted().all }

// ruleSet is the rules by what they look at.
type ruleSet struct {
	all                     []Rule
	one, join, group, files []*Rule
}

var sorted = sync.OnceValue(func() *ruleSet {
	s := &ruleSet{}
	for _, family := range [][]Rule{
		numberRules, fileRules, dateRules, positionRules, lengthRules, opinionRules, nameRules, typeRules,
		personRules, seriesRules, fateRules, wordsRules, imageRules, sensitiveRules, settledRules, museumRules,
	} {
		s.all = append(s.all, family...)
	}
	for i := range s.all {
		r := &s.all[i]
		switch {
		case r.One != nil:
			s.one = append(s.one, r)
		case r.Join != nil:
			s.join = append(s.join, r)
		case r.Group != nil:
			s.group = append(s.group, r)
		case r.Files != nil:
			s.files = append(s.files, r)
		}
	}
	return s
})

// Judge is what a Book keeps with each entry: pass it to book.Load.
func Judge() book.Judge { return book.Judge{Version: Version, One: One, Keys: Keys} }

// One gives the findings of one record as read, by the rules that need
// nothing else. What its sic entries settle is still among them.
func One(d *reading.Reading) []ledger.Finding {
	var out []ledger.Finding
	for _, r := range sorted().one {
		r.One(d, func(p place, w words) { out = append(out, r.finding(d.Record.Path, p, w)) })
	}
	return out
}

// Keys gives the keys under which a record is judged together with others.
func Keys(e *book.Entry) []string {
	rules := sorted().group
	out := make([]string, 0, len(rules))
	for _, r := range rules {
		if k := r.Key(e); k != "" {
			out = append(out, r.Code+"|"+k)
		}
	}
	return out
}

// join gives the findings of one record against what is around it.
func join(e *book.Entry, a *Around) []ledger.Finding {
	var out []ledger.Finding
	for _, r := range sorted().join {
		r.Join(e, a, func(p place, w words) { out = append(out, r.finding(e.Path, p, w)) })
	}
	return out
}
