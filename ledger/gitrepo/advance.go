package gitrepo

import (
	"bytes"
	"context"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/disk"
)

// EditedError names the files that an Advance would have to overwrite though
// they hold what is not entered: it changed nothing.
type EditedError struct{ Paths []string } // from the top of the repository

func (e *EditedError) Error() string {
	return "edits not yet entered: " + strings.Join(e.Paths, ", ")
}

// OddError names files that come as something else than plain files, or under
// names that would write elsewhere: they are never written.
type OddError struct{ Paths []string }

func (e *OddError) Error() string { return "not plain files: " + strings.Join(e.Paths, ", ") }

// advancing is written down before the first file is touched.
type advancing struct {
	From string `json:"from"` // commits
	To   string `json:"to"`
}

func (r *Repo) advanceFile() string { return filepath.Join(r.gitDir, "blotter", "advancing.json") }

// Advance moves the current branch, the index and the files on disk from
// commit from, where they are, to commit to. Files that both have alike are
// not touched, whatever they hold; one that differs and holds what is not
// entered stops it before anything is changed: *EditedError. Each file gets
// its new bytes at once or not at all. When something fails the files are put
// back; after a power cut FinishAdvance goes on where it stopped.
func (r *Repo) Advance(ctx context.Context, from, to string) error {
	if doing := r.InProgress(); doing != "" {
		return fmt.Errorf("advance: %w: a %s", ErrBusy, doing)
	}
	if r.locked() {
		return fmt.Errorf("advance: %w: another git program is at work here, or was broken off (%s)", ErrBusy, r.index+".lock")
	}
	if head, err := r.Head(ctx); err != nil || head != from {
		return errors.Join(err, fmt.Errorf("advance: %w", ErrMoved))
	}
	moves, err := r.moves(ctx, from, to)
	if err != nil {
		return err
	}
	if err := r.untouched(ctx, moves); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	ctx = context.WithoutCancel(ctx) // from here on it is done, or taken back
	note, err := json.Marshal(advancing{from, to})
	if err == nil {
		if err = os.MkdirAll(filepath.Dir(r.advanceFile()), 0o777); err == nil {
			err = disk.WriteFile(r.advanceFile(), note)
		}
	}
	if err != nil {
		return fmt.Errorf("advance: %w", err)
	}
	r.watch()
	work := r.announceWork(nil) // whose git's locks are
	defer func() { r.endWork(ctx, work, err) }()
	done, err := r.putMoves(ctx, moves)
	if err == nil {
		if err = r.indexMoves(ctx, moves, entryNow); err == nil {
			if err = r.moveTo(ctx, from, to); err != nil {
				err = errors.Join(err, r.indexMoves(ctx, moves, entryOld))
			}
		}
	}
	if err != nil {
		if back := r.takeMovesBack(ctx, moves[:done]); back != nil {
			return fmt.Errorf("advance: %w; and the files were not put back: %w", err, back)
		}
		err = fmt.Errorf("advance: %w", err)
	}
	r.keep() // before the note goes
	return errors.Join(err, os.Remove(r.advanceFile()))
}

// BrokenOff reports whether an Advance was broken off here: FinishAdvance ends
// it.
func (r *Repo) BrokenOff() bool {
	_, err := os.Lstat(r.advanceFile())
	return err == nil
}

// FinishAdvance ends an Advance that was broken off: files that still are as
// before get their new bytes, and what somebody wrote since stays as an edit.
// It returns the commit that the branch is at now, "" when nothing was left
// to be ended.
func (r *Repo) FinishAdvance(ctx context.Context) (string, error) {
	note, err := os.ReadFile(r.advanceFile())
	if errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	if err != nil {
		return "", fmt.Errorf("finish advance: %w", err)
	}
	var a advancing
	head, err := r.Head(ctx)
	if err != nil {
		return "", err
	}
	if json.Unmarshal(note, &a) != nil || head != a.From {
		// It was broken off before the first file or after the last step, or
		// somebody went on in another way.
		return "", os.Remove(r.advanceFile())
	}
	moves, err := r.moves(ctx, a.From, a.To)
	if err != nil {
		return "", err
	}
	old, err := r.asBefore(ctx, moves)
	if err != nil {
		return "", err
	}
	r.watch()
	if _, err = r.putMoves(ctx, old); err != nil {
		return "", fmt.Errorf("finish advance: %w", err)
	}
	if err = r.indexMoves(ctx, moves, entryNow); err != nil {
		return "", fmt.Errorf("finish advance: %w", err)
	}
	if err = r.moveTo(ctx, a.From, a.To); err != nil {
		return "", fmt.Errorf("finish advance: %w", err)
	}
	r.keep()
	return a.To, os.Remove(r.advanceFile())
}

func (r *Repo) moveTo(ctx context.Context, from, to string) error {
	if r.git == "" {
		return r.moveHead(from, to)
	}
	_, err := r.run(ctx, nil, "update-ref", "-m", "blotter", "HEAD", to, from)
	r.pool.drop()
	return err
}

// move is one file that differs between two commits.
type move struct {
	path     string // from the top of the repository
	old, now entry
}

func entryOld(m move) entry { return m.old }
func entryNow(m move) entry { return m.now }

// moves lists the files in which two commits differ: those that go first.
func (r *Repo) moves(ctx context.Context, from, to string) ([]move, error) {
	w := weaver{Repo: r.In("")}
	all, order, err := w.side(ctx, from, to)
	if err != nil {
		return nil, err
	}
	var gone, come []move
	var odd []string
	for _, path := range order {
		m := move{path, all[path].base, all[path].now}
		for part := range strings.SplitSeq(path, "/") {
			if strayName(part) {
				odd = append(odd, path)
			}
		}
		for _, e := range []entry{m.old, m.now} {
			if e.id != "" && e.mode != modeFile && e.mode != modeExec && !slices.Contains(odd, path) {
				odd = append(odd, path)
			}
		}
		if m.now.id == "" {
			gone = append(gone, m)
		} else {
			come = append(come, m)
		}
	}
	if len(odd) > 0 {
		return nil, &OddError{odd}
	}
	return append(gone, come...), nil
}

// untouched holds that the files of moves are, on disk and in the index, as
// before or as they are to become.
func (r *Repo) untouched(ctx context.Context, moves []move) error {
	var edited []string
	for _, m := range moves {
		state, err := r.stateOf(ctx, m)
		if err != nil {
			return err
		}
		if state == edit {
			edited = append(edited, m.path)
		}
	}
	staged, err := r.In("").Staged(ctx)
	if err != nil {
		return err
	}
	at := map[string]move{}
	for _, m := range moves {
		at[m.path] = m
	}
	for _, c := range staged {
		if m, ok := at[c.Path]; ok && c.New != blobOf(m.now) && !slices.Contains(edited, c.Path) {
			edited = append(edited, c.Path)
		}
	}
	if len(edited) > 0 {
		slices.Sort(edited)
		return &EditedError{edited}
	}
	return nil
}

// asBefore are those of moves whose files still are as before.
func (r *Repo) asBefore(ctx context.Context, moves []move) (out []move, err error) {
	for _, m := range moves {
		state, err := r.stateOf(ctx, m)
		if err != nil {
			return nil, err
		}
		if state == before {
			out = append(out, m)
		}
	}
	return out, nil
}

// How a file of a move stands on disk.
const (
	before = iota
	after
	edit
)

func (r *Repo) stateOf(ctx context.Context, m move) (int, error) {
	id, err := r.diskID(ctx, m.path)
	switch {
	case err != nil:
		return edit, err
	case id == hexOf(m.now):
		return after, nil
	case id == hexOf(m.old):
		return before, nil
	}
	return edit, nil
}

func hexOf(e entry) string { return hex.EncodeToString([]byte(e.id)) }

// diskID is the id that git would give to the file at a path from the top; ""
// when there is none, "-" for a folder, a link or a device.
func (r *Repo) diskID(ctx context.Context, path string) (string, error) {
	file := filepath.Join(r.top, filepath.FromSlash(path))
	st, err := os.Lstat(file)
	var bad *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.As(err, &bad) && strings.Contains(bad.Err.Error(), "not a directory"):
		return "", nil
	case err != nil:
		return "", err
	case st.IsDir():
		if r.emptyBelow(file) {
			return "", nil
		}
		return "-", nil
	case !st.Mode().IsRegular():
		return "-", nil
	}
	if r.filtered(path) {
		out, err := r.run(ctx, nil, "hash-object", "--path="+path, "--", file)
		return strings.TrimSpace(string(out)), err
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	return string(r.blobID(data)), nil
}

// emptyBelow reports whether a folder holds nothing but folders.
func (r *Repo) emptyBelow(dir string) bool {
	empty := true
	filepath.WalkDir(dir, func(_ string, e fs.DirEntry, err error) error {
		if err != nil || !e.IsDir() {
			empty = false
			return fs.SkipAll
		}
		return nil
	})
	return empty
}

// filtered reports whether git's filters and line ends count for a path: the
// ledger's own files are on disk what they are in git.
func (r *Repo) filtered(path string) bool { return !strings.HasPrefix(path, r.prefix) }

// putMoves gives the files of moves their new bytes, and tells how many may
// have been touched.
func (r *Repo) putMoves(ctx context.Context, moves []move) (int, error) {
	tree, err := disk.OpenTree(r.top)
	if err != nil {
		return 0, err
	}
	defer tree.Close()
	for i, m := range moves {
		if err := r.put(ctx, tree, m.path, m.now); err != nil {
			return i + 1, err
		}
	}
	return len(moves), nil
}

func (r *Repo) takeMovesBack(ctx context.Context, moves []move) error {
	tree, err := disk.OpenTree(r.top)
	if err != nil {
		return err
	}
	defer tree.Close()
	for _, m := range slices.Backward(moves) {
		err = errors.Join(err, r.put(ctx, tree, m.path, m.old))
	}
	return err
}

// put makes a file hold an entry's content; the zero entry removes it.
func (r *Repo) put(ctx context.Context, tree *disk.Tree, path string, e entry) error {
	if e.id == "" {
		return tree.Remove(path)
	}
	file := filepath.Join(r.top, filepath.FromSlash(path))
	if st, err := os.Lstat(file); err == nil && st.IsDir() && r.emptyBelow(file) {
		if err := os.RemoveAll(file); err != nil {
			return err
		}
	}
	var data []byte
	var err error
	if r.filtered(path) {
		data, err = r.run(ctx, nil, "cat-file", "--filters", "--path="+path, e.hex())
	} else {
		_, data, err = r.pool.read(ctx, e.hex(), 0)
	}
	if err != nil {
		return err
	}
	if now, err := os.ReadFile(file); err == nil && bytes.Equal(now, data) {
		return nil
	}
	if err := tree.WriteFile(path, data); err != nil {
		return err
	}
	if e.mode == modeExec {
		return os.Chmod(file, 0o755)
	}
	return nil
}

// indexMoves makes the index hold one side of the moves; what else is staged
// stays staged.
func (r *Repo) indexMoves(ctx context.Context, moves []move, side func(move) entry) error {
	var files []backFile
	for _, gone := range []bool{true, false} { // first what makes room
		for _, m := range moves {
			if e := side(m); gone == (e.id == "") {
				files = append(files, backFile{m.path, e.mode, e.id})
			}
		}
	}
	return r.holdInIndex(ctx, files)
}

// MayAdvance is the answer that Advance would give before it begins; nothing
// is changed.
func (r *Repo) MayAdvance(ctx context.Context, from, to string) error {
	moves, err := r.moves(ctx, from, to)
	if err != nil {
		return err
	}
	return r.untouched(ctx, moves)
}
