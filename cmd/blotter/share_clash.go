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

// joinFile makes one file of two versions: records and works field by field,
// the museum's own files entry by entry, other texts line by line.
func (s *sharing) joinFile(ctx context.Context, c gitrepo.Clash) ([]byte, bool, error) {
	path := strings.TrimPrefix(c.Path, s.repo.Prefix())
	_, isRecord := ledger.NumberOfPath(path)
	_, isWork := ledger.WorkNumberOfPath(path)
	if (isRecord || isWork) && strings.HasPrefix(c.Path, s.repo.Prefix()) {
		merged, open, err := merge.Record(path, c.Base, c.Ours, c.Theirs)
		if err == nil {
			return merged, len(open) == 0, nil
		}
		if !errors.Is(err, merge.ErrText) {
			return nil, false, err
		}
	}
	if _, known := ledger.KindOf(path); known && !isRecord && !isWork {
		if merged, ok := merge.Listed(c.Base, c.Ours, c.Theirs); ok {
			return merged, true, nil
		}
	}
	return gitrepo.MergeBytes(ctx, s.Environ, c.Ours, c.Base, c.Theirs)
}

// answered is for files of which a person must say how they are to read: the
// tree with the answers. Without answers nothing is changed.
func (s *sharing) answered(ctx context.Context, clashes []gitrepo.Clash) (string, error) {
	s.say("%s", wrap("Not brought together: you and "+s.othersName(ctx)+" changed the same thing in two ways. Nothing was changed.", s.Width, ""))
	for _, c := range clashes {
		s.sayClash(c)
	}
	return "", errFindings
}

// othersName is who entered what was received.
func (s *sharing) othersName(ctx context.Context) string {
	t, err := s.newsIn(ctx, s.theirs, s.ours)
	if err != nil {
		return "others"
	}
	return t.people()
}

func (s *sharing) sayClash(c gitrepo.Clash) {
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
	for _, o := range open {
		s.say("  %s  %s", name, o.Message)
		if o.Hint != "" {
			s.say("  %s", wrap("  "+o.Hint, s.Width-2, "  "))
		}
	}
}
