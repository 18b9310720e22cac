package main

import (
	"bytes"
	"context"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

// choice is what a person decided of a file as a whole, where nothing can be
// decided within it: one copy took it away, or it is a text or a picture.
type choice int

const (
	undecided choice = iota
	chosenOurs
	chosenTheirs
	chosenBoth // the lines of both, one after the other
)

// askWhole asks which of two versions of a file is right. An empty answer
// decides nothing.
func (s *sharing) askWhole(ctx context.Context, a *asker, c gitrepo.Clash) (choice, error) {
	s.sayWhole(ctx, s.tell, c)
	question := "Which is right? 1 or 2; empty: decide later  "
	if s.isProse(c) {
		question = "Which is right? 1, 2, or both, one after the other: 3; empty: decide later  "
	}
	for {
		words, err := a.ask(ctx, question)
		switch {
		case errors.Is(err, io.EOF):
			return undecided, nil
		case err != nil:
			return undecided, err
		}
		switch {
		case words == "":
			return undecided, nil
		case words == "1":
			return chosenOurs, nil
		case words == "2":
			return chosenTheirs, nil
		case words == "3" && s.isProse(c):
			return chosenBoth, nil
		}
		s.tell("Answer with one of the figures.")
	}
}

// sayWhole shows what became of a file in both copies, and by whom.
func (s *sharing) sayWhole(ctx context.Context, tell func(string, ...any), c gitrepo.Clash) {
	path := strings.TrimPrefix(c.Path, s.repo.Prefix())
	tell("%s", sheetOrPath(path))
	line := func(mark string, has, made bool, tip, place string) {
		words := "kept, as it was changed"
		switch {
		case !has:
			words = "taken away"
		case made:
			words = "as it was made"
		}
		tell("%s", wrap("  "+mark+"    "+words+s.handOf(ctx, path, tip, place), s.Width, "       "))
	}
	line("1", c.Ours != nil, c.Base == nil, s.ours, "here")
	line("2", c.Theirs != nil, c.Base == nil, s.theirs, "in the other copy")
}

// handOf is who touched a file last on the way to a revision, in brackets.
func (s *sharing) handOf(ctx context.Context, path, tip, place string) string {
	var not []string
	if s.base != "" {
		not = []string{s.base}
	}
	if from := s.cameFrom[path]; from != "" {
		path = from
	}
	last, err := s.repo.FileVersions(ctx, tip, not, s.repo.Prefix()+path, 1)
	if err != nil || len(last) == 0 {
		return "  (" + place + ")"
	}
	by := last[0].Author
	return "  (" + joinNonEmpty(", ", by.Name, by.When.In(s.zone).Format("2 January 2006"), place) + ")"
}

// isProse reports whether both versions of a file are texts without fields, of
// which both can stand one after the other.
func (s *sharing) isProse(c gitrepo.Clash) bool {
	_, fields := ledger.KindOf(strings.TrimPrefix(c.Path, s.repo.Prefix()))
	text := func(b []byte) bool { return b != nil && utf8.Valid(b) && bytes.IndexByte(b, 0) < 0 }
	return !fields && text(c.Ours) && text(c.Theirs)
}
