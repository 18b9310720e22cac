package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// fileChange is one file that a command writes: what it held and what it will
// hold. nil is no file.
type fileChange struct {
	path     string
	old, new []byte
}

// entry is one run of an Enter command: the files it writes and what the
// revision says of itself.
type entry struct {
	changes  []fileChange
	also     []string // files that lie in their places already and are entered with them
	subject  string   // instead of the one that the changes give; mostly ""
	judged   bool     // its findings were looked at and shown already
	trailers []string // further ones, for example "Corrects: LK7-0000482 label says 348"
	moves    []history.Move
}

// entered is how an entry ended.
type entered struct {
	id     string // of the revision; "" when held or rehearsed
	author string
	held   bool
	dry    bool
}

func (r entered) short() string { return r.id[:min(len(r.id), 7)] }

// lockPatience is how long a command waits for another one at the same ledger.
const lockPatience = 10 * time.Second

// enter checks an entry, writes its files and makes one revision of them. A
// file that holds edits not yet entered, or an error that this entry brings
// in, stops it before anything is written; when the revision cannot be made
// the files are put back.
func (d *desk) enter(ctx context.Context, e entry) (entered, error) {
	e.changes = slices.DeleteFunc(e.changes, func(c fileChange) bool { return c.old != nil && string(c.old) == string(c.new) && c.new != nil })
	if len(e.changes) == 0 {
		return entered{dry: true}, nil
	}
	slices.SortFunc(e.changes, func(a, b fileChange) int { return strings.Compare(a.path, b.path) })
	hold, dry := d.opts.on("hold"), d.opts.on("dry-run")
	guarded := d.guard(ctx, e.changes, hold || dry)
	if err := d.notOvertaken(e.changes); err != nil { // it would look like an edit not yet entered
		return entered{}, err
	}
	if guarded != nil {
		return entered{}, guarded
	}
	message := e.message()
	if !e.judged {
		if err := d.mustBeSound(ctx, e.changes, message); err != nil {
			return entered{}, err
		}
	}
	if dry {
		return entered{dry: true}, nil
	}
	var author, committer history.Person
	var err error
	if !hold {
		if author, committer, err = d.recorder(ctx); err != nil {
			return entered{}, err
		}
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return entered{}, err
	}
	defer unlock()
	if err := d.notOvertaken(e.changes); err != nil { // while we waited for the other
		return entered{}, err
	}
	if hold {
		return entered{held: true}, d.write(ctx, e.changes)
	}
	if err := d.openJournal(e.changes); err != nil {
		return entered{}, err
	}
	if err := d.write(ctx, e.changes); err != nil {
		if !errors.Is(err, errNotPutBack) {
			d.closeJournal()
		}
		return entered{}, err
	}
	id, err := d.repo.Commit(ctx, gitrepo.CommitRequest{Paths: append(paths(e.changes), e.also...), Message: message, Author: author, Committer: committer})
	if err != nil {
		if undo := d.restore(e.changes); undo != nil {
			return entered{}, stuck("not entered: %v; and %w: %v", err, errNotPutBack, undo).try("The next command puts them back.")
		}
		d.closeJournal()
		return entered{}, notEntered(err)
	}
	d.closeJournal()
	return entered{id: id, author: author.Name}, nil
}

// notEntered says that the revision was refused and the files are as before.
func notEntered(err error) error {
	var program *gitrepo.ProgramError
	if errors.As(err, &program) && strings.Contains(program.Text, "nothing to commit") {
		return stuck("not entered; the files are as they were: git was told not to look at them").
			try("git update-index --no-skip-worktree --no-assume-unchanged FILE", "git ls-files -v tells which: h and S")
	}
	return stuck("not entered; the files are as they were: %v", err)
}

func paths(changes []fileChange) []string {
	all := make([]string, len(changes))
	for i, c := range changes {
		all[i] = c.path
	}
	return all
}

// message is what the revision says of itself.
func (e entry) message() string {
	var records []history.RecordChange
	var works []history.WorkChange
	var others []string
	for _, c := range e.changes {
		if c.new == nil && e.moved(c.path) {
			continue // it is told of under its new number
		}
		if w, ok := ledger.WorkNumberOfPath(c.path); ok {
			works = append(works, history.WorkChange{Number: w, Old: decodedWork(c.path, c.old), New: decodedWork(c.path, c.new)})
			continue
		}
		n, ok := ledger.NumberOfPath(c.path)
		if !ok {
			others = append(others, c.path)
			continue
		}
		records = append(records, history.RecordChange{Number: n, Old: decoded(c.path, e.before(n, c)), New: decoded(c.path, c.new)})
	}
	m := history.Describe(records, works, others)
	if e.subject != "" {
		_, rest, _ := strings.Cut(m, "\n")
		m = e.subject + "\n" + rest
	}
	if len(e.trailers) > 0 && len(records)+len(works) == 0 {
		m += "\n"
	}
	for _, t := range e.trailers {
		m += t + "\n"
	}
	for i, x := range e.moves {
		switch {
		case !x.Swap:
			m += fmt.Sprintf("%s: %s %s %s\n", history.RenumberedKey, x.From, x.To, oneLine(x.Reason))
		case i%2 == 0: // a swap is two moves
			m += fmt.Sprintf("%s: %s %s %s\n", history.SwappedKey, x.From, x.To, oneLine(x.Reason))
		}
	}
	return m
}

func decoded(path string, src []byte) *ledger.Record {
	if src == nil {
		return nil
	}
	r, _ := ledger.Decode(path, src)
	return r
}

func decodedWork(path string, src []byte) *ledger.Work {
	if src == nil {
		return nil
	}
	w, _ := ledger.DecodeWork(path, src)
	return w
}

// moved reports whether the file of a path goes on under another number.
func (e entry) moved(path string) bool {
	return slices.ContainsFunc(e.moves, func(m history.Move) bool {
		return string(m.From) == strings.TrimSuffix(path[strings.LastIndexByte(path, '/')+1:], ".yaml")
	})
}

// before is what the plant that bears a number by this entry had in its file.
func (e entry) before(n ledger.Number, c fileChange) []byte {
	m, came := history.MovedFrom(e.moves, n)
	if !came {
		return c.old
	}
	for _, x := range e.changes {
		if from, ok := ledger.NumberOfPath(x.path); ok && from == m.From {
			return x.old
		}
	}
	return c.old
}

// guard refuses an entry that would mix with other work: files with edits not
// yet entered, a merge that is not finished, a ledger without git.
func (d *desk) guard(ctx context.Context, changes []fileChange, filesOnly bool) error {
	for _, c := range changes {
		if err := d.plainWay(c.path); err != nil {
			return err
		}
	}
	if d.repo == nil {
		if filesOnly {
			return nil
		}
		return stuck("this folder has no git repository, so nothing can be entered").
			try("Only write the files: add --hold", "Begin one here: git init, then blotter enter")
	}
	if !filesOnly {
		if err := d.notBegun("until then nothing else is entered, and nothing was changed"); err != nil {
			return err
		}
	}
	dirty, err := d.repo.Dirty(ctx, paths(changes))
	if err != nil {
		return stuck("%v", err)
	}
	if len(dirty) == 0 {
		return nil
	}
	var names []string
	for _, c := range dirty[:min(len(dirty), 10)] {
		names = append(names, sheetOrPath(c))
	}
	return stuck("%s: edits not yet entered; enter them first", strings.Join(names, ", ")).
		try("blotter enter " + strings.Join(names, " "))
}

// sheetOrPath is the number of a record's or a work's path, or the path.
func sheetOrPath(path string) string {
	if n, ok := ledger.WorkNumberOfPath(path); ok && n.Valid() && n.Path() == path {
		return string(n)
	}
	if n, ok := ledger.NumberOfPath(path); ok && n.Valid() {
		return string(n)
	}
	return ledger.ShownPath(path)
}

// lock keeps other commands out while this one writes.
func (d *desk) lock(ctx context.Context) (func(), error) {
	if d.repo == nil {
		return func() {}, nil
	}
	holder := fmt.Sprintf("blotter %s, since %s", d.cmd.Name, d.Now().In(d.zone).Format("15:04"))
	locked, err := disk.Lock(ctx, d.repo.StateDir(), holder, lockPatience)
	if err != nil {
		return nil, stuck("%v", err).try("Nothing was changed; try again when it is done.")
	}
	return func() { locked.Unlock() }, nil
}

// errNotPutBack: the journal stays, and the next command does it.
var errNotPutBack = errors.New("the files before it were not put back")

// write puts the new bytes on disk; if one file cannot be written, those
// before it are put back. A file that a person saved since the command read it
// is never written over.
func (d *desk) write(ctx context.Context, changes []fileChange) error {
	for i, c := range changes {
		err := ctx.Err()
		if err == nil {
			err = d.put(c.path, c.old, c.new)
		}
		if err == nil {
			continue
		}
		// The file at hand too: it may have got its new bytes before the error.
		if undo := d.restore(changes[:i+1]); undo != nil {
			return stuck("%v; and %w: %v", err, errNotPutBack, undo)
		}
		switch {
		case errors.Is(err, context.Canceled):
			return errInterrupted
		case errors.Is(err, disk.ErrOvertaken):
			return overtaken(c.path)
		}
		return stuck("%v; the files are as they were", err)
	}
	return nil
}

// restore puts the old bytes back where the new ones stand; what a person
// saved since stays.
func (d *desk) restore(changes []fileChange) error {
	var errs []error
	for _, c := range changes {
		if err := d.put(c.path, c.new, c.old); !errors.Is(err, disk.ErrOvertaken) {
			errs = append(errs, err)
		}
	}
	return errors.Join(errs...)
}

// put makes the file hold b if it holds was; nil removes it, and folders left
// empty with it. It never writes outside the ledger, whatever links lie in it.
func (d *desk) put(path string, was, b []byte) error {
	tree, err := disk.OpenTree(d.root)
	if err != nil {
		return err
	}
	defer tree.Close()
	return tree.Exchange(path, was, b)
}

// enterPicked enters changes that a command has shown, after asking where the
// sheets were not named one by one.
func (d *desk) enterPicked(ctx context.Context, changes []fileChange, picked bool, question string) error {
	if ok, err := d.consentIfPicked(ctx, picked, question); !ok {
		return err
	}
	r, err := d.enter(ctx, entry{changes: changes})
	if err != nil {
		return err
	}
	d.report(r, "")
	return nil
}

// report says how an entry ended, after a command showed what it did. what
// ends the line, for example "3 new sheets"; it may be "".
func (d *desk) report(r entered, what string) {
	switch {
	case r.held:
		d.say("Written, not yet entered.")
		d.next("blotter enter")
	case r.dry:
		d.tell("Nothing was changed: --dry-run.")
	case what == "":
		d.say("Entered, revision %s.", r.short())
	default:
		d.say("Entered by %s, revision %s: %s", r.author, r.short(), sentence(what))
	}
	if r.id != "" {
		d.warnOfHooks()
	}
}
