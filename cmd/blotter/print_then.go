package main

import (
	"context"
	"errors"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

// stateThen looks up what stood in the ledger at a revision that papers were
// printed from.
type stateThen func(path string) (ledger.BlobID, error)

// stateOf is the state of a revision, found once a run; nil when the ledger
// does not have that revision any more, or the printing did not say one.
func (d *desk) stateOf(ctx context.Context, revision string) (stateThen, error) {
	if d.repo == nil || revision == "" {
		return nil, nil
	}
	if s, ok := d.states[revision]; ok {
		return s, nil
	}
	var s stateThen
	id, err := d.repo.Resolve(ctx, revision)
	switch {
	case errors.Is(err, gitrepo.ErrNoRevision):
	case err != nil:
		return nil, stuck("%v", err)
	default:
		s = d.repo.BlobsAt(ctx, id)
	}
	if d.states == nil {
		d.states = map[string]stateThen{}
	}
	d.states[revision] = s
	return s, nil
}

// blobThen is the version of a record at a revision; "" when there was none,
// or nobody knows.
func (d *desk) blobThen(ctx context.Context, revision, path string) (ledger.BlobID, error) {
	s, err := d.stateOf(ctx, revision)
	if s == nil || err != nil {
		return "", err
	}
	blob, err := s(path)
	if err != nil {
		return "", stuck("%v", err)
	}
	return blob, nil
}

// recordThen is a record as a version has it; nil for none.
func (d *desk) recordThen(ctx context.Context, path string, blob ledger.BlobID) (*ledger.Record, error) {
	if blob == "" {
		return nil, nil
	}
	old, err := d.repo.Blob(ctx, blob)
	if err != nil {
		return nil, stuck("%v", err)
	}
	r, _ := ledger.Decode(path, old)
	return r, nil
}
