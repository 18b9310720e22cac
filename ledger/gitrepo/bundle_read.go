package gitrepo

import (
	"bufio"
	"cmp"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// object reads one object as it is written: its body, or of a difference the
// difference.
func (b *Bundle) object(row *bundleRow) (base int64, body []byte, err error) {
	in := bufio.NewReaderSize(io.NewSectionReader(b.in, row.at, b.packEnd()-row.at), 4096)
	kind, size, err := readPackHead(in)
	if err != nil {
		return 0, nil, err
	}
	if size > maxObject {
		return 0, nil, errTooLarge
	}
	switch kind {
	case packOfsDelta:
		if _, err = readBack(in); err != nil {
			return 0, nil, err
		}
	case packRefDelta:
		id := make([]byte, b.width)
		if _, err = io.ReadFull(in, id); err != nil {
			return 0, nil, err
		}
		i, ok := b.places[idFrom(id)]
		if ok {
			base = b.rows[i].at
		}
	}
	body, err = b.unpack(in, size)
	return cmp.Or(row.base, base), body, err
}

// unpack unpacks size bytes, after which the object must end.
func (b *Bundle) unpack(in io.Reader, size int) ([]byte, error) {
	if err := b.again.next(in); err != nil {
		return nil, err
	}
	body := make([]byte, size)
	if _, err := io.ReadFull(b.again.z, body); err != nil {
		return nil, err
	}
	return body, b.again.ended()
}

// body is the body of an object, differences carried out.
func (b *Bundle) body(row *bundleRow) ([]byte, error) {
	if body, ok := b.trees.get(string(row.id[:b.width])); ok {
		return []byte(body), nil
	}
	var deltas [][]byte
	at := row
	for {
		base, body, err := b.object(at)
		if err != nil {
			return nil, err
		}
		if !at.delta {
			for _, d := range slices.Backward(deltas) {
				if body, err = undelta(body, d); err != nil {
					return nil, err
				}
			}
			if row.kind == packTree {
				b.trees.put(string(row.id[:b.width]), string(body))
			}
			return body, nil
		}
		if deltas = append(deltas, body); len(deltas) > deepChain {
			return nil, errors.New("too many differences lie upon each other")
		}
		i, ok := slices.BinarySearchFunc(b.rows, base, func(r bundleRow, at int64) int { return cmp.Compare(r.at, at) })
		if !ok {
			return nil, errors.New("a difference has no base")
		}
		at = &b.rows[i]
	}
}

// read makes a verified Bundle a store of objects.
func (b *Bundle) read(id string, limit int64) (string, []byte, error) {
	raw, err := hex.DecodeString(id)
	if err != nil {
		return "", nil, errNoObject
	}
	i, ok := b.places[idFrom(raw)]
	if !ok {
		return "", nil, errNoObject
	}
	body, err := b.body(&b.rows[i])
	if err == nil && limit > 0 && int64(len(body)) > limit {
		err = errTooLarge
	}
	return packKinds[b.rows[i].kind], body, err
}

func (b *Bundle) close() {}

// repo is a repository without a place, to read the bundle's objects with.
func (b *Bundle) repo() *Repo {
	r := &Repo{width: b.width}
	r.pool.open = func() (objects, error) { return b, nil }
	return r
}

// InBundle is what a bundle's last revision holds.
type InBundle struct {
	Last    history.Commit // the revision that HEAD leads to, without Touches
	Folder  string         // where the ledger lies in it: "" or a path that ends in a slash
	Records int            // files of specimens
}

// Ledger looks into a verified bundle. The error is ErrNoLedger.
func (b *Bundle) Ledger(ctx context.Context) (in InBundle, err error) {
	tip := b.Head()
	if branch := b.Branch(); tip == "" && branch != "" {
		i := slices.IndexFunc(b.Refs, func(r BundleRef) bool { return r.Name == "refs/heads/"+branch })
		tip = b.Refs[i].ID
	}
	kind, body, err := b.read(tip, 0)
	if err != nil || kind != "commit" {
		return in, fmt.Errorf("read bundle: %w: its HEAD leads to no revision", ErrNoLedger)
	}
	last, tree, err := parseCommit(tip, body)
	if err != nil {
		return in, fmt.Errorf("read bundle: %w", err)
	}
	in.Last = last
	raw, err := rawID(tree)
	if err != nil {
		return in, fmt.Errorf("read bundle: %w", err)
	}
	var paths []string
	found := false
	err = treeReader{r: b.repo(), ctx: ctx}.walk(raw, "", func(p string, e entry) error {
		if path.Base(p) == ledger.MuseumFile {
			if dir := strings.TrimSuffix(p, ledger.MuseumFile); !found || strings.Count(dir, "/") < strings.Count(in.Folder, "/") {
				found, in.Folder = true, dir
			}
		}
		if e.mode != modeLink && strings.HasSuffix(p, ".yaml") {
			paths = append(paths, p)
		}
		return ctx.Err()
	})
	if err != nil {
		return in, fmt.Errorf("read bundle: %w", err)
	}
	if !found {
		return in, fmt.Errorf("read bundle: %w: its last revision has no %s", ErrNoLedger, ledger.MuseumFile)
	}
	in.Records = recordsBelow(paths, in.Folder)
	return in, nil
}

// recordsBelow counts the paths that are records of a ledger in folder.
func recordsBelow(paths []string, folder string) (n int) {
	for _, p := range paths {
		if rel, ok := strings.CutPrefix(p, folder); ok {
			if _, ok := ledger.NumberOfPath(rel); ok {
				n++
			}
		}
	}
	return n
}
