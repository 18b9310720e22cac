package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

var (
	// ErrNothing is returned by Commit when the files are as HEAD has them.
	ErrNothing = errors.New("nothing to enter")
	// ErrBusy is returned by Commit in the middle of a merge or rebase.
	ErrBusy = errors.New("git is in the middle of something")
)

// CommitRequest is one entry in the ledger.
type CommitRequest struct {
	// Paths are the files to enter, relative to the ledger: each as it is on
	// disk now, or removed when it is not there.
	Paths     []string
	Message   string
	Author    history.Person // with the moment
	Committer history.Person // the zero value: the author
	// Says, when not nil, is where the hooks' words go, as they come.
	Says io.Writer
}

// Commit enters the files of req, and no others, as one commit on HEAD, and
// returns its id. What else is staged stays staged. With the git program its
// hooks run, and a refusal is a *ProgramError with their words; without it no
// hook runs, so the caller must have judged the files itself. When it returns
// an error nothing has been entered and the index is as it was; the files on
// disk are the caller's to put back.
func (r *Repo) Commit(ctx context.Context, req CommitRequest) (string, error) {
	if r.Bare() {
		return "", fmt.Errorf("commit: a bare repository has no files")
	}
	if doing := r.InProgress(); doing != "" {
		return "", fmt.Errorf("commit: %w: a %s", ErrBusy, doing)
	}
	if req.Committer == (history.Person{}) {
		req.Committer = req.Author
	}
	for _, p := range []*history.Person{&req.Author, &req.Committer} {
		p.Name, p.Email = cleanIdentity(p.Name), cleanIdentity(p.Email)
		if p.Name == "" || p.When.IsZero() {
			return "", fmt.Errorf("commit: %w", ErrNobody)
		}
	}
	req.Message = strings.TrimRight(req.Message, "\n") + "\n"
	slices.Sort(req.Paths)
	req.Paths = slices.Compact(req.Paths)
	changes, err := r.pending(ctx, req.Paths)
	if err != nil {
		return "", fmt.Errorf("commit: %w", err)
	}
	if len(changes) == 0 {
		return "", fmt.Errorf("commit: %w", ErrNothing)
	}
	defer r.pool.stale()
	names := make([]string, len(changes))
	for i, f := range changes {
		names[i] = r.prefix + f.path
	}
	was, err := r.Head(ctx)
	if err != nil && !errors.Is(err, ErrNoCommits) {
		return "", err
	}
	r.watch()
	note := r.announceWork(names)
	var id string
	if r.git != "" {
		id, err = r.commitProgram(ctx, req, changes, note)
	} else {
		id, err = r.commitNative(ctx, req, changes)
	}
	if err != nil {
		r.mendStopped(ctx, note, err)
		if made := r.madeAllTheSame(ctx, was, req); made != "" {
			r.keep()
			return made, nil // a note that is still there stays: MendWork puts the index right
		}
	} else if r.git != "" && r.evenIndex(ctx, changes) != nil {
		note.stays = true
	}
	r.keep() // before anybody says that it is entered, and before the notes go by which it is taken back
	r.removeNote(note)
	return id, err
}

// evenIndex makes the index hold what was just committed. git commit --only
// reads each file twice, for the commit and for the index: of a file that a
// person saved in between, the index has another version than the commit, and
// it would look like an edit for ever.
func (r *Repo) evenIndex(ctx context.Context, changes []pendingFile) error {
	ctx = context.WithoutCancel(ctx)
	r.pool.stale()
	tree, err := r.headTree(ctx)
	if err != nil {
		return err
	}
	cached := newTreeCache(treeReader{r: r, ctx: ctx})
	var other []string
	for _, f := range changes {
		e, there, err := cached.descend(tree, f.path)
		if err != nil {
			return err
		}
		if there != (f.now != rawSide{}) || there && e.hex() != f.now.id {
			other = append(other, r.prefix+f.path)
		}
	}
	return r.indexAsHead(ctx, other)
}

// madeAllTheSame is the commit that req asked for, if HEAD has moved on to it
// from was though something failed afterwards, as on a full disk, where the
// index cannot be written any more; else "".
func (r *Repo) madeAllTheSame(ctx context.Context, was string, req CommitRequest) string {
	ctx = context.WithoutCancel(ctx)
	r.pool.stale()
	head, err := r.Head(ctx)
	if err != nil || head == was {
		return ""
	}
	c, err := r.Revision(ctx, head)
	if err != nil || c.Message != req.Message || strings.Join(c.Parents, " ") != was {
		return ""
	}
	return head
}

// cleanIdentity takes out what cannot stand in a commit's identity line.
func cleanIdentity(s string) string {
	s = strings.Map(func(c rune) rune {
		if c == '<' || c == '>' || c == '\n' || c == 0 {
			return -1
		}
		return c
	}, s)
	return strings.Trim(s, " \t.,:;\"\\'")
}

// pendingFile is a file that differs from HEAD.
type pendingFile struct {
	path string
	now  rawSide // mode and id on disk; zero when removed
	old  rawSide // in HEAD
	data []byte
}

// pending reads the files at paths and returns those that differ from HEAD.
func (r *Repo) pending(ctx context.Context, paths []string) ([]pendingFile, error) {
	tree, err := r.headTree(ctx)
	if err != nil {
		return nil, err
	}
	cached := newTreeCache(treeReader{r: r, ctx: ctx})
	var out []pendingFile
	for _, p := range paths {
		if !fs.ValidPath(p) || p == "." || strings.ContainsAny(p, "\x00\\") {
			return nil, fmt.Errorf("%q is not a path in the ledger", p)
		}
		old, _, err := cached.descend(tree, p)
		if err != nil {
			return nil, err
		}
		f := pendingFile{path: p}
		if old.id != "" && old.isFile() {
			f.old = rawSide{old.mode, old.hex()}
		}
		if err := r.readPending(&f); err != nil {
			return nil, err
		}
		if f.now != f.old {
			out = append(out, f)
		}
	}
	return out, nil
}

// headTree is the tree of the ledger in HEAD; "" before the first commit.
func (r *Repo) headTree(ctx context.Context) (string, error) {
	head, err := r.Head(ctx)
	if err == nil {
		var tree string
		if tree, err = r.ledgerTree(ctx, head); err == nil {
			return tree, nil
		}
	}
	if errors.Is(err, ErrNoCommits) {
		err = nil
	}
	return "", err
}

// readPending fills in f's content on disk.
func (r *Repo) readPending(f *pendingFile) error {
	file := filepath.Join(r.Root(), filepath.FromSlash(f.path))
	st, err := os.Lstat(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if !st.Mode().IsRegular() {
		return fmt.Errorf("%s is not a plain file", f.path)
	}
	if f.data, err = os.ReadFile(file); err != nil {
		return err
	}
	f.now = rawSide{r.fileMode(st, f.old.mode), string(r.blobID(f.data))}
	return nil
}

// fileMode is the mode git gives a plain file.
func (r *Repo) fileMode(st fs.FileInfo, old string) string {
	switch {
	case old != "" && old != modeLink && !r.heedsModes():
		return old
	case st.Mode()&0o100 != 0:
		return modeExec
	}
	return modeFile
}

// heedsModes reports whether it counts here which files may be run: Windows has
// no such bit, and where core.fileMode is false the disk's is not to be trusted.
func (r *Repo) heedsModes() bool {
	said, err := r.Setting("core.filemode")
	return filepath.Separator == '/' && (err != nil || said != "false")
}

// blobID is the id that this repository gives to content.
func (r *Repo) blobID(data []byte) ledger.BlobID {
	id := identifier{hash: newHash(r.width)}
	return id.sum(data)
}

// Dirty lists those of paths (relative to the ledger) whose content on disk
// or in the index is not that of HEAD: edits not yet entered.
func (r *Repo) Dirty(ctx context.Context, paths []string) ([]string, error) {
	files, err := r.pending(ctx, paths)
	if err != nil {
		return nil, err
	}
	staged, err := r.Staged(ctx)
	if err != nil {
		return nil, err
	}
	dirty := map[string]bool{}
	for _, f := range files {
		dirty[f.path] = true
	}
	for _, c := range staged {
		dirty[c.Path] = true
	}
	var out []string
	for _, p := range paths {
		if dirty[p] && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out, nil
}

// treeCache keeps the trees on the way to several paths.
type treeCache struct {
	treeReader
	lists map[string]map[string]entry
}

func newTreeCache(t treeReader) *treeCache { return &treeCache{t, map[string]map[string]entry{}} }

// descend is the entry at path below the tree; false when there is none.
func (c *treeCache) descend(id, path string) (entry, bool, error) {
	e := entry{mode: modeTree, id: id}
	for name := range strings.SplitSeq(path, "/") {
		if !e.isTree() || e.id == "" {
			return entry{}, false, nil
		}
		byName, ok := c.lists[e.id]
		if !ok {
			es, err := c.list(e.id)
			if err != nil {
				return entry{}, false, err
			}
			byName = make(map[string]entry, len(es))
			for _, x := range es {
				byName[x.name] = x
			}
			c.lists[e.id] = byName
		}
		if e, ok = byName[name]; !ok {
			return entry{}, false, nil
		}
	}
	return e, true, nil
}
