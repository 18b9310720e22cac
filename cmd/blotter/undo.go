package main

import (
	"context"
	"errors"
	"strings"

	"blotter/ledger/gitrepo"
)

func undoCommand() *command {
	return &command{
		Name: "undo", Family: famEnter,
		Says: "Takes back the last entry while only this copy has it; the files stay as typed.",
		Examples: []example{
			{"blotter undo", "shows the last entry and asks"},
			{"blotter undo --yes", "without asking"},
			{"blotter undo --dry-run", "only shows what would be taken back"},
		},
		Flags: []*flag{flagDryRun, flagYes},
		Kin:   []string{"enter", "changes", "withdraw"},
		Run:   runUndo,
	}
}

func runUndo(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("only the last entry can be taken back; %q is too much", c.args[0])
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	id, err := d.head(ctx)
	if err != nil {
		return err
	}
	if id == "" {
		return stuck("nothing has been entered yet")
	}
	last, err := d.repo.Revision(ctx, id)
	if err != nil {
		return stuck("%v", err)
	}
	shared, err := d.sharedWith(ctx, id)
	if err != nil {
		return err
	}
	if shared != "" {
		return misuse("the last entry is shared already (%s has it), so it stays", shared).
			try("A fact: blotter set SHEET FIELD=VALUE --why TEXT", "A sheet: blotter withdraw SHEET --is mistake --why TEXT",
				"An opinion stays and is shown as a mistake: blotter set SHEET determinations.2.mistake=REASON --why TEXT")
	}
	c.say("%s, %s, revision %s:", last.Author.Name, last.Author.When.In(d.zone).Format("2 January 2006 15:04"), id[:7])
	c.say("  %s", last.Subject())
	if ok, err := d.consent(ctx, "Take it back?"); !ok {
		return err
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	switch err := d.repo.TakeBack(ctx, id); {
	case errors.Is(err, gitrepo.ErrFirst):
		return misuse("this is the first entry, which holds the ledger itself")
	case errors.Is(err, gitrepo.ErrMerge):
		return misuse("the last entry joins the work of two people, so it stays")
	case err != nil:
		return stuck("%v", err)
	}
	c.say("Taken back. The files stay as typed, not yet entered.")
	c.next("blotter status")
	return nil
}

// sharedWith names another copy that has the revision, as far as this copy
// knows; "" when none has.
func (d *desk) sharedWith(ctx context.Context, id string) (string, error) {
	refs, err := d.repo.Refs(ctx)
	if err != nil {
		return "", stuck("%v", err)
	}
	for _, r := range refs {
		name, remote := strings.CutPrefix(r.Name, "refs/remotes/")
		if !remote {
			continue
		}
		has, err := d.repo.IsAncestor(ctx, id, r.Commit)
		if err != nil {
			return "", stuck("%v", err)
		}
		if has {
			copyName, _, _ := strings.Cut(name, "/")
			return copyName, nil
		}
	}
	return "", nil
}
