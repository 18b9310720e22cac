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
func (b Bench) carried(ctx context.Context, parents []string, child versionOf, own told) ([]ledger.Finding, error) {
	bases, err := b.Repo.Bases(ctx, parents[0], parents[1])
	if errors.Is(err, gitrepo.ErrNoProgram) || err == nil && len(bases) != 1 {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	lines, err := b.lineOf(ctx, parents, bases)
	if err != nil {
		return nil, err
	}
	moves := func(c history.Commit) bool { return len(history.Moves(c.Message)) > 0 }
	if len(own.moves) == 0 && !slices.ContainsFunc(lines, moves) {
		return nil, nil // nearly every merge
	}
	var all []ledger.Finding
	for i, parent := range parents {
		j, err := b.joining(ctx, parents, parent, own)
		if err != nil {
			return nil, err
		}
		went := j.went(own)
		for _, from := range slices.Sorted(maps.Keys(went)) {
			lost, err := b.leftBehind(ctx, plant{from, went[from]}, bases[0], parent, parents[1-i], child)
			if err != nil {
				return nil, err
			}
			if len(lost) > 0 {
				all = append(all, plant{from, went[from]}.apart(lost))
			}
		}
	}
	return all, nil
}

// versionOf gives the version of a number that a commit has.
type versionOf func(ledger.Number) (version, error)

// plant bore one number and goes on under another.
type plant struct{ from, to ledger.Number }

func (p plant) apart(lost []string) ledger.Finding {
	return ledger.Finding{Path: p.to.Path(), Severity: ledger.Error, Code: history.CodeMoved, Field: lost[0],
		Message: "its plant bore " + string(p.from) + " when one copy changed " + strings.Join(lost, ", ") + " of it, and the merge has not brought that here",
		Hint:    "Put what was changed into this record, and look whether it now stands in " + history.Short(p.from) + ", which bears another plant; then: blotter enter"}
}

// leftBehind are the fields of a plant, but for lists, that changed in the line
// of work that has it under its old number, not in the other, and that the merge
// has otherwise.
func (b Bench) leftBehind(ctx context.Context, p plant, base, line, other string, child versionOf) (lost []string, err error) {
	was, err := b.inItsFolder(ctx, p.from, base)
	if err != nil {
		return nil, err
	}
	here, err := b.inItsFolder(ctx, p.from, line)
	if err != nil {
		return nil, err
	}
	there, err := b.inItsFolder(ctx, p.to, other)
	if err != nil {
		return nil, err
	}
	now, err := child(p.to)
	if err != nil {
		return nil, err
	}
	for _, v := range []version{was, here, there, now} {
		if v.record == nil || v.broken {
			return nil, nil
		}
	}
	if _, gone := history.Retired(now.record); gone {
		return nil, nil
	}
	w, h, t, n := singles(was), singles(here), singles(there), singles(now)
	fields := maps.Clone(w)
	maps.Copy(fields, h)
	for _, path := range slices.Sorted(maps.Keys(fields)) {
		if h[path] != w[path] && t[path] == w[path] && n[path] != h[path] {
			lost = append(lost, path)
		}
	}
	return lost, nil
}

// inItsFolder is the version of a number where its file belongs: one that a
// commit has nowhere would else be sought in all its files.
func (b Bench) inItsFolder(ctx context.Context, n ledger.Number, commit string) (version, error) {
	s := subject{path: n.Path(), number: n}
	blob, err := b.Repo.BlobAt(ctx, commit, s.path)
	if err != nil {
		return version{}, err
	}
	return s.version(ctx, b.Repo, blob)
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
