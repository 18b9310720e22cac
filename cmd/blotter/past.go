package main

import (
	"context"
	"errors"
	"maps"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
)

// past is a state of the ledger that was.
type past struct {
	ctx   context.Context
	id    string // of its revision
	src   ledger.Source
	files map[string]ledger.File
}

// turnTo turns the desk to the state that a REV names: sheets, museum, works
// and names are those of then. The works of another state are forgotten.
func (d *desk) turnTo(ctx context.Context, rev string) error {
	id, err := d.revision(ctx, rev)
	if err != nil {
		return err
	}
	src, err := d.repo.At(ctx, id)
	if err != nil {
		return stuck("%v", err)
	}
	list, err := src.Files(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	p := &past{ctx: ctx, id: id, src: src, files: make(map[string]ledger.File, len(list))}
	for _, f := range list {
		p.files[f.Path] = f
	}
	text, err := p.read(ledger.MuseumFile)
	if err != nil {
		return err
	}
	museum, _ := ledger.DecodeMuseum(ledger.MuseumFile, text)
	if v := museum.Format.Text; v != ledger.FormatVersion {
		return stuck("%s of revision %s says format %q; this program reads format %s", ledger.MuseumFile, id[:7], v, ledger.FormatVersion)
	}
	d.past, d.museum = p, museum
	d.all, d.names, d.named, d.worked = nil, nil, nil, nil
	if zone, err := time.LoadLocation(museum.Timezone.Text); err == nil {
		d.zone = zone
	}
	return nil
}

// read gives the bytes of a file; nil when there is none.
func (p *past) read(path string) ([]byte, error) {
	f, ok := p.files[path]
	switch {
	case !ok:
		return nil, nil
	case f.Link:
		return nil, linkInTheWay(path)
	}
	b, err := p.src.Read(p.ctx, f)
	switch {
	case errors.Is(err, ledger.ErrLarge):
		return nil, stuck("%s is larger than %d bytes, the most that a file of the ledger may have", ledger.ShownPath(path), ledger.MaxFile)
	case err != nil:
		return nil, stuck("%v", err)
	case b == nil:
		return []byte{}, nil
	}
	return b, nil
}

// below are the paths of the files of a folder that end in .yaml, in order.
func (p *past) below(folder string) []string {
	return slices.DeleteFunc(slices.Sorted(maps.Keys(p.files)), func(path string) bool {
		return !strings.HasPrefix(path, folder+"/") || !strings.HasSuffix(path, ".yaml") || p.files[path].Link
	})
}
