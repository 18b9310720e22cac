package hooks

import (
	"slices"

	"blotter/ledger"
	"blotter/ledger/history"
)

// told is what messages say that lifts or turns the law of opinions: what was
// corrected, and which plants got other numbers.
type told struct {
	corrections []history.Correction
	moves       []history.Move
}

func toldBy(message string) told {
	return told{history.Corrections(message), history.Moves(message)}
}

// judge holds one number of a parent against the child: what the parent says
// of the plant stands in the child under that number, or under the one by which
// it goes on there.
func (t told) judge(n ledger.Number, parent history.Version, child func(ledger.Number) (history.Version, error)) ([]ledger.Finding, error) {
	now, err := child(n)
	if err != nil {
		return nil, err
	}
	own := history.Judge(n, []history.Version{parent}, now, t.corrections)
	if len(t.moves) == 0 || !slices.ContainsFunc(own, func(f ledger.Finding) bool { return f.Severity == ledger.Error }) {
		return own, nil
	}
	at := n
	for range t.moves { // it may have moved twice
		m, moved := history.MovedTo(t.moves, at)
		if !moved {
			break
		}
		at = m.To
		now, err := child(at)
		if err != nil {
			return nil, err
		}
		fs := history.Judge(at, []history.Version{parent}, now, t.corrections)
		if !slices.ContainsFunc(fs, func(f ledger.Finding) bool { return f.Severity == ledger.Error }) {
			return fs, nil
		}
	}
	return own, nil
}

// movesTrue holds what an entry says of moves against its files, and finds
// those that it does not say.
func movesTrue(moves []history.Move, olds, news byNumber, toOld func(ledger.Number) (history.Version, error)) ([]ledger.Finding, error) {
	var all []ledger.Finding
	for _, m := range moves {
		if ledger.WorkNumber(m.From).Valid() {
			continue
		}
		before, err := toOld(m.To)
		if err != nil {
			return nil, err
		}
		all = append(all, history.JudgeMove(m, olds.of(m.From), news.of(m.From), before, news.of(m.To))...)
	}
	return append(all, unsaid(moves, olds, news)...), nil
}

// unsaid finds plants that changed their number in an entry whose message does
// not say so.
func unsaid(moves []history.Move, olds, news byNumber) []ledger.Finding {
	var all []ledger.Finding
	say := func(n ledger.Number, message, hint string) {
		all = append(all, ledger.Finding{Path: n.Path(), Severity: ledger.Error, Code: history.CodeMoved, Field: "specimen", Message: message, Hint: hint})
	}
	now := map[string]ledger.Number{} // of what is new or altered, by what it says of its plant
	for _, n := range news.numbers() {
		if r := news.of(n).Record; r != nil {
			now[history.Plant(r)] = n
		}
	}
	for _, n := range olds.numbers() {
		old, is := olds.of(n).Record, news.of(n).Record
		if _, said := history.MovedTo(moves, n); said || old == nil {
			continue
		}
		plant := history.Plant(old)
		if to, retired := history.Retired(is); retired {
			if _, was := history.Retired(old); !was && history.Distinct(old) {
				say(n, "what was said of the plant is taken out, and the message does not say that it goes on as "+string(to),
					"Put the file back, then: blotter renumber "+history.Short(n)+" "+history.Short(to)+" --why TEXT")
			}
			continue
		}
		to, ok := now[plant]
		if !ok || to == n || !history.Distinct(old) || is != nil && history.Plant(is) == plant {
			continue
		}
		switch was := olds.of(to).Record; {
		case was == nil && is == nil:
			say(n, "its plant goes on as "+string(to)+", and the message does not say so", "Put the file back, then: blotter renumber "+history.Short(n)+" "+history.Short(to)+" --why TEXT")
		case was != nil && is != nil && history.Plant(was) == history.Plant(is) && n < to:
			say(n, "it and "+string(to)+" exchanged their numbers, and the message does not say so", "Put both files back, then: blotter swap "+history.Short(n)+" "+history.Short(to)+" --why TEXT")
		}
	}
	return all
}
