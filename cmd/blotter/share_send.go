package main

import (
	"context"
	"errors"

	"blotter/ledger/gitrepo"
)

// send gives the other copy what it lacks. The error is gitrepo.ErrMoved when
// somebody else sent something meanwhile.
func (s *sharing) send(ctx context.Context) error {
	own, err := s.newsIn(ctx, s.ours, s.theirs)
	if err != nil {
		return err
	}
	if own.entries == 0 && len(s.lacks) == 0 {
		s.say("Nothing to send. Both ledgers are the same.")
		return nil
	}
	words := own.all()
	if words == "" && own.entries > 0 {
		words = "what was brought together"
	}
	if len(s.lacks) > 0 {
		words = joinNonEmpty("; ", words, releaseWords(s.lacks))
	}
	if s.opts.on("dry-run") {
		s.say("%s", wrap("To be sent: "+words+".", s.Width, ""))
		return nil
	}
	switch s.place.kind {
	case placeFile:
		err = s.renewFile(ctx)
	default:
		err = s.repo.Send(ctx, s.other, s.branch, s.ours, s.lacks, s.Asks)
	}
	if err != nil {
		return s.notSent(ctx, err)
	}
	s.sent = true
	s.say("%s", wrap("Sent: "+words+". Both ledgers are now the same.", s.Width, ""))
	return nil
}

// notSent says why nothing was sent.
func (s *sharing) notSent(ctx context.Context, err error) error {
	const left = "What is entered here is not lost and not sent yet; once it can be: blotter share"
	var no *gitrepo.Refusal
	switch {
	case ctx.Err() != nil:
		return errInterrupted
	case errors.Is(err, gitrepo.ErrMoved):
		return err
	case errors.Is(err, gitrepo.ErrWorkedIn):
		return s.workedIn()
	case errors.As(err, &no) && no.Here:
		return stuck("a check of this computer's own stopped it").try(left).quote("that check", no.Words...)
	case errors.As(err, &no) && len(no.Words) == 0:
		return stuck("%s did not take it, and gives no reason; whoever keeps it knows", s.place).try(left).quote("the git program", no.Why)
	case errors.As(err, &no):
		return stuck("%s did not take it", s.place).try(left).quote("the other end", no.Words...)
	}
	var f *fault
	if errors.As(err, &f) {
		return err
	}
	return s.place.unreachable(left, err)
}

// workedIn is for another copy that somebody works in: it is read, and gives
// and takes when share is run there.
func (s *sharing) workedIn() error {
	return stuck("somebody works in %s itself, so nothing is put under their hands; yours is not sent", s.place).
		try("There: blotter share --with "+shellWord(s.repo.Top()),
			"Better for two people: a copy between both, in which nobody works: blotter share --with /srv/herbarium/"+slugWord(s.museum.Code.Text)+".git --new")
}
