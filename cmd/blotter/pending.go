package main

import (
	"context"
	"io"
	"os"

	"blotter/ledger"
)

// pendingFile is a file of the work tree that differs from the ledger as
// entered last.
type pendingFile struct {
	path string
	was  bool // it is in the last revision
	is   bool // it is on disk
	link bool
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
	i, j := 0, 0
	for i < len(before) || j < len(now) {
		switch {
		case j == len(now) || i < len(before) && before[i].Path < now[j].Path:
			out = append(out, pendingFile{path: before[i].Path, was: true})
			i++
		case i == len(before) || now[j].Path < before[i].Path:
			out = append(out, pendingFile{path: now[j].Path, is: true, link: now[j].Link})
			j++
		default:
			if before[i].Blob != now[j].Blob {
				out = append(out, pendingFile{path: now[j].Path, was: true, is: true, link: now[j].Link})
			}
			i++
			j++
		}
	}
	return out, nil
}

// asChange is a pending file as a change: the bytes as entered last, and as
// on disk. Of a file that is larger than any record only the beginning is
// read, enough to see that; of pictures and pages the old bytes do not matter.
func (d *desk) asChange(ctx context.Context, p pendingFile) (fileChange, error) {
	c := fileChange{path: p.path}
	_, known := ledger.KindOf(p.path)
	switch {
	case p.was && known:
		var err error
		if c.old, err = d.atHead(ctx, p.path); err != nil {
			return c, err
		}
	case p.was:
		c.old = []byte{}
	}
	if !p.is {
		return c, nil
	}
	f, err := os.Open(d.file(p.path))
	if err != nil {
		return c, stuck("%v", err)
	}
	defer f.Close()
	if c.new, err = io.ReadAll(io.LimitReader(f, ledger.MaxFile+1)); err != nil {
		return c, stuck("read %s: %v", p.path, err)
	}
	if c.new == nil {
		c.new = []byte{}
	}
	return c, nil
}
