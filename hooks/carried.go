package hooks

import (
	"context"
	"errors"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// carried holds a merge to the plants: what one line of work changed of a
// plant's facts stands in the merge under the number that the other line gave the
// plant meanwhile. A merge of files alone leaves it at the old number, with
// another plant. (What the law of opinions keeps is judged by it.)
func (b Bench) carried(ctx context.Context, parents []string, child func(ledger.Number) (version, error), own told) ([]ledger.Finding, error) {
	bases, err := b.Repo.Bases(ctx, parents[0], parents[1])
	if errors.Is(err, gitrepo.ErrNoProgram) || err == nil && len(bases) != 1 {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var all []ledger.Finding
	for _, parent := range parents {
		j, err := b.joining(ctx, parents, parent, own)
		if err != nil {
			return nil, err
		}
		went := j.went(own)
		for _, from := range slices.Sorted(maps.Keys(went)) {
			to := went[from]
			var was, here, there, now version
			for _, x := range []struct {
				into *version
				of   ledger.Number
				at   string
			}{{&was, from, bases[0]}, {&here, from, parent}, {&there, to, j.others[0]}} {
				if *x.into, err = b.versionAt(ctx, subject{path: x.of.Path(), number: x.of}, x.at); err != nil {
					return nil, err
				}
			}
			if now, err = child(to); err != nil {
				return nil, err
			}
			if lost := leftBehind(was, here, there, now); len(lost) > 0 {
				all = append(all, ledger.Finding{Path: to.Path(), Severity: ledger.Error, Code: history.CodeMoved, Field: lost[0],
					Message: "its plant bore " + string(from) + " when one copy changed " + strings.Join(lost, ", ") + " of it, and the merge has not brought that here",
					Hint:    "Put what was changed into this record, and look whether it now stands in " + history.Short(from) + ", which bears another plant; then: blotter enter"})
			}
		}
	}
	return all, nil
}

// went is under which numbers plants go on that the other lines of work, and the
// merge itself, gave others; not those that this line moved too.
func (j joining) went(own told) map[ledger.Number]ledger.Number {
	out := map[ledger.Number]ledger.Number{}
	steps := [][]history.Move{}
	for _, c := range j.theirs {
		steps = append(steps, history.Moves(c.Message))
	}
	steps = append(steps, own.moves)
	for i, moves := range steps {
		for _, m := range moves {
			at := m.From
			for _, later := range steps[i:] {
				if x, moved := history.MovedTo(later, at); moved {
					at = x.To
				}
			}
			if _, met := out[m.From]; !met && m.From.Valid() && at.Valid() && at.Key() != m.From.Key() {
				out[m.From] = at
			}
		}
	}
	for _, c := range j.mine {
		for _, m := range history.Moves(c.Message) {
			delete(out, m.From)
			delete(out, m.To)
		}
	}
	return out
}

// leftBehind are the fields, but for lists, that changed here, not there, and
// that the merge has otherwise.
func leftBehind(was, here, there, now version) (lost []string) {
	for _, v := range []version{was, here, there, now} {
		if v.record == nil || v.broken {
			return nil
		}
	}
	if _, gone := history.Retired(now.record); gone {
		return nil
	}
	w, h, t, n := singles(was), singles(here), singles(there), singles(now)
	all := maps.Clone(w)
	maps.Copy(all, h)
	for _, path := range slices.Sorted(maps.Keys(all)) {
		if h[path] != w[path] && t[path] == w[path] && n[path] != h[path] {
			lost = append(lost, path)
		}
	}
	return lost
}

// singles are the values of a record outside its lists, but for its number.
func singles(v version) map[string]string {
	out := map[string]string{}
	for _, f := range history.Group(v.record) {
		if !f.List && f.Path != "specimen" {
			out[f.Path] = f.Value
		}
	}
	return out
}
