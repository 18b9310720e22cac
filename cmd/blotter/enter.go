package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

func enterCommand() *command {
	return &command{
		Name: "enter", Family: famEnter, Synopsis: "[SHEETS|WORK|PATH...]",
		Says: "Enters what is written and not yet entered, whoever wrote it.",
		Notes: []string{"What is sound is entered; a file with an error stays as it is and is listed with its reason. " +
			"With --strict one error holds up all."},
		Examples: []example{
			{"blotter enter", "everything that is in order"},
			{"blotter enter 1203..1205", "only these sheets"},
			{`blotter enter 482 --why "typed wrongly; label seen"`, "an opinion was mended by hand: the reason goes into the entry"},
		},
		Args:  []argument{{"SHEETS|WORK|PATH", "sheets, works or files; without any, all"}},
		Flags: joinFlags([]*flag{flagStrict, flagWhy, flagExcept}, enterFlags[:2], enterFlags[3:]), Exits: []int{exitFindings},
		Kin: []string{"status", "check", "undo"}, Complete: "sheets",
		Run: runEnter,
	}
}

func runEnter(ctx context.Context, c *call) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no git repository, so nothing can be entered").try("Begin one here: git init, then blotter enter")
	}
	if doing := d.repo.InProgress(); doing != "" {
		return d.settleMerge(ctx, doing)
	}
	changes, odd, err := d.chosen(ctx, c.args)
	if err != nil {
		return err
	}
	if again, err := d.settlePending(ctx, changes); err != nil {
		return err
	} else if again {
		if changes, odd, err = d.chosen(ctx, c.args); err != nil {
			return err
		}
	}
	if len(changes)+len(odd) == 0 {
		c.say("Nothing is waiting to be entered.")
		return nil
	}
	sound, faulty, found, err := d.sortOut(ctx, changes)
	if err != nil {
		return err
	}
	for _, f := range odd {
		faulty, changes = append(faulty, fileChange{path: f.Path}), append(changes, fileChange{path: f.Path})
	}
	found = append(found, odd...)
	ledger.SortFindings(found)
	d.viewOf(d.env, changes).show(found)
	errs, warns := countFindings(found)
	strict := c.opts.on("strict") && errs+warns > 0
	c.say("%s checked: %s, %s.", fileCount(changes), noneOr(errs, "error"), noneOr(warns, "warning"))
	if strict {
		c.say("Nothing was entered: --strict.")
		return errFindings
	}
	if len(sound) > 0 {
		if err := d.enterFiles(ctx, sound); err != nil {
			return err
		}
	}
	if len(faulty) == 0 {
		return nil
	}
	var names []string
	for _, f := range faulty {
		names = append(names, sheetOrPath(f.path))
	}
	c.say("%s", wrap("Left as they are, not entered: "+strings.Join(names, ", ")+".", c.Width, ""))
	c.next("blotter edit %s", d.briefPath(faulty[0].path))
	return errFindings
}

func noneOr(n int, noun string) string {
	if n == 0 {
		return "no " + noun + "s"
	}
	return count(n, noun)
}

// fileCount says how many sheets, and how many other files.
func fileCount(changes []fileChange) string {
	sheets := 0
	for _, c := range changes {
		if _, ok := ledger.NumberOfPath(c.path); ok {
			sheets++
		}
	}
	others := len(changes) - sheets
	switch {
	case others == 0:
		return count(sheets, "sheet")
	case sheets == 0:
		return count(others, "file")
	}
	return count(sheets, "sheet") + " and " + count(others, "other file")
}

// chosen are the pending files that the arguments name; without arguments
// all. Links, and files too large to be read, are findings instead.
func (d *desk) chosen(ctx context.Context, words []string) (changes []fileChange, odd []ledger.Finding, err error) {
	pending, err := d.pending(ctx)
	if err != nil {
		return nil, nil, err
	}
	keep, err := d.pathFilter(words, pending)
	if err != nil {
		return nil, nil, err
	}
	for _, p := range pending {
		if !keep(p.path) {
			continue
		}
		if found := p.odd(); len(found) > 0 {
			odd = append(odd, found...)
			continue
		}
		c, err := d.asChange(ctx, p)
		if err != nil {
			return nil, nil, err
		}
		changes = append(changes, c)
	}
	return changes, odd, nil
}

// pathFilter reads SHEETS and paths into a test for a pending file's path.
func (d *desk) pathFilter(words []string, pending []pendingFile) (func(string) bool, error) {
	except, err := readSheets(d.opts.list("except"), nil)
	if err != nil {
		return nil, err
	}
	waiting := pendingShelf{d, pending}
	leave := map[ledger.Number]bool{}
	for _, t := range except {
		found, _, err := t.numbers(waiting)
		if err != nil {
			return nil, err
		}
		for _, n := range found {
			leave[n] = true
		}
	}
	if len(words) == 0 {
		return func(p string) bool { n, ok := ledger.NumberOfPath(p); return !ok || !leave[n] }, nil
	}
	paths := map[string]bool{}
	var sheets []string
	for _, w := range words {
		p, isPath := d.ledgerPath(w)
		if !isPath && d.isWork(w) {
			n, err := d.workArgument(w)
			if err != nil {
				return nil, err
			}
			p, isPath = n.Path(), true
		}
		if !isPath {
			sheets = append(sheets, w)
			continue
		}
		paths[p] = true
	}
	terms, err := readSheets(sheets, d.In)
	if err != nil {
		return nil, err
	}
	ns, err := resolveSheets(terms, waiting, except)
	if err != nil {
		return nil, err
	}
	return func(p string) bool {
		n, ok := ledger.NumberOfPath(p)
		return paths[p] || ok && slices.Contains(ns, n)
	}, nil
}

// pendingShelf knows the sheets of the ledger and those taken off the disk.
type pendingShelf struct {
	*desk
	pending []pendingFile
}

func (s pendingShelf) find(n ledger.Number) (ledger.Number, bool) {
	if have, ok := s.desk.find(n); ok {
		return have, true
	}
	for _, p := range s.pending {
		if have, ok := ledger.NumberOfPath(p.path); ok && have.Key() == n.Key() {
			return have, true
		}
	}
	return "", false
}

// ledgerPath is the ledger's path of a file as typed; false for what is no
// path.
func (d *desk) ledgerPath(typed string) (string, bool) {
	if !strings.ContainsAny(typed, `/\`) && !strings.Contains(typed, ".yaml") && !strings.HasSuffix(typed, ".md") {
		return "", false
	}
	rel, err := filepath.Rel(d.root, inDir(d.Dir, typed))
	if err != nil || strings.HasPrefix(rel, "..") {
		return filepath.ToSlash(typed), true
	}
	return filepath.ToSlash(rel), true
}

// sortOut parts the changes into those that can be entered and those with an
// error. Taking a faulty one out can leave another without its partner, so it
// is done until no more falls out.
func (d *desk) sortOut(ctx context.Context, changes []fileChange) (sound, faulty []fileChange, found []ledger.Finding, err error) {
	sound = changes
	for {
		message := "" // without a reason it lifts no law
		if d.opts.text("why") != "" {
			message = d.messageOf(sound)
		}
		fs, err := d.judged(ctx, sound, message)
		if err != nil {
			return nil, nil, nil, err
		}
		bad := map[string]bool{}
		touched := map[string]bool{}
		for _, c := range sound {
			touched[c.path] = true
		}
		for _, f := range fs {
			if !touched[f.Path] {
				continue
			}
			found = append(found, f)
			if f.Severity == ledger.Error {
				bad[f.Path] = true
			}
		}
		if len(bad) == 0 {
			ledger.SortFindings(found)
			return sound, faulty, slices.Compact(found), nil
		}
		var rest []fileChange
		for _, c := range sound {
			if bad[c.path] {
				faulty = append(faulty, c)
			} else {
				rest = append(rest, c)
			}
		}
		if sound = rest; len(sound) == 0 {
			ledger.SortFindings(found)
			return nil, faulty, slices.Compact(found), nil
		}
	}
}

// messageOf is the message of an entry of these files; with --why it lifts
// the law of opinions for every record whose older words were altered.
func (d *desk) messageOf(changes []fileChange) string {
	e := entry{changes: changes}
	if why := d.opts.text("why"); why != "" {
		for _, c := range changes {
			_, isRecord := ledger.NumberOfPath(c.path)
			_, isWork := ledger.WorkNumberOfPath(c.path)
			if (isRecord || isWork) && c.old != nil {
				e.trailers = append(e.trailers, fmt.Sprintf("%s: %s %s", history.CorrectsKey, numberOfFile(c.path), oneLine(why)))
			}
		}
	}
	return e.message()
}

// numberOfFile is the base name of a record's or a work's file.
func numberOfFile(path string) string {
	return strings.TrimSuffix(path[strings.LastIndexByte(path, '/')+1:], ".yaml")
}

// enterFiles makes one revision of files that are on disk already.
func (d *desk) enterFiles(ctx context.Context, changes []fileChange) error {
	if d.opts.on("dry-run") {
		d.report(entered{dry: true}, "")
		return nil
	}
	author, committer, err := d.recorder(ctx)
	if err != nil {
		return err
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	message := d.messageOf(changes)
	id, err := d.repo.Commit(ctx, gitrepo.CommitRequest{Paths: paths(changes), Message: message, Author: author, Committer: committer})
	if errors.Is(err, gitrepo.ErrNothing) {
		d.say("Nothing is waiting to be entered.")
		return nil
	}
	if err != nil {
		return stuck("not entered; your files stay as typed: %v", err)
	}
	subject, _, _ := strings.Cut(message, "\n")
	d.report(entered{id: id, author: author.Name}, subject)
	return nil
}
