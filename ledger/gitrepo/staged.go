package gitrepo

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger"
)

// ErrConflict is returned for an index that holds a merge conflict.
var ErrConflict = errors.New("a merge conflict is not settled yet")

// Staged lists the files of the ledger that the index has otherwise than
// HEAD, in byte order of path. In a hook it reads the index that git names
// (GIT_INDEX_FILE). Before the first commit everything staged is new.
func (r *Repo) Staged(ctx context.Context) ([]Change, error) {
	if r.git == "" {
		return r.stagedNative(ctx)
	}
	head, err := r.Head(ctx)
	if errors.Is(err, ErrNoCommits) {
		head, err = r.emptyTree(), nil
	}
	if err != nil {
		return nil, err
	}
	args := []string{"diff-index", "--cached", "--raw", "-z", "--no-renames", "--no-abbrev", "--ita-invisible-in-index", head}
	if r.prefix != "" {
		args = append(args, "--", ":(top,literal)"+r.prefix)
	}
	out, err := r.run(ctx, nil, args...)
	if err != nil {
		return nil, fmt.Errorf("list what is staged: %w", err)
	}
	var cs []Change
	err = eachRaw(string(out), func(c rawChange) error {
		path, ok := strings.CutPrefix(c.path, r.prefix)
		if !ok {
			return nil
		}
		if c.status == "U" {
			return fmt.Errorf("%s: %w", path, ErrConflict)
		}
		ch := Change{Path: path, Old: c.olds[0].blob(), New: c.now.blob(), Link: c.now.mode == modeLink}
		if ch.Old != "" || ch.New != "" { // else another repository
			cs = append(cs, ch)
		}
		return nil
	})
	return cs, err
}

// emptyTree is the id of the tree without entries, which git always knows.
func (r *Repo) emptyTree() string {
	if r.width == 32 {
		return "6ef19b41225c5369f1c104d45d8d85efa9b057b53b14b4b9b939dd74decc5321"
	}
	return "4b825dc642cb6eb9a060e54bf8d69288fbee4904"
}

// rawSide is one side of a raw difference: mode and id, "" when absent.
type rawSide struct{ mode, id string }

func (s rawSide) blob() ledger.BlobID {
	if s.mode == "" || s.mode == modeModule {
		return ""
	}
	return ledger.BlobID(s.id)
}

// rawChange is one entry of git's raw difference format.
type rawChange struct {
	path   string
	status string
	now    rawSide
	olds   []rawSide // one for each parent
}

// parseRaw reads the entry ":MODES IDS STATUS" (n colons for n old sides).
// The old sides are appended to arena, of which the change holds a piece.
func parseRaw(head string, arena *[]rawSide) (c rawChange, err error) {
	n := 0
	for n < len(head) && head[n] == ':' {
		n++
	}
	ids := n + 7*(n+1) // where the ids begin: modes are six digits
	if n == 0 || len(head) <= ids {
		return c, fmt.Errorf("git printed a difference that cannot be read: %q", head)
	}
	width := strings.IndexByte(head[ids:], ' ')
	if width <= 0 || len(head) <= ids+(width+1)*(n+1) {
		return c, fmt.Errorf("git printed a difference that cannot be read: %q", head)
	}
	side := func(i int) rawSide {
		mode := head[n+7*i : n+7*i+6]
		if mode == "000000" {
			return rawSide{}
		}
		return rawSide{mode, head[ids+(width+1)*i : ids+(width+1)*i+width]}
	}
	from := len(*arena)
	for i := range n {
		*arena = append(*arena, side(i))
	}
	return rawChange{status: head[ids+(width+1)*(n+1):], now: side(n), olds: (*arena)[from:len(*arena):len(*arena)]}, nil
}

// eachRaw calls yield for every entry of a raw difference printed with -z.
func eachRaw(out string, yield func(rawChange) error) error {
	var arena []rawSide
	for out != "" {
		head, rest, ok := strings.Cut(out, "\x00")
		path, rest, ok2 := strings.Cut(rest, "\x00")
		if !ok || !ok2 {
			return fmt.Errorf("git printed a difference that ends too early")
		}
		c, err := parseRaw(head, &arena)
		if err != nil {
			return err
		}
		c.path, out = path, rest
		if err := yield(c); err != nil {
			return err
		}
	}
	return nil
}

// indexSource is the ledger as the next commit would have it.
type indexSource struct{ r *Repo }

// Index is the ledger as it is staged: HEAD with what Staged lists. Files
// that were only announced (git add -N) are not part of it.
func (r *Repo) Index() ledger.Source { return indexSource{r} }

func (s indexSource) Files(ctx context.Context) ([]ledger.File, error) {
	var files []ledger.File
	head, err := s.r.Head(ctx)
	if err == nil {
		var at ledger.Source
		if at, err = s.r.At(ctx, head); err == nil {
			files, err = at.Files(ctx)
		}
	}
	if err != nil && !errors.Is(err, ErrNoCommits) {
		return nil, err
	}
	staged, err := s.r.Staged(ctx)
	if err != nil {
		return nil, err
	}
	return overlay(files, staged), nil
}

// overlay applies changes to a sorted list of files.
func overlay(files []ledger.File, changes []Change) []ledger.File {
	if len(changes) == 0 {
		return files
	}
	changed := make(map[string]bool, len(changes))
	for _, c := range changes {
		changed[c.Path] = true
	}
	out := make([]ledger.File, 0, len(files)+len(changes))
	for _, f := range files {
		if !changed[f.Path] {
			out = append(out, f)
		}
	}
	for _, c := range changes {
		if c.New != "" {
			out = append(out, ledger.File{Path: c.Path, Blob: c.New, Size: -1, Link: c.Link})
		}
	}
	slices.SortFunc(out, func(a, b ledger.File) int { return cmp.Compare(a.Path, b.Path) })
	return out
}

func (s indexSource) Read(ctx context.Context, f ledger.File) ([]byte, error) {
	return s.r.readBlob(ctx, f)
}

// InProgress names what git is in the middle of: "merge", "rebase",
// "cherry-pick" or "revert"; "" when nothing.
func (r *Repo) InProgress() string {
	for _, p := range []struct{ file, name string }{
		{"rebase-merge", "rebase"}, {"rebase-apply", "rebase"}, {"MERGE_HEAD", "merge"},
		{"CHERRY_PICK_HEAD", "cherry-pick"}, {"REVERT_HEAD", "revert"}, {"BISECT_START", "bisect"},
	} {
		if _, err := os.Lstat(filepath.Join(r.gitDir, p.file)); err == nil {
			return p.name
		}
	}
	return ""
}

// MergeHeads are the commits that a merge under way brings in.
func (r *Repo) MergeHeads() ([]string, error) {
	b, err := os.ReadFile(filepath.Join(r.gitDir, "MERGE_HEAD"))
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("read MERGE_HEAD: %w", err)
	}
	return strings.Fields(string(b)), nil
}
