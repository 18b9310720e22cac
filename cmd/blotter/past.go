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

	museum *ledger.Museum // of the present
	zone   *time.Location // of the present
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
	p := &past{ctx: ctx, id: id, src: src, files: make(map[string]ledger.File, len(list)), museum: d.museum, zone: d.zone}
	if d.past != nil {
		p.museum, p.zone = d.past.museum, d.past.zone
	}
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
	d.all, d.names, d.named, d.worked, d.files = nil, nil, nil, nil, nil
	// Days are those of the zone that the museum had then, so that a paper of an
	// old revision has the same bytes now as it had then.
	d.zone = time.UTC
	if zone, err := time.LoadLocation(museum.Timezone.Text); err == nil {
		d.zone = zone
	}
	return nil
}

// turnBack turns the desk to the present again.
func (d *desk) turnBack() {
	if d.past != nil {
		d.museum, d.zone = d.past.museum, d.past.zone
	}
	d.past, d.all, d.names, d.named, d.worked, d.files = nil, nil, nil, nil, nil, nil
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
