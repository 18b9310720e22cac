package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

// makeNew makes the other copy where --with says, whole or not at all.
func (s *sharing) makeNew(ctx context.Context) error {
	p := &s.place
	switch {
	case p.kind == placeFar:
		return misuse("--new makes a copy in a folder; at another machine its keeper makes an empty one").
			try("Once it is there: blotter share --with " + shellWord(p.String()))
	case p.kind == placeServer || p.kind == placeWorked || p.kind == placeFile:
		return misuse("%s is there already", p).try("blotter share --with " + shellWord(p.text))
	case p.kind == placeFolder:
		p.text = filepath.Join(p.text, slugWord(s.museum.Code.Text)+sharedEnding)
		if _, err := os.Lstat(p.text); err == nil {
			return misuse("%s is there already", p).try("blotter share --with " + shellWord(p.text))
		}
	}
	if up, err := os.Stat(filepath.Dir(p.text)); err != nil || !up.IsDir() {
		return stuck("there is no folder %s", filepath.Dir(p.text))
	}
	if s.repo != nil && s.liesIn(p.text) {
		return misuse("a copy inside the ledger's own folder is lost with it").try("Another place: blotter share --with /media/usb --new")
	}
	if s.opts.on("dry-run") {
		s.say("%s would be made, with the whole ledger.", p)
		s.tell("Nothing was changed: --dry-run.")
		return errRehearsed
	}
	if p.kind == placeFolder || strings.HasSuffix(p.text, ".bundle") {
		p.kind = placeFile
		return s.newFile(ctx)
	}
	p.kind = placeServer
	return s.newServer(ctx)
}

// newFile writes the file of a stick for the first time.
func (s *sharing) newFile(ctx context.Context) error {
	var err error
	if s.ours, err = s.head(ctx); err != nil {
		return err
	}
	if err := s.mustBeFit(ctx, ""); err != nil {
		return err
	}
	if s.other, err = s.repo.OtherAt(s.place.text); err != nil {
		return stuck("%v", err)
	}
	if s.branch, err = s.repo.Branch(); err != nil {
		return stuck("%v", err)
	}
	err = s.renewFile(ctx)
	if errors.Is(err, gitrepo.ErrMoved) {
		return misuse("%s is there already", s.place).try("blotter share --with " + shellWord(s.place.text))
	}
	if err != nil {
		return err
	}
	return s.madeNew(ctx)
}

// newServer makes a folder in which nobody works, beside its place, and moves
// it there when it holds everything.
func (s *sharing) newServer(ctx context.Context) error {
	dir := s.place.text
	branch, err := s.repo.Branch()
	if err != nil {
		return stuck("%v", err)
	}
	if s.ours, err = s.head(ctx); err != nil {
		return err
	}
	if err := s.mustBeFit(ctx, ""); err != nil {
		return err
	}
	m, err := s.makeBeside(ctx, dir)
	if err != nil {
		return err
	}
	defer m.end()
	server, err := s.repo.NewServer(ctx, m.temp, branch)
	if err != nil {
		return s.place.unreachable("Nothing was left behind.", err)
	}
	defer server.Close()
	if err := s.repo.SendWhole(ctx, m.temp, branch); err != nil {
		if ctx.Err() != nil {
			return errInterrupted
		}
		return s.place.unreachable("Nothing was left behind.", err)
	}
	if err := hooks.Setup(ctx, server, s.Program); err != nil {
		return stuck("%v", err).try("Nothing was left behind.")
	}
	if err := m.moveTo(dir); err != nil {
		return stuck("%v", err).try("Nothing was left behind.")
	}
	if err := s.setUpServer(ctx, dir); err != nil {
		return stuck("%s is made, but its checks were not set up: %v", dir, err).try("There: blotter hooks install")
	}
	return s.madeNew(ctx)
}

// setUpServer sets up the checks of a bare copy at its own place.
func (s *sharing) setUpServer(ctx context.Context, dir string) error {
	server, err := gitrepo.Open(dir, s.Environ)
	if err != nil {
		return err
	}
	defer server.Close()
	return hooks.Setup(ctx, server.In(s.repo.Prefix()), s.Program)
}

// madeNew says what the new copy is.
func (s *sharing) madeNew(ctx context.Context) error {
	s.made, s.sent = true, true
	sheets := 0
	err := s.repo.Walk(ctx, s.ours, func(path string, _ ledger.BlobID) {
		if _, ok := ledger.NumberOfPath(path); ok {
			sheets++
		}
	})
	if err != nil {
		return stuck("%v", err)
	}
	s.say("Sent: the whole ledger, %s. %s is made, and both are the same.", count(sheets, "sheet"), s.place)
	s.tell("%s", wrap("Keep it as private as the ledger: withheld places and e-mail addresses are in it. Others begin with: blotter join "+shellWord(s.place.text)+" DIR", s.Width, ""))
	return nil
}
