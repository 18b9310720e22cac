package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
)

// renewFile writes the file of a stick anew, with everything that both copies
// have: the old one stands until the new one is read back whole.
func (s *sharing) renewFile(ctx context.Context) error {
	if s.place.isBackup() {
		return stuck("%s is a backup and stays as it was written; what is entered here is not sent", s.place).
			try("A file to share by, beside it: blotter share --with " + shellWord(filepath.Dir(s.place.text)) + " --new")
	}
	out, err := disk.Begin(s.place.text)
	if err != nil {
		return s.stickError(err)
	}
	defer out.Discard()
	branch, err := s.repo.Branch()
	if err != nil {
		return stuck("%v", err)
	}
	if err := s.repo.WriteShared(ctx, out, branch); err != nil {
		return s.stickError(err)
	}
	b, err := gitrepo.OpenBundle(out, out.Size())
	if err == nil {
		err = b.Verify(ctx)
	}
	if err == nil && b.Head() != s.ours {
		err = errors.New("something was entered meanwhile; run it again")
	}
	if err != nil {
		return s.stickError(err)
	}
	if err := s.putFile(ctx, out); err != nil {
		return err
	}
	if err := s.repo.Received(ctx, s.other, s.branch, s.ours); err != nil {
		return stuck("%v", err)
	}
	return nil
}

// filePatience is how long it is waited for another computer to put its file in
// place: its bytes are on the disk before it begins.
const filePatience = time.Minute

// putFile puts the new file in place of the old one, if that still is what was
// received: otherwise what somebody else wrote meanwhile would be lost. The
// error is then gitrepo.ErrMoved.
func (s *sharing) putFile(ctx context.Context, out *disk.NewFile) error {
	if err := out.Sync(); err != nil {
		return s.stickError(err)
	}
	lock, err := disk.LockBeside(ctx, s.place.text, filePatience)
	if err != nil {
		return s.stickError(err)
	}
	defer lock.Unlock()
	now, err := fileTip(s.place.text)
	if err != nil {
		return s.stickError(err)
	}
	if now != s.theirs {
		return gitrepo.ErrMoved
	}
	if err := out.Commit(); err != nil {
		return s.stickError(err)
	}
	return nil
}

func (s *sharing) stickError(err error) error {
	return stuck("%s was not written: %v", s.place, err).try("What stood there before is as it was. What is entered here is not lost; once there is room: blotter share --with " + shellWord(s.place.text))
}

// fileTip is the revision that a file's ledger is at; "" when there is no
// file.
func fileTip(file string) (string, error) {
	f, err := os.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return "", err
	}
	b, err := gitrepo.OpenBundle(f, info.Size())
	if err != nil {
		return "", err
	}
	return b.Tip(), nil
}
