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

// Run judges a whole ledger. The findings are sorted, settled ones left out,
// severities raised as the museum has it.
func Run(b *book.Book, o Options) []ledger.Finding {
	around := &Around{Museum: b.Museum, Today: o.Today, Former: o.Former, Has: b.Has}
	out := slices.Concat(b.Findings, museumFindings(b.Museum))
	for e := range b.All() {
		out = append(out, e.Findings...)
		out = append(out, unsettled(e, join(e, around))...)
	}
	for _, r := range sorted().group {
		out = append(out, groups(b, r)...)
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
func judgeGroup(r *Rule, same []*book.Entry) []ledger.Finding {
	var out []ledger.Finding
	r.Group(same, func(e *book.Entry, p place, w words) {
		out = append(out, unsettled(e, []ledger.Finding{r.finding(e.Path, p, w)})...)
	})
	return out
}

// groups judges all groups of one rule. Keys are compared by hash first: a
// million short-lived texts in a map would cost far more.
func groups(b *book.Book, r *Rule) []ledger.Finding {
	type keyed struct {
		hash  uint64
		place int32
	}
	seed := maphash.MakeSeed()
	keys := make([]keyed, 0, b.Len())
	for i := range b.Len() {
		if k := r.Key(b.At(i)); k != "" {
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
		if n > 1 {
			byKey := map[string][]*book.Entry{}
			for _, k := range keys[:n] {
				e := b.At(int(k.place))
				byKey[r.Key(e)] = append(byKey[r.Key(e)], e)
			}
			for _, same := range byKey { // their findings are sorted in the end
				if len(same) > 1 {
					out = append(out, judgeGroup(r, same)...)
				}
			}
		}
		keys = keys[n:]
	}
	return out
}
