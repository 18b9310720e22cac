package check

import (
	"strings"

	"blotter/ledger/book"
)

// Tallying says what a record counts for in sums over the ledger: a key, and a
// bin under it. A rule about sums judges a record against very many others
// that nobody has to load.
type Tallying struct {
	Name string                                            // begins the keys in the index; no two share it
	Of   func(to []book.Tally, e *book.Entry) []book.Tally // adds those of a record
}

// odd makes a judge of the records that count under one key, once for all of
// them; nil: none of them is odd.
type odd func(key string, c book.Counts, a *Around) func(e *book.Entry, say say)

// tallied is a Tallying with the rules about its sums.
type tallied struct {
	*Tallying
	rules []*Rule
}

func (s *ruleSet) tally(r *Rule) {
	for _, t := range s.tallyings {
		if t.Tallying == r.Counts {
			t.rules = append(t.rules, r)
			return
		}
	}
	s.tallyings = append(s.tallyings, &tallied{r.Counts, []*Rule{r}})
}

// Tallies gives what a record counts for.
func Tallies(e *book.Entry) []book.Tally {
	var out []book.Tally
	for _, t := range sorted().tallyings {
		from := len(out)
		out = t.Of(out, e)
		for i := from; i < len(out); i++ {
			out[i].Key = t.Name + "|" + out[i].Key
		}
	}
	return out
}

// judges are those of one key, one for each rule that found something odd.
type judges []func(e *book.Entry)

// judgesOf makes the judges of a key.
func (j *judging) judgesOf(t *tallied, key string, c book.Counts) judges {
	var out judges
	for _, r := range t.rules {
		if !j.asks(r) {
			continue
		}
		f := r.Odd(key, c, j.around)
		if f == nil {
			continue
		}
		out = append(out, func(e *book.Entry) {
			if !r.NewOnly || j.around.isNew(e) {
				f(e, func(p place, w words) { j.tell(r.finding(e.Path, p, w), e) })
			}
		})
	}
	return out
}

// tallies judges all records by the sums of one Tallying.
func (j *judging) tallies(b *book.Book, t *tallied) {
	sums := map[string]book.Counts{}
	var of []book.Tally
	for e := range b.All() {
		of = t.Of(of[:0], e)
		for _, c := range of {
			if sums[c.Key] == nil {
				sums[c.Key] = book.Counts{}
			}
			sums[c.Key][c.Bin]++
		}
	}
	by := make(map[string]judges, len(sums))
	for key, c := range sums {
		if js := j.judgesOf(t, key, c); js != nil {
			by[key] = js
		}
	}
	if len(by) == 0 {
		return
	}
	for e := range b.All() {
		of = t.Of(of[:0], e)
		for _, c := range of {
			for _, judge := range by[c.Key] {
				judge(e)
			}
		}
	}
}

// summed judges one changed record by the sums that it counts for.
func (j *judging) summed(e *book.Entry, p *book.Partial) {
	for _, tally := range Tallies(e) {
		name, key, _ := strings.Cut(tally.Key, "|")
		for _, t := range sorted().tallyings {
			if t.Name != name {
				continue
			}
			js, made := j.sums[tally.Key]
			if !made {
				js = j.judgesOf(t, key, p.Sums(tally.Key))
				j.sums[tally.Key] = js
			}
			for _, judge := range js {
				judge(e)
			}
		}
	}
}
