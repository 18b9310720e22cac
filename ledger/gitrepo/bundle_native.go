package gitrepo

import (
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/plumbing/storer"
)

func (r *Repo) bundleRefsNative() ([]BundleRef, error) {
	store := r.storage()
	defer store.ObjectStorage.Close()
	it, err := store.IterReferences()
	if err != nil {
		return nil, fmt.Errorf("list refs: %v", err)
	}
	var refs []BundleRef
	err = it.ForEach(func(ref *plumbing.Reference) error {
		name := ref.Name()
		if !slices.ContainsFunc(backupRefs, func(p string) bool { return strings.HasPrefix(string(name), p) }) {
			return nil
		}
		at, err := storer.ResolveReference(store, name)
		if err != nil {
			return err
		}
		refs = append(refs, BundleRef{string(name), at.Hash().String()})
		return nil
	})
	if err != nil {
		return nil, fmt.Errorf("list refs: %v", err)
	}
	return refs, nil
}

// packing gathers everything that some refs lead to into a pack.
type packing struct {
	r    *Repo
	ctx  context.Context
	p    *Pack
	last map[string]string // folder -> the raw id of its tree met last
}

// writeBundleNative writes the objects, parents first, into a pack and that
// into the bundle.
func (r *Repo) writeBundleNative(ctx context.Context, w io.Writer) error {
	refs, err := r.BundleRefs(ctx)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(r.StateDir(), 0o777); err != nil {
		return fmt.Errorf("write bundle: %w", err)
	}
	p, err := newPack(r.StateDir())
	if err != nil {
		return err
	}
	defer p.Close()
	k := packing{r, ctx, p, map[string]string{}}
	if err := k.all(refs); err != nil {
		return fmt.Errorf("write bundle: %w", err)
	}
	if err := p.finish(); err != nil {
		return err
	}
	head := "# v2 git bundle\n"
	for _, ref := range refs {
		head += ref.ID + " " + ref.Name + "\n"
	}
	if _, err := io.WriteString(w, head+"\n"); err != nil {
		return err
	}
	_, err = io.Copy(w, io.NewSectionReader(p.f, 0, p.offset+int64(len(objectID{}))))
	return err
}

func (k packing) all(refs []BundleRef) error {
	var tips []string
	for _, ref := range refs {
		commit, err := k.tag(ref.ID)
		if err != nil {
			return err
		}
		if commit != "" {
			tips = append(tips, commit)
		}
	}
	order, err := k.r.topoOrder(k.ctx, tips, nil)
	if err != nil {
		return err
	}
	for _, n := range slices.Backward(order) {
		if err := k.ctx.Err(); err != nil {
			return err
		}
		tree, err := rawID(headerValue(n.body, "tree"))
		if err != nil {
			return err
		}
		if err := k.tree(tree, ""); err != nil {
			return err
		}
		if _, err := k.p.put(packCommit, n.body, ""); err != nil {
			return err
		}
	}
	return nil
}

// tag takes in a tag and what it names; a commit is only returned.
func (k packing) tag(id string) (commit string, err error) {
	for range 8 {
		kind, body, err := k.r.pool.read(k.ctx, id, 0)
		if err != nil {
			return "", fmt.Errorf("read %s: %w", id, err)
		}
		switch kind {
		case "commit":
			return id, nil
		case "tree":
			raw, err := rawID(id)
			if err != nil {
				return "", err
			}
			return "", k.tree(raw, "")
		case "blob":
			_, err := k.p.put(packBlob, body, "")
			return "", err
		}
		if _, err := k.p.put(packTag, body, ""); err != nil {
			return "", err
		}
		id = headerValue(body, "object")
	}
	return "", errors.New("too many tags of tags")
}

// tree takes in a tree and all below it, unless the pack has it: then it has
// what is below it too.
func (k packing) tree(raw, path string) error {
	if len(raw) != len(objectID{}) {
		return errors.New("a tree has no id")
	}
	if k.p.Has(objectID([]byte(raw))) {
		k.last[path] = raw
		return nil
	}
	body, err := treeReader{r: k.r, ctx: k.ctx}.body(raw)
	if err != nil {
		return err
	}
	es, err := parseTree(body, len(objectID{}))
	if err != nil {
		return err
	}
	for _, e := range es {
		switch {
		case e.isTree():
			err = k.tree(e.id, path+e.name+"/")
		case e.isFile() && !k.p.Has(objectID([]byte(e.id))):
			err = k.blob(e.id)
		}
		if err != nil {
			return err
		}
	}
	_, err = k.p.put(packTree, []byte(body), k.last[path])
	k.last[path] = raw
	return err
}

func (k packing) blob(raw string) error {
	id := hex.EncodeToString([]byte(raw))
	kind, body, err := k.r.pool.read(k.ctx, id, 0)
	if err == nil && kind != "blob" {
		err = fmt.Errorf("it is a %s", kind)
	}
	if err != nil {
		return fmt.Errorf("read %s: %w", id, err)
	}
	_, err = k.p.put(packBlob, body, "")
	return err
}
