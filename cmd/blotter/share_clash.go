package main

import (
	"context"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
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
	if s.ours, err = s.head(ctx); err != nil {
		return err
	}
	if ok, err = s.settleAnew(ctx); err != nil {
		return err
	}
	if !ok {
		return errRehearsed
	}
	s.ours, err = s.head(ctx)
	return err
}

// joinFile makes one file of two versions: what has a field table field by
// field, other texts line by line; what a person chose as a whole so. Of a file
// that one copy took away nothing is made without a person.
func (s *sharing) joinFile(ctx context.Context, c gitrepo.Clash) ([]byte, bool, error) {
	switch s.chosen[c.Path] {
	case chosenOurs:
		return c.Ours, true, nil
	case chosenTheirs:
		return c.Theirs, true, nil
	case chosenBoth:
		return gitrepo.MergeBytes(ctx, s.Environ, c.Ours, c.Base, c.Theirs, "--union")
	}
	if c.Ours == nil || c.Theirs == nil {
		return nil, false, nil
	}
	merged, ok, err := s.joinVersions(ctx, c)
	if merged == nil {
		merged = []byte{}
	}
	return merged, ok, err
}

func (s *sharing) joinVersions(ctx context.Context, c gitrepo.Clash) ([]byte, bool, error) {
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
	s.answers, s.chosen = map[string]map[string]merge.Answer{}, map[string]choice{}
	for _, c := range clashes {
		open := s.openOf(ctx, c)
		if len(open) == 0 {
			s.chosen[c.Path], err = s.askWhole(ctx, a, c)
		} else {
			s.answers[c.Path], err = s.askReadings(ctx, a, strings.TrimPrefix(c.Path, s.repo.Prefix()), open)
		}
		if err != nil {
			return "", nil, err
		}
	}
	tree, left, err = s.repo.Together(ctx, s.ours, s.theirs, s.recast, s.joinFile)
	if err != nil {
		return "", nil, stuck("%v", err)
	}
	return tree, left, nil
}

// decisions are the trailers of what a person decided of sheets.
func (s *sharing) decisions() (lines []string) {
	for path, answers := range s.answers {
		if n, ok := ledger.NumberOfPath(strings.TrimPrefix(path, s.repo.Prefix())); ok {
			for field := range answers {
				lines = append(lines, history.Decision{Number: n, Field: field}.Trailer())
			}
		}
	}
	slices.Sort(lines)
	return lines
}

// openOf are the fields of a file that a person must decide, with who wrote
// what; none where it is about the file as a whole.
func (s *sharing) openOf(ctx context.Context, c gitrepo.Clash) []merge.Conflict {
	path := strings.TrimPrefix(c.Path, s.repo.Prefix())
	if c.Ours == nil || c.Theirs == nil {
		return nil
	}
	_, open, err := merge.Record(path, c.Base, c.Ours, c.Theirs)
	if err != nil {
		return nil
	}
	whoWrote(ctx, s.repo, path, open, s.ours, s.theirs)
	return open
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
	open := s.openOf(ctx, c)
	if len(open) == 0 {
		s.sayWhole(ctx, s.say, c)
		return
	}
	for _, o := range open {
		if o.Kind != merge.File {
			s.sayReadings(s.say, path, o)
			continue
		}
		s.say("  %s  %s", sheetOrPath(path), o.Message)
		if o.Hint != "" {
			s.say("  %s", wrap("  "+o.Hint, s.Width-2, "  "))
		}
	}
}
