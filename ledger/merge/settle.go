package merge

import (
	"errors"

	"blotter/ledger"
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
		choice, more := settleBlock(all, decide)
		choices[i] = choice
		ops = append(ops, more...)
		if choice == ledger.Both {
			left = append(left, all...)
		}
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
		out = append(out, c)
	}
	return out
}

// settleBlock turns the answers to one block into a choice, and what must be
// set besides. One answer that is missing leaves the block as it is.
func settleBlock(all []Conflict, decide Decide) (ledger.Choice, []ledger.Op) {
	if decide == nil {
		return ledger.Both, nil
	}
	theirs, lists := 0, 0
	var ops []ledger.Op
	for _, c := range all {
		a := decide(c)
		switch {
		case a.Is == Undecided || a.Is == Words && c.Kind != Field:
			return ledger.Both, nil
		case a.Is == Theirs && c.Kind != Field:
			lists++
			theirs++
		case a.Is == Theirs:
			theirs++
			ops = append(ops, ledger.Set(c.Path, c.Theirs))
		case a.Is == Words:
			ops = append(ops, ledger.Set(c.Path, a.Words))
		}
	}
	switch {
	case theirs == len(all):
		return ledger.There, nil
	case lists > 0: // some entries of theirs, some fields of ours: that is no line of either
		return ledger.Both, nil
	}
	return ledger.Here, ops
}
