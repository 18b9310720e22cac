package main

import (
	"context"
	"maps"
	"slices"

	"blotter/ledger"
	"blotter/ledger/clash"
	"blotter/ledger/renumber"
)

// moved is what both copies changed and moved since they had the same.
func (s *sharing) moved(ctx context.Context) (ours, theirs *movedSide, err error) {
	for i, tip := range []string{s.ours, s.theirs} {
		if s.sides[i] == nil || s.sides[i].base != s.base || s.sides[i].tip != tip {
			if s.sides[i], err = s.movedSince(ctx, s.base, tip); err != nil {
				return nil, nil, err
			}
		}
	}
	return s.sides[0], s.sides[1], nil
}

// settleAnew is for plants to which both copies gave another number meanwhile,
// and not the same: the one not yet shared follows the other, after a question,
// unless something was printed of it here. false: somebody said no, or it was a
// rehearsal.
func (s *sharing) settleAnew(ctx context.Context) (bool, error) {
	ours, theirs, err := s.moved(ctx)
	if err != nil {
		return false, err
	}
	set := &settling{desk: s.desk, moves: renumber.Moves{}, reason: "numbered anew twice", because: "numbers given anew twice"}
	for _, key := range slices.Sorted(maps.Keys(ours.numbers)) {
		here, there := ours.numbers[key], theirs.numbers[key]
		if there == "" || there.Key() == here.Key() {
			continue
		}
		from := ours.spelled(key)
		if err := s.mayFollow(ctx, from, here, there); err != nil {
			return false, err
		}
		set.moves[here.Key()] = there
		set.clashes = append(set.clashes, clash.Clash{Number: here, Path: here.Path()})
		s.say("%s is now %s in the other copy, and %s here. The one here becomes %s too.", from, there, here, there)
	}
	if len(set.clashes) == 0 {
		return true, nil
	}
	if ok, err := s.consent(ctx, set.question()); !ok {
		return false, err
	}
	clashes := set.clashes
	if err := set.findClashes(ctx, s.base, s.theirs); err != nil {
		return false, err
	}
	set.clashes = clashes
	if err := set.follow(ctx); err != nil {
		return false, err
	}
	subject := count(len(clashes), "sheet") + " numbered anew twice: this copy's number is the other's now"
	r, err := s.enter(ctx, entry{changes: set.changes, subject: subject, trailers: set.trailers, moves: set.gone})
	if err != nil {
		return false, err
	}
	s.all, s.worked = nil, nil
	s.report(r, "")
	return r.id != "", nil
}

// mayFollow refuses where something was printed here with the number that
// would go.
func (s *sharing) mayFollow(ctx context.Context, from, here, there ledger.Number) error {
	w, err := s.works(ctx)
	if err != nil {
		return err
	}
	papers := clash.Papers(w, here)
	if len(papers) == 0 {
		return nil
	}
	return stuck("%s is now %s in the other copy, and %s here, and %s with that number were printed here (%s, %s); nothing was changed and nothing sent",
		from, there, here, papers[0].Paper, papers[0].Work, papers[0].Day.String()).
		try("Whoever printed them and whoever numbered it in the other copy must look at the sheet and decide.",
			"To have the other copy's number: take the paper off the sheet, take your entries back as far as that numbering by blotter undo, then blotter share",
			"To keep the number here: in the other copy the sheet gets another number first, by blotter renumber.")
}
