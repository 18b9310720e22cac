// Package ledgertest has what the tests of several packages need: a Source
// made of a map. Nothing but tests imports it.
package ledgertest

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"slices"

	"blotter/ledger"
)

// MapSource is a Source that holds the given files, path to content. It keeps
// the map; a test may change it between two readings.
func MapSource(files map[string]string) ledger.Source { return mapSource(files) }

type mapSource map[string]string

func (m mapSource) Files(ctx context.Context) ([]ledger.File, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	var out []ledger.File
	for _, p := range slices.Sorted(maps.Keys(m)) {
		out = append(out, ledger.File{Path: p, Blob: ledger.BlobOf([]byte(m[p])), Size: int64(len(m[p]))})
	}
	return out, nil
}

func (m mapSource) Read(ctx context.Context, f ledger.File) ([]byte, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s, ok := m[f.Path]
	switch {
	case !ok:
		return nil, fmt.Errorf("read %s: %w", f.Path, fs.ErrNotExist)
	case len(s) > ledger.MaxFile:
		return nil, fmt.Errorf("read %s: %w", f.Path, ledger.ErrLarge)
	}
	return []byte(s), nil
}
