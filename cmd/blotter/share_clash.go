package main

import (
	"context"
	"errors"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/merge"
)

// settle puts right, in what only this copy has, the numbers that both gave
// meanwhile: it may enter more here, and s.ours is then that revision.
func (s *sharing) settle(ctx context.Context) error {
	ok, err := s.settleNumbers(ctx, s.base, s.theirs)
	if err != nil {
		return err
	}
	if !ok {
		return errRehearsed // somebody said no, or it was a rehearsal: all is said
	}
	s.ours, err = s.head(ctx)
	return err
}

// joinFile makes one file of two versions: what has a field table field by
// field, other texts line by line.
func (s *sharing) joinFile(ctx context.Context, c gitrepo.Clash) ([]byte, bool, error) {
	path := strings.TrimPrefix(c.Path, s.repo.Prefix())
	if _, known := ledger.KindOf(path); known && strings.HasPrefix(c.Path, s.repo.Prefix()) {
		answers := s.answers[c.Path]
		merged, open, err := merge.Answered(path, c.Base, c.Ours, c.Theirs, func(x merge.Conflict) merge.Answer { return answers[x.Path] })
		if err == nil {
			return merged, len(open) == 0, nil
		}
		if !errors.Is(err, merge.ErrText) {
			return nil, false, err
		}
	}
	if kind, known := ledger.KindOf(path); known && kind != ledger.RecordKind && kind != ledger.WorkFileKind {
		if merged, ok := merge.Listed(c.Base, c.Ours, c.Theirs); ok {
			return merged, true, nil
		}
	}
	return gitrepo.MergeBytes(ctx, s.Environ, c.Ours, c.Base, c.Theirs)
}

// answered is for files of which a person must say how they are to read: the
// tree with the answers. Without answers nothing is changed.
func (s *sharing) answered(ctx context.Context, clashes []gitrepo.Clash) (string, error) {
	if s.Asks && !s.opts.on("dry-run") {
		tree, left, err := s.askClashes(ctx, clashes)
		if err != nil || tree != "" {
			return tree, err
		}
		clashes = left
	}
	s.say("%s", wrap("Not brought together: you and "+s.othersName(ctx)+" changed the same thing in two ways. Nothing was changed.", s.Width, ""))
	for _, c := range clashes {
		s.sayClash(ctx, c)
	}
	if !s.Asks {
		s.next("blotter share at a terminal, which asks which reading is right")
	}
	return "", errFindings
}

// askClashes asks which readings are right, and makes the tree with the
// answers; what is not decided is left, and then there is no tree.
func (s *sharing) askClashes(ctx context.Context, clashes []gitrepo.Clash) (tree string, left []gitrepo.Clash, err error) {
	s.tell("%s", wrap("You and "+s.othersName(ctx)+" changed the same thing in two ways.", s.Width, ""))
	a := s.asker()
	s.answers = map[string]map[string]merge.Answer{}
	for _, c := range clashes {
		path := strings.TrimPrefix(c.Path, s.repo.Prefix())
		if c.Ours == nil || c.Theirs == nil {
			continue
		}
		_, open, err := merge.Record(path, c.Base, c.Ours, c.Theirs)
		if err != nil {
			continue
		}
		whoWrote(ctx, s.repo, path, open, s.ours, s.theirs)
		if s.answers[c.Path], err = s.askReadings(ctx, a, path, open); err != nil {
			return "", nil, err
		}
	}
	tree, left, err = s.repo.Together(ctx, s.ours, s.theirs, s.joinFile)
	if err != nil {
		return "", nil, stuck("%v", err)
	}
	return tree, left, nil
}

// othersName is who entered what was received.
func (s *sharing) othersName(ctx context.Context) string {
	t, err := s.newsIn(ctx, s.theirs, s.ours)
	if err != nil {
		return "others"
	}
	return t.people()
}

func (s *sharing) sayClash(ctx context.Context, c gitrepo.Clash) {
	path := strings.TrimPrefix(c.Path, s.repo.Prefix())
	name := sheetOrPath(path)
	switch {
	case c.Theirs == nil:
		s.say("  %s  was taken away by the other, and changed here", name)
		return
	case c.Ours == nil:
		s.say("  %s  was taken away here, and changed by the other", name)
		return
	}
	_, open, err := merge.Record(path, c.Base, c.Ours, c.Theirs)
	if err != nil || len(open) == 0 {
		s.say("  %s  the same lines read otherwise in both", name)
		return
	}
	whoWrote(ctx, s.repo, path, open, s.ours, s.theirs)
	for _, o := range open {
		if o.Kind != merge.File {
			s.sayReadings(s.say, path, o)
			continue
		}
		s.say("  %s  %s", name, o.Message)
		if o.Hint != "" {
			s.say("  %s", wrap("  "+o.Hint, s.Width-2, "  "))
		}
	}
}
