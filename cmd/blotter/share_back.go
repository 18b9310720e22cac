package main

import (
	"context"

	"blotter/ledger/gitrepo"
)

// sideLine is for a copy in which somebody made a line of work beside the
// ledger's own, with another git program, and stands on it.
func sideLine(own, main string) error {
	return stuck("you stand on a side line of this ledger, %q; only its main line, %q, is shared, and nothing was changed", own, main).
		try("Back to the main line: git switch "+shellWord(main)+", then blotter share",
			"What is entered on the side line stays there until somebody brings it in.")
}

// onMainLine refuses to bring a side line of this copy together with the main
// line of the other.
func (s *sharing) onMainLine(ctx context.Context) error {
	own, err := s.repo.Branch()
	if err != nil {
		return stuck("%v", err)
	}
	if own == s.branch {
		return nil
	}
	has, err := s.repo.HasBranch(ctx, s.branch)
	if err != nil {
		return stuck("%v", err)
	}
	if has {
		return sideLine(own, s.branch)
	}
	return nil
}

// stood is where the other copy was when it was seen last.
type stood struct{ branch, tip string }

// stoodAt finds that, and holds on to it: whatever becomes of the other copy,
// what it had stays here.
func (s *sharing) stoodAt(ctx context.Context) (stood, error) {
	if !s.other.Known {
		return stood{}, s.repo.Forget(ctx, s.other) // of another copy that once had this name
	}
	var at stood
	at.branch, at.tip, _ = s.repo.TipOf(ctx, s.other) // several lines: none is known to be the one
	seen, err := s.repo.Seen(ctx, s.other)
	if err != nil {
		return at, stuck("%v", err)
	}
	switch {
	case at.tip == "":
		at.tip = seen
		return at, nil
	case seen == at.tip:
		return at, nil
	case seen != "":
		onward, err := s.repo.IsAncestor(ctx, seen, at.tip)
		if err != nil {
			return at, stuck("%v", err)
		}
		if !onward { // a git program has received what this one would have told
			at.tip = seen
			return at, nil
		}
	}
	if err := s.repo.SetSeen(ctx, s.other, at.tip); err != nil {
		return at, stuck("%v", err)
	}
	return at, nil
}

// stepsBack stops when the other copy no longer has what it had: it was forced
// back, or restored from an older backup. With consent what is here goes
// there again.
func (s *sharing) stepsBack(ctx context.Context, before stood) error {
	if before.tip == "" {
		return nil
	}
	g := gitrepo.Range{Tips: []string{before.tip}}
	if s.theirs != "" {
		g.Not = []string{s.theirs}
	}
	gone, err := s.repo.Commits(ctx, g)
	if err != nil {
		return stuck("%v", err)
	}
	if len(gone) == 0 {
		return nil
	}
	last, err := s.repo.Revision(ctx, gone[len(gone)-1])
	if err != nil {
		return stuck("%v", err)
	}
	lines := count(len(gone), "entry") + " that " + s.place.String() + " had before " + plural(len(gone), "is", "are") + " not there any more, the last by " +
		last.Author.Name + ", " + last.Author.When.In(s.zone).Format("2 January 2006") + ". Here " + plural(len(gone), "it is", "they all are") + " still."
	s.say("%s", wrap(lines, s.Width, ""))
	s.tell("%s", wrap("Was the other copy restored from an older backup? Then send again. Was it taken out on purpose, or by mistake, by somebody with another git program? Speak with its keeper first.", s.Width, ""))
	if ok, err := s.consent(ctx, "Send again what it no longer has?"); !ok {
		if e := s.repo.Received(ctx, s.other, before.branch, before.tip); e != nil {
			return stuck("%v", e)
		}
		if err == nil {
			err = errRehearsed
			if !s.opts.on("dry-run") {
				err = errFindings
			}
		}
		return err
	}
	mine, err := s.repo.IsAncestor(ctx, before.tip, s.ours)
	if err != nil {
		return stuck("%v", err)
	}
	if !mine { // it was received once, and never joined
		s.had = before.tip
	}
	return nil
}

// keepStand notes, when both copies are the same, that the other one has it.
func (s *sharing) keepStand(ctx context.Context) error {
	if s.opts.on("dry-run") || !s.other.Known {
		return nil
	}
	if err := s.repo.SetSeen(ctx, s.other, s.ours); err != nil {
		return stuck("%v", err)
	}
	return nil
}

// bringBack brings in what the other copy had once and has not now, where this
// copy had received it and not yet joined it.
func (s *sharing) bringBack(ctx context.Context) error {
	if s.had == "" {
		return nil
	}
	now := s.theirs
	s.theirs, s.had = s.had, ""
	err := s.findBase(ctx)
	if err == nil {
		err = s.bring(ctx)
	}
	if s.theirs = now; err != nil || now == "" {
		return err
	}
	return s.findBase(ctx)
}

// findBase finds a revision that both copies had; "" where they never had one.
func (s *sharing) findBase(ctx context.Context) error {
	bases, err := s.repo.Bases(ctx, s.ours, s.theirs)
	if err != nil {
		return stuck("%v", err)
	}
	s.base = ""
	if len(bases) > 0 {
		s.base = bases[0]
	}
	return nil
}
