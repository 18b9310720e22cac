package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

// pendingFile is a file of the work tree that differs from the ledger as
// entered last.
type pendingFile struct {
	path string
	was  bool        // it is in the last revision
	is   bool        // it is on disk
	file ledger.File // on disk
}

// text reports whether the file is read as words: a record, a work, a
// file of the museum, a page of prose. Others, like pictures, are only entered.
func (p pendingFile) text() bool {
	_, isRecord := ledger.NumberOfPath(p.path)
	_, isWork := ledger.WorkNumberOfPath(p.path)
	return isRecord || isWork || book.IsMuseumFile(p.path) || strings.HasPrefix(p.path, ledger.PagesDir+"/")
}

// odd is what is wrong with a file that cannot be looked into.
func (p pendingFile) odd() []ledger.Finding {
	switch {
	case p.file.Link:
		return []ledger.Finding{book.LinkFinding(p.path)}
	case p.text() && p.file.Size > ledger.MaxFile:
		_, found := ledger.Decode(p.path, make([]byte, ledger.MaxFile+1))
		return found
	}
	return nil
}

// pending lists what is written but not yet entered, in order of path.
func (d *desk) pending(ctx context.Context) ([]pendingFile, error) {
	now, err := d.source().Files(ctx)
	if err != nil {
		return nil, stuck("%v", err)
	}
	var before []ledger.File
	src, _, err := d.headSource(ctx)
	if err != nil {
		return nil, err
	}
	if src != nil {
		if before, err = src.Files(ctx); err != nil {
			return nil, stuck("%v", err)
		}
	}
	var out []pendingFile
	var large []string // of these only git knows whether they differ
	i, j := 0, 0
	for i < len(before) || j < len(now) {
		switch {
		case j == len(now) || i < len(before) && before[i].Path < now[j].Path:
			out = append(out, pendingFile{path: before[i].Path, was: true})
			i++
		case i == len(before) || now[j].Path < before[i].Path:
			out = append(out, pendingFile{path: now[j].Path, is: true, file: now[j]})
			j++
		default:
			if now[j].Blob == "" {
				large = append(large, now[j].Path)
			}
			if before[i].Blob != now[j].Blob {
				out = append(out, pendingFile{path: now[j].Path, was: true, is: true, file: now[j]})
			}
			i++
			j++
		}
	}
	return d.withoutClean(ctx, out, large)
}

// withoutClean takes those of large out of pending that are as entered last.
func (d *desk) withoutClean(ctx context.Context, pending []pendingFile, large []string) ([]pendingFile, error) {
	if len(large) == 0 {
		return pending, nil
	}
	dirty, err := d.repo.Dirty(ctx, large)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return slices.DeleteFunc(pending, func(p pendingFile) bool {
		return slices.Contains(large, p.path) && !slices.Contains(dirty, p.path)
	}), nil
}

// asChange is a pending file as a change: the bytes as entered last, and as
// on disk. Of a picture and the like the bytes do not matter to any rule, and
// may be many: they are not read.
func (d *desk) asChange(ctx context.Context, p pendingFile) (fileChange, error) {
	c := fileChange{path: p.path}
	if !p.text() {
		if p.was {
			c.old = []byte{}
		}
		if p.is {
			c.new = []byte{}
		}
		return c, nil
	}
	var err error
	if p.was {
		if c.old, err = d.atHead(ctx, p.path); err != nil {
			return c, err
		}
	}
	if p.is {
		c.new, err = d.read(p.path)
	}
	return c, err
}
