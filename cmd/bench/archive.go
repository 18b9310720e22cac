package main

import (
	"archive/zip"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"blotter/ledger/archive"
	"blotter/ledger/darwincore"
)

// measureArchiveIn reads a Darwin Core archive of the ledger and makes a record
// of every row with the rows of its extensions, beside unpacking the same
// archive into files. foreign: the archive is taken for that of another
// program, whose terms are weighed against each other.
func measureArchiveIn(foreign bool) func(s stage) (ours, peer cost, err error) {
	return func(s stage) (ours, peer cost, err error) {
		name := filepath.Join(s.work, fmt.Sprintf("archive-%d.zip", s.n))
		if _, err := os.Stat(name); err != nil {
			if _, err := s.ours("export", "dwca", "--to", name, "--for", "Fjellheim Museum", "--quiet").run(); err != nil {
				return ours, peer, err
			}
		}
		piece := "archive-in"
		if foreign {
			piece = "archive-in-other"
		}
		copied := s.piece("archive-copy", name, s.out)
		copied.prepare = s.noOutput
		return alternate(s.rounds, s.piece(piece, name), copied)
	}
}

// archivePiece reads every record of an archive.
func archivePiece(name string, foreign bool) error {
	a, err := archive.Open(name)
	if err != nil {
		return err
	}
	defer a.Close()
	if foreign {
		a.Metadata = "" // what tells our own form
	}
	in, err := darwincore.NewIn(a, darwincore.InOptions{Code: "SYN", Prefix: "SYN-"})
	if err != nil {
		return err
	}
	rows := 0
	for star, err := range a.Stars(context.Background(), "") {
		if err != nil {
			return err
		}
		if rec, why := in.Record(star); rec == nil {
			return errors.New(why)
		}
		rows++
	}
	if rows == 0 || in.Ours() == foreign {
		return fmt.Errorf("%d records, ours %v", rows, in.Ours())
	}
	return nil
}

// archiveCopy unpacks an archive into a folder.
func archiveCopy(name, to string) error {
	z, err := zip.OpenReader(name)
	if err != nil {
		return err
	}
	defer z.Close()
	if err := os.MkdirAll(to, 0o777); err != nil {
		return err
	}
	for _, e := range z.File {
		r, err := e.Open()
		if err != nil {
			return err
		}
		w, err := os.Create(filepath.Join(to, filepath.Base(e.Name)))
		if err == nil {
			_, err = io.Copy(w, r)
			err = errors.Join(err, w.Close())
		}
		if err = errors.Join(err, r.Close()); err != nil {
			return err
		}
	}
	return nil
}
