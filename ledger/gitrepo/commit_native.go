package gitrepo

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/plumbing/filemode"
	"github.com/go-git/go-git/v5/plumbing/format/index"
	"github.com/go-git/go-git/v5/storage/filesystem"

	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/internal/fault"
)

// commitNative is Commit through go-git. The new index is written beside the
// old one (index.lock, as git does) before the branch moves, and put in its
// place after.
func (r *Repo) commitNative(ctx context.Context, req CommitRequest, changes []pendingFile) (string, error) {
	store := r.storage()
	defer store.ObjectStorage.Close()
	idx, err := r.readIndex()
	if err != nil {
		return "", fmt.Errorf("commit: %w", err)
	}
	parent, err := r.Head(ctx)
	if err != nil && !errors.Is(err, ErrNoCommits) {
		return "", err
	}
	root, err := r.rootTree(ctx, parent)
	if err != nil {
		return "", err
	}
	var ups []treeUpdate
	for _, f := range changes {
		up := treeUpdate{path: r.prefix + f.path, mode: f.now.mode}
		if f.now != (rawSide{}) {
			if up.id, err = writeObject(store, plumbing.BlobObject, f.data); err != nil {
				return "", fmt.Errorf("commit %s: %w", f.path, err)
			}
		}
		ups = append(ups, up)
	}
	w := treeWriter{storeTrees{treeReader{r: r, ctx: ctx}, store}}
	tree, err := w.update(root, ups)
	if err == nil && tree == "" {
		tree, err = writeObject(store, plumbing.TreeObject, nil)
	}
	if err != nil {
		return "", fmt.Errorf("commit: %w", err)
	}
	var parents []string
	if parent != "" {
		parents = []string{parent}
	}
	raw, err := writeObject(store, plumbing.CommitObject, commitBody(tree, parents, req.Author, req.Committer, req.Message))
	if err != nil {
		return "", fmt.Errorf("commit: %w", err)
	}
	id := entry{id: raw}.hex()
	r.enterInIndex(idx, changes, ups)
	finish, err := r.prepareIndex(idx)
	if err != nil {
		return "", fmt.Errorf("commit: %w", err)
	}
	r.keep() // what the branch is to lead to
	r.watch()
	if err := r.moveHead(parent, id); err != nil {
		os.Remove(r.index + ".lock")
		return "", fmt.Errorf("commit: %w", err)
	}
	r.recordMove(parent, id, req)
	return id, finish()
}

// writeObject writes one object and returns its raw id.
func writeObject(store *filesystem.Storage, kind plumbing.ObjectType, body []byte) (string, error) {
	o := &plumbing.MemoryObject{}
	o.SetType(kind)
	o.Write(body)
	if h := o.Hash(); store.HasEncodedObject(h) == nil {
		return string(h[:]), nil
	}
	if _, err := fault.Step("object", kind.String()); err != nil {
		return "", err
	}
	h, err := store.SetEncodedObject(o)
	if err != nil {
		return "", fmt.Errorf("write object: %v", err)
	}
	return string(h[:]), nil
}

// commitBody is the commit object's content, as git writes it.
func commitBody(tree string, parents []string, author, committer history.Person, message string) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "tree %s\n", entry{id: tree}.hex())
	for _, p := range parents {
		fmt.Fprintf(&b, "parent %s\n", p)
	}
	fmt.Fprintf(&b, "author %s\ncommitter %s\n\n%s", personLine(author), personLine(committer), message)
	return b.Bytes()
}

func personLine(p history.Person) string {
	return fmt.Sprintf("%s <%s> %d %s", p.Name, p.Email, p.When.Unix(), zoneText(p.When))
}

// enterInIndex sets or removes the entries of the committed files.
func (r *Repo) enterInIndex(idx *index.Index, changes []pendingFile, ups []treeUpdate) {
	at := make(map[string]int, len(ups))
	for i, up := range ups {
		at[up.path] = i
	}
	idx.Entries = slices.DeleteFunc(idx.Entries, func(e *index.Entry) bool {
		_, ok := at[e.Name]
		return ok
	})
	for i, f := range changes {
		if f.now == (rawSide{}) {
			continue
		}
		e := &index.Entry{Name: ups[i].path, Mode: filemode.Regular, Size: uint32(len(f.data))}
		if f.now.mode == modeExec {
			e.Mode = filemode.Executable
		}
		copy(e.Hash[:], ups[i].id)
		if st, err := os.Lstat(filepath.Join(r.Root(), filepath.FromSlash(f.path))); err == nil {
			e.ModifiedAt, e.CreatedAt = st.ModTime(), st.ModTime()
		}
		idx.Entries = append(idx.Entries, e)
	}
	slices.SortFunc(idx.Entries, func(a, b *index.Entry) int { return cmp.Compare(a.Name, b.Name) })
}

// prepareIndex writes idx to index.lock and returns what puts it in place.
func (r *Repo) prepareIndex(idx *index.Index) (finish func() error, err error) {
	lock := r.index + ".lock"
	if idx.Version < 2 || idx.Version == 2 && slices.ContainsFunc(idx.Entries, func(e *index.Entry) bool { return e.IntentToAdd || e.SkipWorktree }) {
		idx.Version = 3
	}
	if _, err := fault.Step("create", "index"); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(lock, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		if errors.Is(err, fs.ErrExist) {
			return nil, ErrLocked
		}
		return nil, fmt.Errorf("write index: %w", err)
	}
	var b bytes.Buffer
	if err = index.NewEncoder(&b).Encode(idx); err == nil {
		_, err = f.Write(b.Bytes())
	}
	err = cmp.Or(err, f.Sync(), f.Close())
	if err != nil {
		os.Remove(lock)
		return nil, fmt.Errorf("write index: %v", err)
	}
	return func() error {
		if err := os.Rename(lock, r.index); err != nil {
			return fmt.Errorf("write index: %w", err)
		}
		return nil
	}, nil
}

// moveHead makes the branch of HEAD (or a detached HEAD) lead from commit old
// to id, if it still is at old.
func (r *Repo) moveHead(old, id string) error {
	branch, err := r.Branch()
	if err != nil {
		return err
	}
	name := plumbing.HEAD
	if branch != "" {
		name = plumbing.NewBranchReferenceName(branch)
	}
	return r.moveRef(name, old, id)
}

// moveRef is compare-and-swap on one ref; old "" means that it must be new.
// Whoever reads it, even after a power cut, finds the old commit or the new
// one: go-git would write into the file that is there.
func (r *Repo) moveRef(name plumbing.ReferenceName, old, id string) error {
	if _, err := fault.Step("ref", name.String()); err != nil {
		return err
	}
	dir := r.common
	if name == plumbing.HEAD {
		dir = r.gitDir
	}
	file := filepath.Join(dir, filepath.FromSlash(name.String()))
	if _, err := os.Lstat(file + ".lock"); err == nil {
		return fmt.Errorf("%w: %s", ErrLocked, name)
	}
	now := r.packedRef(name.String())
	if b, err := os.ReadFile(file); err == nil {
		now = strings.TrimSpace(string(b))
	} else if !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("read %s: %w", name, err)
	}
	if now != old {
		return fmt.Errorf("%w: %s", ErrMoved, name)
	}
	return writeRef(dir, name.String(), id)
}

// writeRef makes a ref lead to a commit or a tag. Until then its bytes lie
// outside refs/: a file that a kill left there would be read as a ref.
func writeRef(dir, name, id string) error {
	t, err := disk.OpenTree(dir)
	if err != nil {
		return fmt.Errorf("write %s: %w", name, err)
	}
	defer t.Close()
	f, err := t.Begin(name)
	if err != nil {
		return err
	}
	defer f.Discard()
	if _, err := io.WriteString(f, id+"\n"); err != nil {
		return err
	}
	return f.Commit()
}

// recordMove adds the commit to git's reflogs, which go-git does not keep.
// They are a convenience: an error is no error of the commit.
func (r *Repo) recordMove(old, id string, req CommitRequest) {
	if old == "" {
		old = strings.Repeat("0", 2*r.width)
	}
	subject, _, _ := strings.Cut(req.Message, "\n")
	line := fmt.Sprintf("%s %s %s\tcommit: %s\n", old, id, personLine(req.Committer), subject)
	files := []string{filepath.Join(r.gitDir, "logs", "HEAD")}
	if branch, err := r.Branch(); err == nil && branch != "" {
		files = append(files, filepath.Join(r.common, "logs", "refs", "heads", filepath.FromSlash(branch)))
	}
	for _, f := range files {
		if os.MkdirAll(filepath.Dir(f), 0o777) != nil {
			continue
		}
		if h, err := os.OpenFile(f, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o666); err == nil {
			h.WriteString(line)
			h.Close()
		}
	}
}
