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
	all              []Rule
	one, join, files []*Rule
	groupings        []*grouped
	tallyings        []*tallied
	byCode           map[string]*Rule
}

// grouped is a Grouping with the rules about its groups.
type grouped struct {
	*Grouping
	rules []*Rule
}

// alone reports whether a record that shares its key with no other is judged.
func (g *grouped) alone(e *book.Entry) bool { return g.Alone != nil && g.Alone(e) }

func (s *ruleSet) group(r *Rule) {
	for _, g := range s.groupings {
		if g.Grouping == r.Of {
			g.rules = append(g.rules, r)
			return
		}
	}
	s.groupings = append(s.groupings, &grouped{r.Of, []*Rule{r}})
}

var sorted = sync.OnceValue(func() *ruleSet {
	s := &ruleSet{byCode: map[string]*Rule{}}
	for _, family := range [][]Rule{
		numberRules,
		linkRules,
		fileRules,
		dateWordRules,
		dateRules,
		lifetimeRules,
		actRules,
		positionRules,
		countryRules,
		landRules,
		uncertaintyRules,
		pointRules,
		localityRules,
		lengthRules,
		elevationRules,
		opinionRules,
		nameRules,
		typeRules,
		typifiedRules,
		personRules,
		gatheringRules,
		seriesRules,
		journeyRules,
		pileRules,
		collectorSpellingRules,
		seasonRules,
		fateRules,
		wordsRules,
		bareRules,
		imageRules,
		licenceRules,
		takingRules,
		permitRules,
		sensitiveRules,
		spellingRules,
		familyRules,
		listRules,
		settledRules,
		museumRules,
		workRules,
	} {
		s.all = append(s.all, family...)
	}
	for i := range s.all {
		r := &s.all[i]
		s.byCode[r.Code] = r
		switch {
		case r.One != nil || r.By != nil:
			s.one = append(s.one, r)
		case r.Join != nil:
			s.join = append(s.join, r)
		case r.Group != nil:
			s.group(r)
		case r.Odd != nil:
			s.tally(r)
		case r.Files != nil || r.Due != nil:
			s.files = append(s.files, r)
		}
	}
	return s
})

// Judge is what a Book keeps with each entry: pass it to book.Load.
func Judge() book.Judge {
	return book.Judge{Version: Version, For: oneFor, Keys: Keys, Tallies: Tallies}
}

// oneFor is One by a museum's settings, and their key.
func oneFor(m *ledger.Museum) (book.One, string) {
	s := SettingsOf(m)
	return func(d *reading.Reading) []ledger.Finding { return One(d, &s) }, s.Key()
}

// One gives the findings of one record as read, by the rules that need
// nothing else than the settings. What its sic entries settle is still among
// them.
func One(d *reading.Reading, s *Settings) []ledger.Finding {
	var out []ledger.Finding
	isNew := d.Date.Known && d.Date.First >= s.newDay()
	var r *Rule // one say for all rules: a record is judged by a hundred
	say := func(p place, w words) { out = append(out, r.finding(d.Record.Path, p, w)) }
	for _, r = range sorted().one {
		if r.NewOnly && !isNew {
			continue
		}
		if r.By != nil {
			r.By(d, s, say)
		} else {
			r.One(d, say)
		}
	}
	return out
}

// Keys gives the keys under which a record is judged together with others.
func Keys(e *book.Entry) []string {
	var out []string
	for _, g := range sorted().groupings {
		from := len(out)
		out = g.Keys(out, e)
		for i := from; i < len(out); i++ {
			out[i] = g.Name + "|" + out[i]
		}
	}
	return out
}

// rule is the rule of a code; nil when this package has none.
func rule(code string) *Rule { return sorted().byCode[code] }
