package main

import (
	"context"
	"errors"
	"strings"

	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

// bring makes this copy hold what both have: files, and the revision that it
// is at. Until the last step nothing is changed.
func (s *sharing) bring(ctx context.Context) error {
	if s.theirs == "" {
		return s.mustBeFit(ctx, "")
	}
	received, err := s.newsIn(ctx, s.theirs, s.ours)
	if err != nil {
		return err
	}
	if received.entries == 0 {
		return s.mustBeFit(ctx, s.theirs)
	}
	if err := s.mayReceive(ctx); err != nil {
		return err
	}
	if err := s.settle(ctx); err != nil {
		return err
	}
	joined := s.theirs
	if behind, err := s.repo.IsAncestor(ctx, s.ours, s.theirs); err != nil {
		return stuck("%v", err)
	} else if !behind {
		if joined, err = s.together(ctx, received); err != nil {
			return err
		}
	}
	if s.opts.on("dry-run") {
		return s.rehearse(ctx, joined, received)
	}
	unlock, err := s.lock(ctx)
	if err != nil {
		return err
	}
	err = s.repo.Advance(ctx, s.ours, joined)
	unlock()
	if err != nil {
		return s.notBrought(ctx, err)
	}
	s.ours = joined
	s.showReceived(received)
	return nil
}

// mayReceive looks at what others entered. What breaks a promise is told
// before it comes in; errors of content are told and stop nothing, since they
// can be mended here.
func (s *sharing) mayReceive(ctx context.Context) error {
	v, err := s.bench().Range(ctx, gitrepo.Range{Tips: []string{s.theirs}, Not: []string{s.ours}})
	if err != nil {
		return stuck("%v", err)
	}
	var broken, faulty []ledger.Finding
	laws := map[string]bool{}
	for _, r := range hooks.Codes() {
		laws[r.Code] = true
	}
	for _, f := range v.Findings {
		switch {
		case f.Severity != ledger.Error:
		case laws[f.Code]:
			broken = append(broken, f)
		default:
			faulty = append(faulty, f)
		}
	}
	e := *s.env
	e.Out = s.Err
	if len(broken) > 0 {
		findingsView{env: &e}.show(broken)
		s.tell("%s", wrap("What the other copy holds takes away or alters what was entered and shared: it was sent past the checks. Nothing is lost, the history has it; but speak with whoever entered it first.", s.Width, ""))
		if ok, err := s.consent(ctx, "Receive it all the same?"); !ok && !s.opts.on("dry-run") {
			if err == nil {
				err = errFindings
			}
			return err
		}
	}
	if len(faulty) > 0 {
		findingsView{env: &e}.show(faulty)
		s.tell("%s in what is received, to be mended there or here: blotter check", count(len(faulty), "error"))
	}
	return nil
}

// mustBeFit holds what is to be sent to the checks that the other end will
// hold it to.
func (s *sharing) mustBeFit(ctx context.Context, theirs string) error {
	g := gitrepo.Range{Tips: []string{s.ours}}
	if theirs != "" {
		g.Not = []string{theirs}
	}
	v, err := s.bench().Range(ctx, g)
	if err != nil {
		return stuck("%v", err)
	}
	return s.refuse(v)
}

// refuse shows errors in what would be sent.
func (s *sharing) refuse(v hooks.Verdict) error {
	if !v.Refused() {
		return nil
	}
	var errs []ledger.Finding
	for _, f := range v.Findings {
		if f.Severity == ledger.Error {
			errs = append(errs, f)
		}
	}
	findingsView{env: s.env}.show(errs)
	s.say("Not sent: %s in what was entered here. Nothing was changed.", count(len(errs), "error"))
	s.next("mend it, then blotter enter, then blotter share")
	return errFindings
}

// together makes one revision of both copies, and judges it. Nothing leads to
// it yet.
func (s *sharing) together(ctx context.Context, received *news) (string, error) {
	follow, err := s.follow(ctx)
	if err != nil {
		return "", err
	}
	s.recast, s.cameFrom = follow.files()
	tree, clashes, err := s.repo.Together(ctx, s.ours, s.theirs, s.recast, s.joinFile)
	if err != nil {
		return "", stuck("%v", err)
	}
	if len(clashes) > 0 {
		if tree, err = s.answered(ctx, clashes); err != nil {
			return "", err
		}
	}
	author, committer, err := s.recorder(ctx)
	if err != nil {
		return "", err
	}
	message := "Brought together with what " + received.people() + " entered\n" + trailerBlock(append(s.decisions(), follow.notes...))
	follow.tell()
	id, err := s.repo.CommitTree(ctx, tree, []string{s.theirs, s.ours}, message, author, committer)
	if err != nil {
		return "", stuck("%v", err)
	}
	b := s.bench()
	v, err := b.Range(ctx, gitrepo.Range{Tips: []string{s.ours}, Not: []string{s.theirs}})
	if err == nil && !v.Refused() {
		v, err = b.Range(ctx, gitrepo.Range{Tips: []string{id}, Not: []string{s.ours, s.theirs}})
	}
	if err != nil {
		return "", stuck("%v", err)
	}
	return id, s.refuse(v)
}

// notBrought says why the files were not moved on.
func (s *sharing) notBrought(ctx context.Context, err error) error {
	var edited *gitrepo.EditedError
	var odd *gitrepo.OddError
	switch {
	case errors.As(err, &edited):
		var names, brief []string
		for _, p := range edited.Paths[:min(len(edited.Paths), 10)] {
			p = strings.TrimPrefix(p, s.repo.Prefix())
			names, brief = append(names, sheetOrPath(p)), append(brief, s.briefPath(p))
		}
		return stuck("%s: others entered another version, and yours is written but not entered; nothing was changed", strings.Join(names, ", ")).
			try("Enter yours, then both are joined: blotter enter "+strings.Join(brief, " "), "Then: blotter share")
	case errors.As(err, &odd):
		return stuck("%s comes as something that is no plain file, and is not taken; nothing was changed", strings.Join(odd.Paths, ", ")).
			try("Whoever sent it must take it out of the ledger.")
	case errors.Is(err, gitrepo.ErrBusy):
		return stuck("another git program is at work in this ledger, or was broken off; nothing was changed").try("In a moment again; if it stays so: blotter doctor")
	case errors.Is(err, gitrepo.ErrMoved):
		return stuck("something was entered here meanwhile; nothing was changed").try("Again: blotter share")
	case s.repo.BrokenOff():
		return stuck("what was received is not in its place yet: %v", err).try("Make room or mend the cause, then: blotter share goes on where it stopped.")
	}
	return stuck("%v; the files are as they were", err)
}

// rehearse says what would be changed.
func (s *sharing) rehearse(ctx context.Context, joined string, received *news) error {
	if err := s.repo.MayAdvance(ctx, s.ours, joined); err != nil {
		return s.notBrought(ctx, err)
	}
	s.ours = joined
	s.showReceived(received)
	return nil
}

// finishReceiving ends a share, or an undo of numbers, that was broken off while
// the files moved.
func (d *desk) finishReceiving(ctx context.Context) error {
	if !d.repo.BrokenOff() {
		return nil
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	id, err := d.repo.FinishAdvance(ctx)
	if err != nil {
		return stuck("a share or an undo was broken off here, and could not be ended: %v", err).try("Nothing is lost. When the cause is mended the next command goes on.")
	}
	if id != "" {
		d.tell("What was broken off here, a share or an undo, was ended: all files are as of revision %s.", id[:7])
	}
	return nil
}

// nameAt is which ledger a revision holds, in words after a blank.
func (d *desk) nameAt(ctx context.Context, id string) string {
	blob, err := d.repo.BlobAt(ctx, id, ledger.MuseumFile)
	if err != nil || blob == "" {
		return ""
	}
	src, err := d.repo.Blob(ctx, blob)
	if err != nil {
		return ""
	}
	m, _ := ledger.DecodeMuseum(ledger.MuseumFile, src)
	if m.Name.Text == "" {
		return ""
	}
	return ", of " + m.Name.Text + " (" + m.Code.Text + ")"
}
