package gitrepo

import (
	"context"
	"encoding/hex"
	"fmt"

	"blotter/ledger"
)

// TreeID names the content of the ledger in a commit: the id of the ledger's
// own tree; "" when the commit has no ledger.
func (r *Repo) TreeID(ctx context.Context, id string) (string, error) {
	raw, err := r.ledgerTree(ctx, id)
	if err != nil {
		return "", fmt.Errorf("tree of %s: %w", id, err)
	}
	return hex.EncodeToString([]byte(raw)), nil
}

// BlobAt is the id of the plain file at path, relative to the ledger, in a
// commit; "" when it has none.
func (r *Repo) BlobAt(ctx context.Context, id, path string) (ledger.BlobID, error) {
	raw, err := r.ledgerTree(ctx, id)
	if err != nil || raw == "" {
		return "", err
	}
	e, ok, err := treeReader{r: r, ctx: ctx}.descend(raw, path)
	if err != nil {
		return "", fmt.Errorf("look up %s in %s: %w", path, id, err)
	}
	if !ok || !e.isFile() || e.mode == modeLink {
		return "", nil
	}
	return ledger.BlobID(e.hex()), nil
}

// BlobsAt is BlobAt for many paths of one commit, which share the folders
// they lie in. It is for one goroutine.
func (r *Repo) BlobsAt(ctx context.Context, id string) func(path string) (ledger.BlobID, error) {
	root, opened := "", false
	cached := newTreeCache(treeReader{r: r, ctx: ctx})
	return func(path string) (ledger.BlobID, error) {
		if !opened {
			var err error
			if root, err = r.ledgerTree(ctx, id); err != nil {
				return "", err
			}
			opened = true
		}
		if root == "" {
			return "", nil
		}
		e, ok, err := cached.descend(root, path)
		if err != nil {
			return "", fmt.Errorf("look up %s in %s: %w", path, id, err)
		}
		if !ok || !e.isFile() || e.mode == modeLink {
			return "", nil
		}
		return ledger.BlobID(e.hex()), nil
	}
}
