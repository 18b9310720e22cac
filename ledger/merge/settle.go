package merge

import (
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// ErrUnmarked is returned by Settle for a text in which no pairs of readings
// stand.
var ErrUnmarked = errors.New("merge: the text holds no two readings")

// Settle decides between the readings that stand in a text (ledger.ReadMarks):
// what is answered stands in the result, the rest, which is returned, stays
// between its markers. A nil decide answers nothing, and the text is as it
// was.
func Settle(path string, text []byte, decide Decide) ([]byte, []Conflict, error) {
	m, ok := ledger.ReadMarks(text)
	kind, known := ledger.KindOf(path)
	if !ok || !known {
		return nil, nil, ErrUnmarked
	}
	number := (&merger{path: path}).number()
	choices := make([]ledger.Choice, len(m.Blocks))
	var ops []ledger.Op
	var left []Conflict
	for i := range m.Blocks {
		all := conflictsOf(m, kind, i, number)
		choice, more, rest := settleBlock(all, decide)
		choices[i] = choice
		ops, left = append(ops, more...), append(left, rest...)
	}
	if len(ops) == 0 {
		return m.Take(func(i int) ledger.Choice { return choices[i] }), left, nil
	}
	side := func(c ledger.Choice) ([]byte, error) {
		return ledger.EditFile(kind, m.Take(func(i int) ledger.Choice {
			if choices[i] == ledger.Both {
				return c
			}
			return choices[i]
		}), ops...)
	}
	mine, err := side(ledger.Here)
	if err != nil || len(left) == 0 {
		return mine, left, err
	}
	theirs, err := side(ledger.There)
	if err != nil {
		return nil, nil, err
	}
	return Sign(marked(mine, theirs), left), left, nil
}

// conflictsOf are the fields in which the readings of one block differ.
func conflictsOf(m *ledger.Marked, kind ledger.FileKind, block int, number string) []Conflict {
	b := m.Blocks[block]
	diff, ok := m.Differences(kind, block)
	whole := Conflict{Number: number, Kind: File, Line: b.Line, OursBy: Hand{Name: b.HereBy}, TheirsBy: Hand{Name: b.ThereBy},
		Message: "the lines were changed here and in the other copy, in two ways", Hint: "blotter edit " + number}
	if !ok || len(diff) == 0 {
		return []Conflict{whole}
	}
	var out []Conflict
	for _, d := range diff {
		c := whole
		c.Path, c.Kind, c.Ours, c.Theirs = d.Path, Field, d.Here, d.There
		c.Message = d.Path + " was changed here and in the other copy, in two ways"
		if d.Here == "" && d.There == "" {
			c.Kind = Entry
		}
		if top, _, _ := strings.Cut(d.Path, "."); c.Kind == Entry && history.IsOpinions(top) && top != d.Path {
			c.Kind = File // both are kept, by hand
		}
		out = append(out, c)
	}
	return out
}

// settleBlock turns the answers to one block into a choice, what must be set
// besides, and what is left. Where a part of a block is answered, both its
// readings get the answers.
func settleBlock(all []Conflict, decide Decide) (choice ledger.Choice, ops []ledger.Op, left []Conflict) {
	if decide == nil {
		return ledger.Both, nil, all
	}
	var whole []Verdict // of entries that stand in one reading alone
	theirs := 0
	for _, c := range all {
		a := decide(c)
		switch {
		case a.Is == Undecided, a.Is == Words && c.Kind != Field:
			left = append(left, c)
			continue
		case c.Kind != Field:
			whole = append(whole, a.Is)
		case a.Is == Ours:
			ops = append(ops, ledger.Set(c.Path, c.Ours))
		case a.Is == Theirs:
			ops = append(ops, ledger.Set(c.Path, c.Theirs))
		case a.Is == Words:
			ops = append(ops, ledger.Set(c.Path, a.Words))
		}
		if a.Is == Theirs {
			theirs++
		}
	}
	switch {
	case theirs == len(all):
		return ledger.There, nil, nil
	case len(whole) == 0 && len(left) > 0:
		return ledger.Both, ops, left
	case len(whole) == 0 || !slices.Contains(whole, Theirs) && len(left) == 0:
		return ledger.Here, ops, nil
	case !slices.Contains(whole, Ours) && len(left) == 0:
		return ledger.There, ops, nil
	}
	return ledger.Both, nil, all // some entries of one, some of the other: by hand
}
