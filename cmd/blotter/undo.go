package main

import (
	"context"
	"errors"
	"os"
	"strconv"
	"strings"

	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

func undoCommand() *command {
	return &command{
		Name: "undo", Family: famEnter, Synopsis: "[HOW MANY]",
		Says: "Takes back the last entry, or several, while only this copy has them; the files stay as typed.",
		Notes: []string{"Nothing typed is lost. A file that several of them touched, or that was worked on since, stays as it is now; " +
			"each version of it that was entered is kept in a file, which is named.",
			"renumber and swap go back whole: the files are as before, and what was entered after them is kept in files, too."},
		Examples: []example{
			{"blotter undo", "shows the last entry and asks"},
			{"blotter undo 3", "the last three, in one step"},
			{"blotter undo --dry-run", "only shows what would be taken back"},
		},
		Args:  []argument{{"HOW MANY", "entries, from the newest back; without it one"}},
		Flags: []*flag{flagDryRun, flagYes},
		Kin:   []string{"enter", "changes", "set", "withdraw"},
		Run:   runUndo,
	}
}

func runUndo(ctx context.Context, c *call) error {
	many, err := howMany(c.args)
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.undone {
		c.say("Nothing more was taken back.")
		c.next("blotter undo takes back the entry before, too")
		return nil
	}
	if err := d.notBegun("nothing was taken back"); err != nil {
		return err
	}
	last, err := d.lastEntries(ctx, many)
	if err != nil {
		return err
	}
	for _, l := range d.sayEntries(last) {
		c.say("%s", l)
	}
	whole := wholeUndo(last)
	if whole > 0 {
		if err := d.repo.MayAdvance(ctx, last[0].ID, last[whole-1].Parents[0]); err != nil {
			return d.notUndone(err)
		}
	}
	kept, err := d.overwritten(ctx, last, whole)
	if err != nil {
		return err
	}
	for _, k := range kept {
		stays := " stays as it is now;"
		if k.back {
			stays = " goes back;"
		}
		c.say("%s", wrap(sheetOrPath(k.path)+stays+" as it was entered in revision "+k.entry[:7]+" it will be kept apart.", c.Width, ""))
	}
	if whole > 0 {
		c.say("%s", wrap("Numbers go back whole: all files are then as they were before that entry.", c.Width, ""))
	}
	question := "Take it back?"
	if len(last) > 1 {
		question = "Take these " + strconv.Itoa(len(last)) + " back?"
	}
	if ok, err := d.consent(ctx, question); !ok {
		return err
	}
	return d.takeBack(ctx, last, whole, kept)
}

// wholeUndo is how many of the entries, newest first, are taken back with their
// files: all up to the oldest that gave plants other numbers. Files of it that
// stayed as typed would be a plant under two numbers, or under none that its
// history knows.
func wholeUndo(last []history.Commit) int {
	for i := len(last) - 1; i >= 0; i-- {
		if len(history.Moves(last[i].Message)) > 0 {
			return i + 1
		}
	}
	return 0
}

// notUndone says why files cannot go back.
func (d *desk) notUndone(err error) error {
	var edited *gitrepo.EditedError
	if !errors.As(err, &edited) {
		return stuck("%v; nothing was taken back", err)
	}
	var names, brief []string
	for _, p := range edited.Paths[:min(len(edited.Paths), 10)] {
		p = strings.TrimPrefix(p, d.repo.Prefix())
		names, brief = append(names, sheetOrPath(p)), append(brief, d.briefPath(p))
	}
	return stuck("%s: what was typed since is not entered, and numbers go back with their files; nothing was taken back", strings.Join(names, ", ")).
		try("Enter it: blotter enter "+strings.Join(brief, " "), "Then blotter undo with one entry more: what was typed is kept apart.")
}

// sayEntries are the lines that show entries.
func (d *desk) sayEntries(entries []history.Commit) (lines []string) {
	for _, e := range entries {
		lines = append(lines, e.Author.Name+", "+e.Author.When.In(d.zone).Format("2 January 2006 15:04")+", revision "+e.ID[:7]+":", "  "+e.Subject())
	}
	return lines
}

// howMany reads how many entries are meant.
func howMany(args []string) (int, error) {
	if len(args) == 0 {
		return 1, nil
	}
	n, err := strconv.Atoi(args[0])
	switch {
	case len(args) > 1:
		return 0, misuse("%q is too much: undo takes how many entries, and no more", args[1])
	case err != nil:
		return 0, misuse("%q is no number of entries; only the last ones can be taken back", args[0]).
			try("blotter undo 2", "A fact of one sheet: blotter set "+shellWord(args[0])+" FIELD=VALUE --why TEXT")
	case n < 1:
		return 0, misuse("how many entries? At least one")
	}
	return n, nil
}

// lastEntries are the last entries, newest first, all of which can be taken
// back.
func (d *desk) lastEntries(ctx context.Context, many int) ([]history.Commit, error) {
	id, err := d.head(ctx)
	if err != nil {
		return nil, err
	}
	if id == "" {
		return nil, stuck("nothing has been entered yet")
	}
	var all []history.Commit
	for len(all) < many {
		e, err := d.repo.Revision(ctx, id)
		if err != nil {
			return nil, stuck("%v", err)
		}
		shared, err := d.sharedWith(ctx, id)
		if err != nil {
			return nil, err
		}
		if stop := stays(e, shared, len(all)); stop != nil {
			if len(all) > 0 {
				stop.try(sayUndo(len(all)) + " takes back what was entered after it")
			}
			return nil, stop
		}
		all = append(all, e)
		id = e.Parents[0]
	}
	return all, nil
}

func sayUndo(n int) string {
	if n == 1 {
		return "blotter undo"
	}
	return "blotter undo " + strconv.Itoa(n)
}

// stays says why an entry cannot be taken back; nil when it can. before is how
// many come before it.
func stays(e history.Commit, shared string, before int) *fault {
	which := "the last entry"
	if before > 0 {
		which = "entry " + strconv.Itoa(before+1) + " from the end, " + strconv.Quote(e.Subject()) + ","
	}
	switch {
	case shared != "":
		return misuse("%s is shared already (%s has it), so it stays", which, shared).
			try("A fact: blotter set SHEET FIELD=VALUE --why TEXT", "A sheet: blotter withdraw SHEET --is mistake --why TEXT",
				"An opinion stays and is shown as a mistake: blotter set SHEET mistake=REASON")
	case len(e.Parents) == 0:
		return misuse("%s is the first of all, which holds the ledger itself", which)
	case len(e.Parents) > 1:
		return misuse("%s joins the work of two people, so it stays", which)
	}
	return nil
}

// takeBack keeps what would be overwritten, then takes the entries back.
func (d *desk) takeBack(ctx context.Context, last []history.Commit, whole int, kept []keptVersion) error {
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	for i := range kept {
		if err := d.keepVersion(ctx, &kept[i]); err != nil {
			return stuck("%v", err).try("Nothing was taken back.")
		}
	}
	var where []string
	for _, k := range kept {
		where = append(where, wrap("Kept: "+sheetOrPath(k.path)+" as in revision "+k.entry[:7]+": "+k.file, d.Width, "  "))
	}
	if whole > 0 {
		to := last[whole-1].Parents[0]
		if err := d.noteUndo(undoing{From: last[0].ID, To: to, Lines: append(d.sayEntries(last[:whole]), where...)}); err != nil {
			return err
		}
		if err := d.repo.Advance(ctx, last[0].ID, to); err != nil {
			if !d.repo.BrokenOff() {
				os.Remove(d.undoFile())
			}
			return d.notUndone(err)
		}
		last = last[whole:]
	}
	if err := d.takeBackTyped(ctx, last, where); err != nil {
		return err
	}
	for _, line := range where {
		d.say("%s", line)
	}
	switch {
	case whole > 0 && len(last) == 0:
		d.say("Taken back. The files are as they were before.")
	case whole > 0:
		d.say("Taken back. The numbers are as they were before; the other files stay as typed, not yet entered.")
	default:
		d.say("Taken back. The files stay as typed, not yet entered.")
	}
	if len(last) > 0 {
		d.next("blotter status")
	}
	// Only now that it is said: whoever did not read it is told by the next
	// command, and undo typed again takes back nothing more.
	os.Remove(d.undoFile())
	return nil
}

// takeBackTyped takes entries back whose files stay as typed.
func (d *desk) takeBackTyped(ctx context.Context, last []history.Commit, where []string) error {
	if len(last) == 0 {
		return nil
	}
	note := undoing{From: last[0].ID, To: last[len(last)-1].Parents[0], Lines: append(d.sayEntries(last), where...)}
	if err := d.noteUndo(note); err != nil {
		return err
	}
	err := d.repo.TakeBack(ctx, note.From, len(last))
	if err != nil {
		os.Remove(d.undoFile())
	}
	switch {
	case errors.Is(err, gitrepo.ErrFirst):
		return misuse("this is the first entry, which holds the ledger itself")
	case errors.Is(err, gitrepo.ErrMerge):
		return misuse("the last entry joins the work of two people, so it stays")
	case err != nil:
		return stuck("%v", err)
	}
	return nil
}

// sharedWith names another copy that has the revision, as far as this copy
// knows, or a release that names it; "" when it is this copy's alone.
func (d *desk) sharedWith(ctx context.Context, id string) (string, error) {
	refs, err := d.repo.Refs(ctx)
	if err != nil {
		return "", stuck("%v", err)
	}
	for _, r := range refs {
		name, remote := strings.CutPrefix(r.Name, "refs/remotes/")
		tag, release := strings.CutPrefix(r.Name, "refs/tags/")
		if !remote && !release {
			continue
		}
		has, err := d.repo.IsAncestor(ctx, id, r.Commit)
		if err != nil {
			return "", stuck("%v", err)
		}
		if has && release {
			return "release " + tag, nil
		}
		if has {
			return d.copyNamed(name), nil
		}
	}
	return "", nil
}

// copyNamed is where the copy is that a remembered branch came from; "another
// copy" when its address is forgotten.
func (d *desk) copyNamed(branch string) string {
	name, _, _ := strings.Cut(branch, "/")
	others, _ := d.repo.Others()
	for _, o := range others {
		if o.Name == name {
			return shownAddress(o.Address)
		}
	}
	return "another copy"
}
