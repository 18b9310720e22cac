package gitrepo

import (
	"context"
	"fmt"

	"blotter/ledger"
)

// treeSource is the ledger as one commit or tree has it.
type treeSource struct {
	r    *Repo
	tree string // raw id; "" for an empty ledger
}

// At is the ledger as the commit (or tree) of that id has it. A commit
// without the ledger's folder is an empty ledger. See Resolve for ids.
func (r *Repo) At(ctx context.Context, id string) (ledger.Source, error) {
	tree, err := r.ledgerTree(ctx, id)
	if err != nil {
		return nil, err
	}
	return treeSource{r, tree}, nil
}

// Stored reads any version of a file by its blob id alone, whatever commit has
// it; it lists nothing.
func (r *Repo) Stored() ledger.Source { return treeSource{r: r} }

func (s treeSource) Files(ctx context.Context) ([]ledger.File, error) {
	var fs []ledger.File
	err := treeReader{r: s.r, ctx: ctx}.walk(s.tree, "", func(path string, e entry) error {
		fs = append(fs, ledger.File{Path: path, Blob: blobOf(e), Size: -1, Link: e.mode == modeLink})
		return nil
	})
	return fs, err
}

func (s treeSource) Read(ctx context.Context, f ledger.File) ([]byte, error) {
	return s.r.readBlob(ctx, f)
}

// readBlob reads the content of a file from the object store.
func (r *Repo) readBlob(ctx context.Context, f ledger.File) ([]byte, error) {
	if f.Link {
		return nil, fmt.Errorf("read %s: a symbolic link is never followed", f.Path)
	}
	kind, body, err := r.pool.read(ctx, string(f.Blob), ledger.LimitOf(f.Path))
	if err == nil && kind != "blob" {
		err = fmt.Errorf("object %s is a %s", f.Blob, kind)
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", f.Path, err)
	}
	return body, nil
}

// Blob reads the content of that id; for older versions of a file, known from
// the log.
func (r *Repo) Blob(ctx context.Context, id ledger.BlobID) ([]byte, error) {
	return r.readBlob(ctx, ledger.File{Path: string(id), Blob: id})
}
