package gitrepo

import (
	"bytes"
	"cmp"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/disk"
)

// Fault is one thing amiss with what a repository keeps.
type Fault struct {
	File string // the file at fault; "" when an object lies nowhere
	ID   string // the object at fault; "" when it is the file as a whole
	What string // in words
}

// Wholeness is what a walk over all objects of a repository found.
type Wholeness struct {
	Objects int     // looked at
	Anew    int     // of these unpacked and hashed in this run; the others lie in packs of which every byte is as it was then
	Partial bool    // objects were left out on purpose when this copy was made
	Faults  []Fault // in order of file
}

// Whole reads all that the repository keeps, works out every object's id
// again, and holds that all which refs and objects lead to is there. Packs are
// always read to their last byte; those whose checksum the cache knows from an
// earlier run are not unpacked again. It reads git's files itself, so it
// is the same with and without the git program. An error means that it could
// not look.
func (r *Repo) Whole(ctx context.Context, cache *disk.Cache, progress func(done, total int)) (Wholeness, error) {
	w := &wholing{r: r, ctx: ctx, cache: cache, progress: progress, lacking: map[anyID]struct{}{}}
	dirs, err := r.objectDirs()
	if err != nil {
		return Wholeness{}, fmt.Errorf("look through the objects: %w", err)
	}
	for _, step := range []func([]string) error{w.list, w.packs, w.looseOnes, w.refs, w.lacks} {
		if err := errors.Join(step(dirs), ctx.Err()); err != nil {
			return Wholeness{}, fmt.Errorf("look through the objects: %w", err)
		}
	}
	slices.SortStableFunc(w.found.Faults, func(a, b Fault) int {
		return cmp.Or(strings.Compare(a.File, b.File), strings.Compare(a.ID, b.ID))
	})
	return w.found, nil
}

// wholing is one walk over all objects.
type wholing struct {
	r        *Repo
	ctx      context.Context
	cache    *disk.Cache
	progress func(done, total int)
	found    Wholeness
	total    int // objects that there are to look at, by the indexes

	files   []packFiles
	loose   map[anyID]string   // file of each loose object
	lacking map[anyID]struct{} // what objects lead to outside their pack, then what of that is nowhere
	tips    []anyID            // where refs lead
}

func (w *wholing) fault(file, id, format string, args ...any) {
	if rel, err := filepath.Rel(w.r.home(), file); err == nil && file != "" && !strings.HasPrefix(rel, "..") {
		file = filepath.ToSlash(rel)
	}
	w.found.Faults = append(w.found.Faults, Fault{File: file, ID: id, What: fmt.Sprintf(format, args...)})
}

func (w *wholing) looked(n int) {
	w.found.Objects += n
	if w.progress != nil {
		w.progress(min(w.found.Objects, w.total), w.total)
	}
}

// objectDirs are the folders of objects: the repository's own, and those that
// it borrows from.
func (r *Repo) objectDirs() ([]string, error) {
	dirs := []string{filepath.Join(r.common, "objects")}
	for i := 0; i < len(dirs) && len(dirs) < 32; i++ {
		text, err := os.ReadFile(filepath.Join(dirs[i], "info", "alternates"))
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, err
		}
		for line := range bytes.Lines(text) {
			d := strings.TrimRight(string(line), "\r\n")
			if d == "" || d[0] == '#' {
				continue
			}
			if !filepath.IsAbs(d) {
				d = filepath.Join(dirs[i], filepath.FromSlash(d))
			}
			if !slices.Contains(dirs, filepath.Clean(d)) {
				dirs = append(dirs, filepath.Clean(d))
			}
		}
	}
	return dirs, nil
}

// list finds packs and loose objects.
func (w *wholing) list(dirs []string) error {
	w.loose = map[anyID]string{}
	for _, dir := range dirs {
		packs, err := filepath.Glob(filepath.Join(dir, "pack", "*.pack"))
		if err != nil {
			return err
		}
		for _, p := range packs {
			f := packFiles{pack: p, index: strings.TrimSuffix(p, ".pack") + ".idx"}
			if _, err := os.Stat(strings.TrimSuffix(p, ".pack") + ".promisor"); err == nil {
				w.found.Partial = true
			}
			if err := f.readIndex(w.r.width); err != nil {
				w.fault(f.index, "", "%v", err)
			}
			w.total += f.count()
			w.files = append(w.files, f)
		}
		if err := w.listLoose(dir); err != nil {
			return err
		}
	}
	w.total += len(w.loose)
	return nil
}

func (w *wholing) listLoose(dir string) error {
	tops, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		w.fault(dir, "", "the folder of objects is not there")
		return nil
	}
	if err != nil {
		return err
	}
	for _, top := range tops {
		if len(top.Name()) != 2 || !fullID().MatchString(top.Name()) {
			continue
		}
		list, err := os.ReadDir(filepath.Join(dir, top.Name()))
		if err != nil {
			return err
		}
		for _, e := range list {
			raw, err := hex.DecodeString(top.Name() + e.Name())
			if err != nil || len(raw) != w.r.width {
				continue // what a broken-off run left
			}
			if id := idFrom(raw); w.loose[id] == "" {
				w.loose[id] = filepath.Join(dir, top.Name(), e.Name())
			}
		}
	}
	return nil
}

// refs holds that every ref leads to an object that is there.
func (w *wholing) refs([]string) error {
	refs, err := w.r.BundleRefs(w.ctx)
	if errors.Is(err, ErrNoCommits) {
		return nil
	}
	if err != nil {
		w.fault("", "", "where branches and tags lead cannot be read: %v", err)
		return nil
	}
	for _, ref := range refs {
		raw, err := hex.DecodeString(ref.ID)
		if err != nil {
			return err
		}
		id := idFrom(raw)
		w.tips = append(w.tips, id)
		if !w.here(id) {
			w.lacking[id] = struct{}{}
		}
	}
	return nil
}

// here reports whether an object lies anywhere.
func (w *wholing) here(id anyID) bool {
	if _, ok := w.loose[id]; ok {
		return true
	}
	return slices.ContainsFunc(w.files, func(f packFiles) bool { return f.has(id[:w.r.width]) })
}

// lacks looks whether what is lacking is needed: git may have cleared away
// what only left-over objects lead to.
func (w *wholing) lacks([]string) error {
	for id := range w.lacking {
		if w.here(id) {
			delete(w.lacking, id)
		}
	}
	if len(w.lacking) == 0 || w.found.Partial {
		return nil
	}
	cut, err := w.r.Missing()
	if err != nil {
		return err
	}
	seen := map[anyID]bool{}
	stack := slices.Clone(w.tips)
	for len(stack) > 0 {
		id := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if seen[id] {
			continue
		}
		seen[id] = true
		name := hex.EncodeToString(id[:w.r.width])
		if _, lost := w.lacking[id]; lost {
			w.fault("", name, "is nowhere")
			continue
		}
		below, err := w.below(name, slices.Contains(cut, name))
		if err != nil {
			if w.ctx.Err() != nil {
				return w.ctx.Err()
			}
			continue // damaged: told of already
		}
		stack = append(stack, below...)
	}
	return nil
}

// below is what an object leads to; a commit at which the history was cut
// leads to no parents. Blobs are not read.
func (w *wholing) below(name string, cut bool) ([]anyID, error) {
	kind, body, err := w.r.pool.read(w.ctx, name, 0)
	if err != nil || kind == "blob" {
		return nil, err
	}
	if cut {
		body = bytes.ReplaceAll(body, []byte("\nparent "), []byte("\nx-parent "))
	}
	v := newVerifying(w.ctx, nil, 0, w.r.width)
	if _, err := v.took(kindOf(kind), body); err != nil {
		return nil, err
	}
	var out []anyID
	for id := range v.wanted {
		out = append(out, id)
	}
	return out, nil
}

func kindOf(word string) uint8 {
	for k, w := range packKinds {
		if w == word {
			return uint8(k)
		}
	}
	return 0
}
