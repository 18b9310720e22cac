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
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"time"

	"blotter/ledger/disk"
)

// atWork is the note that stands beside the lock of the ledger while a commit
// or its taking back is made. When the process is killed, it tells the next
// one which of git's locks were its own and which files of the index are to
// be put right: git itself leaves both to a person.
type atWork struct {
	Begun time.Time `json:"begun"`
	PID   int       `json:"pid,omitempty"` // of the git program; 0: not yet known, or none
	Paths []string  `json:"paths"`         // from the top of the repository

	stays bool // something is left to MendWork
}

func (r *Repo) atWorkFile() string { return filepath.Join(r.StateDir(), "at-work.json") }

// announceWork writes the note. That it cannot be written is no fault of the
// work: then a person must do what the note would have.
func (r *Repo) announceWork(paths []string) *atWork {
	note := &atWork{Begun: time.Now(), Paths: paths}
	r.writeWork(note)
	return note
}

func (r *Repo) writeWork(note *atWork) {
	b, err := json.Marshal(note)
	if err == nil && os.MkdirAll(r.StateDir(), 0o777) == nil {
		// Lastingly: after a power cut, too, it tells whose the locks are.
		_ = disk.WriteFile(r.atWorkFile(), b)
	}
}

// runNoted runs a git program and notes its process, so that whoever mends can
// wait for it.
func (r *Repo) runNoted(ctx context.Context, note *atWork, verb string, cmd *exec.Cmd, text *bytes.Buffer) error {
	err := cmd.Start()
	if err == nil {
		note.PID = cmd.Process.Pid
		r.writeWork(note)
		err = cmd.Wait()
	}
	return failed(ctx, verb, text.String(), err)
}

// alone runs a git command that writes and is no commit of ours: killed, it
// leaves its locks, and nobody but MendWork removes them.
func (r *Repo) alone(ctx context.Context, env []string, args ...string) error {
	note := r.announceWork(nil)
	cmd := r.command(ctx, env, args...)
	var text bytes.Buffer
	cmd.Stdout, cmd.Stderr = &text, &text
	err := r.runNoted(ctx, note, args[0], cmd, &text)
	r.endWork(ctx, note, err)
	return err
}

// endWork mends what a git that was killed left, and takes the note away when
// nothing is left to MendWork.
func (r *Repo) endWork(ctx context.Context, note *atWork, err error) {
	r.mendStopped(ctx, note, err)
	r.removeNote(note)
}

// removeNote takes the note away when nothing is left to MendWork.
func (r *Repo) removeNote(note *atWork) {
	if !note.stays {
		os.Remove(r.atWorkFile())
	}
}

// mendStopped removes the locks of a git that was killed, also where there was
// no room for the note itself.
func (r *Repo) mendStopped(ctx context.Context, note *atWork, err error) {
	if err == nil || !stopped(ctx, err) || note.stays {
		return
	}
	ctx = context.WithoutCancel(ctx)
	note.stays = errors.Join(r.removeDeadLocks(ctx, note.Begun, true), r.MendWork(ctx, time.Second)) != nil
}

// WorkBrokenOff reports whether a commit or its taking back was broken off, or
// is being made: MendWork puts right what it left.
func (r *Repo) WorkBrokenOff() bool {
	_, err := os.Lstat(r.atWorkFile())
	return err == nil
}

// MendWork puts right what a commit that was broken off has left: it waits
// until the git program that it started has ended, at most so long, removes
// the locks that this one left, and makes the index hold of its files what
// HEAD has. The caller holds the lock of the ledger. The files on disk stay.
func (r *Repo) MendWork(ctx context.Context, patience time.Duration) error {
	b, err := os.ReadFile(r.atWorkFile())
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	info, err := os.Stat(r.atWorkFile())
	if err != nil {
		return err
	}
	var note atWork
	if json.Unmarshal(b, &note) != nil {
		note = atWork{}
	}
	until := time.Now().Add(patience)
	for note.PID != 0 && running(note.PID) {
		if time.Now().After(until) {
			return fmt.Errorf("the git program (process %d) is still at the last entry", note.PID)
		}
		if err := pause(ctx); err != nil {
			return err
		}
	}
	if err := r.removeDeadLocks(ctx, info.ModTime(), note.PID != 0); err != nil {
		return err
	}
	if err := r.indexAsHead(ctx, note.Paths); err != nil {
		return err
	}
	return os.Remove(r.atWorkFile())
}

func pause(ctx context.Context) error {
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-time.After(20 * time.Millisecond):
		return nil
	}
}

// running reports whether a process is there and, where that can be told, is
// git: ids of processes are used again.
func running(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	if err := p.Signal(syscall.Signal(0)); err != nil && filepath.Separator == '/' && !errors.Is(err, fs.ErrPermission) {
		return false
	}
	if line, err := os.ReadFile(fmt.Sprintf("/proc/%d/cmdline", pid)); err == nil {
		return strings.Contains(string(line), "git") // a dead one that nobody buried has an empty line
	}
	return true
}

// Locks of git that were made so long before or after the note are not those
// of the work that it tells of.
const (
	lockEarly = 2 * time.Second
	lockLate  = time.Minute
)

// removeDeadLocks removes the locks that a dead git left. Where it is not
// known to be dead, a lock must stand still for a while first.
func (r *Repo) removeDeadLocks(ctx context.Context, noted time.Time, dead bool) error {
	if !dead {
		for begun := time.Now(); len(r.gitLocks(noted)) > 0 && time.Since(begun) < 1500*time.Millisecond; {
			if err := pause(ctx); err != nil {
				return err
			}
		}
	}
	for _, lock := range r.gitLocks(noted) {
		if err := os.Remove(lock); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// gitLocks are the locks on index and refs from the time of the note.
func (r *Repo) gitLocks(noted time.Time) (found []string) {
	add := func(file string) {
		st, err := os.Lstat(file)
		if err == nil && st.Mode().IsRegular() && st.ModTime().After(noted.Add(-lockEarly)) && st.ModTime().Before(noted.Add(lockLate)) {
			found = append(found, file)
		}
	}
	add(r.index + ".lock")
	for _, dir := range slices.Compact([]string{r.gitDir, r.common}) {
		add(filepath.Join(dir, "HEAD.lock"))
		add(filepath.Join(dir, "packed-refs.lock"))
		next, _ := fs.Glob(os.DirFS(dir), "next-index-*.lock")
		for _, name := range next {
			add(filepath.Join(dir, name))
		}
	}
	for _, refs := range []string{"heads", "tags", "remotes"} {
		filepath.WalkDir(filepath.Join(r.common, "refs", refs), func(p string, e fs.DirEntry, err error) error {
			if err == nil && strings.HasSuffix(p, ".lock") {
				add(p)
			}
			return nil
		})
	}
	return found
}

// indexAsHead makes the index hold of paths, from the top, what HEAD has.
func (r *Repo) indexAsHead(ctx context.Context, paths []string) error {
	if len(paths) == 0 {
		return nil
	}
	defer r.pool.drop()
	whole := r.In("")
	tree, err := whole.headTree(ctx)
	if err != nil {
		return err
	}
	trees := newTreeCache(treeReader{r: whole, ctx: ctx})
	files := make([]backFile, len(paths))
	for i, p := range paths {
		files[i].path = p
		e, ok, err := trees.descend(tree, p)
		if err != nil {
			return err
		}
		if ok && e.isFile() {
			files[i].mode, files[i].id = e.mode, e.id
		}
	}
	return r.holdInIndex(ctx, files)
}

// holdInIndex makes the index hold files; what else it holds stays.
func (r *Repo) holdInIndex(ctx context.Context, files []backFile) error {
	if r.git != "" {
		return r.indexProgram(ctx, files)
	}
	return r.indexNative(files)
}

// indexNative is holdInIndex through go-git.
func (r *Repo) indexNative(files []backFile) error {
	idx, err := r.readIndex()
	if err != nil {
		return err
	}
	indexHolds(idx, files)
	finish, err := r.prepareIndex(idx)
	if err != nil {
		return err
	}
	return finish()
}

// indexProgram makes the index hold files, by the git program.
func (r *Repo) indexProgram(ctx context.Context, files []backFile) error {
	var in strings.Builder
	for _, f := range files {
		mode, hash := f.mode, hex.EncodeToString([]byte(f.id))
		if mode == "" {
			mode, hash = "0", strings.Repeat("0", 2*r.width)
		}
		fmt.Fprintf(&in, "%s %s\t%s\x00", mode, hash, f.path)
	}
	_, err := r.run(ctx, strings.NewReader(in.String()), "update-index", "-z", "--index-info")
	return err
}
