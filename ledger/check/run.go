package check

import (
	"cmp"
	"hash/maphash"
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// Options are what the rules need to know besides the ledger.
type Options struct {
	Today  dates.Day                            // 0: dates to come are not looked for
	Former func(n ledger.Number) *ledger.Record // see Around; nil: numbers used before are not looked for
}

// around is what the records of a museum are judged against.
func (o Options) around(m *book.Museum, has func(string) bool) *Around {
	return &Around{Museum: m, Settings: SettingsOf(&m.Museum), Today: o.Today, Former: o.Former, Has: has}
}

// isNew reports whether rules for new material hold for a record.
func (a *Around) isNew(e *book.Entry) bool { return e.Dated && e.First >= a.Settings.newDay() }

// Run judges a whole ledger. The findings are sorted, settled ones left out,
// severities raised as the museum has it.
func Run(b *book.Book, o Options) []ledger.Finding {
	around := o.around(b.Museum, b.Has)
	out := slices.Concat(b.Findings, museumFindings(b.Museum))
	for e := range b.All() {
		out = append(out, e.Findings...)
		out = append(out, unsettled(e, join(e, around))...)
	}
	for _, g := range sorted().groupings {
		out = append(out, groups(b, g, around)...)
	}
	return finish(out, b.Museum)
}

// museumFindings are those of the museum's files.
func museumFindings(m *book.Museum) []ledger.Finding {
	out := slices.Clone(m.Findings)
	for _, r := range sorted().files {
		r.Files(m, func(p place, w words) { out = append(out, r.finding("", p, w)) })
	}
	return out
}

// finish raises severities and sorts.
func finish(out []ledger.Finding, m *book.Museum) []ledger.Finding {
	raised := map[string]bool{}
	for _, o := range m.Severity {
		if o.Is.Text == ledger.Error.String() {
			raised[o.Code.Text] = true
		}
	}
	if len(raised) > 0 {
		for i := range out {
			if raised[out[i].Code] {
				out[i].Severity = ledger.Error
			}
		}
	}
	ledger.SortFindings(out)
	return out
}

// unsettled leaves out the warnings that the record's sic entries settle.
func unsettled(e *book.Entry, fs []ledger.Finding) []ledger.Finding {
	if len(e.Sic) == 0 {
		return fs
	}
	return slices.DeleteFunc(fs, func(f ledger.Finding) bool {
		return f.Severity == ledger.Warning && slices.Contains(e.Sic, f.Code)
	})
}

// judgeGroup judges records that share a key.
func (g *grouped) judge(of *group) []ledger.Finding {
	if len(of.same) < 2 && !g.Alone {
		return nil
	}
	var out []ledger.Finding
	for _, r := range g.rules {
		r.Group(of, func(e *book.Entry, p place, w words, others ...*book.Entry) {
			if r.NewOnly && !of.around.isNew(e) {
				return
			}
			if !settled(r, e) && !slices.ContainsFunc(others, func(o *book.Entry) bool { return settled(r, o) }) {
				out = append(out, r.finding(e.Path, p, w))
			}
		})
	}
	return out
}

// settled reports whether a sic entry of the record settles a rule's warnings.
func settled(r *Rule, e *book.Entry) bool {
	return r.Severity == ledger.Warning && slices.Contains(e.Sic, r.Code)
}

// groups judges all groups of one Grouping. Keys are compared by hash first: a
// million short-lived texts in a map would cost far more.
func groups(b *book.Book, g *grouped, around *Around) []ledger.Finding {
	type keyed struct {
		hash  uint64
		place int32
	}
	seed := maphash.MakeSeed()
	keys := make([]keyed, 0, b.Len())
	var of []string
	for i := range b.Len() {
		of = g.Keys(of[:0], b.At(i))
		for _, k := range of {
			keys = append(keys, keyed{maphash.String(seed, k), int32(i)})
		}
	}
	slices.SortFunc(keys, func(a, b keyed) int { return cmp.Or(cmp.Compare(a.hash, b.hash), cmp.Compare(a.place, b.place)) })
	var out []ledger.Finding
	for len(keys) > 0 {
		n := 1
		for n < len(keys) && keys[n].hash == keys[0].hash {
			n++
		}
		if n > 1 || g.Alone {
			byKey := map[string][]*book.Entry{}
			for _, k := range keys[:n] {
				e := b.At(int(k.place))
				of = g.Keys(of[:0], e)
				for _, key := range of {
					if maphash.String(seed, key) == k.hash {
						byKey[key] = append(byKey[key], e)
					}
				}
			}
			for key, same := range byKey { // their findings are sorted in the end
				out = append(out, g.judge(&group{key, same, around})...)
			}
		}
		keys = keys[n:]
	}
	return out
}
