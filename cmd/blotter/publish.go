package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
	"blotter/render"
)

func publishCommand() *command {
	return &command{
		Name: "publish", Family: famMake,
		Says:  "Makes the catalogue: web pages and Markdown of every full record, as last entered.",
		Notes: []string{"What may not be public is left out or made coarser, and every file is looked through for it before any is put in place. Only pages that change are written. Files in the folder that Blotter did not make are left alone. A publication that was broken off is finished by the next one."},
		Examples: []example{
			{"blotter publish", "into the folder site/ of the ledger"},
			{"blotter publish --branch pages", "onto a branch, for hosts that serve one"},
			{"blotter publish --staff", "everything, withheld places too, for the museum's own staff"},
		},
		Flags: []*flag{flagTo, flagBranch, flagStaff, flagAt, flagOnly, flagFull, flagNoCache},
		Exits: []int{exitFindings},
		Kin:   []string{"serve", "changes", "check"},
		Run:   runPublish,
	}
}

// Publishing collects its garbage sooner when it comes near this much memory,
// in bytes, in all and for each record. It keeps alive some 160 MB and 2000
// bytes a record, as measured on synthetic ledgers; with little more room than
// that the collector would do most of the work.
const (
	publishMemory     = 400 << 20
	publishMemoryEach = 2600
)

func runPublish(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("publish makes the whole catalogue; %q is too much", c.args[0]).try("blotter publish --to DIR")
	}
	staff := c.opts.on("staff")
	if staff && c.opts.given("branch") {
		return misuse("the staff's site is never put on a branch: a branch is what others fetch").try("blotter publish --staff --to DIR")
	}
	if c.opts.given("to") && c.opts.given("branch") {
		return misuse("--to is a folder and --branch a branch; one of them")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	tip, err := d.publishable(ctx)
	if err != nil {
		return err
	}
	in, full, err := d.siteInput(ctx, tip, false, staff)
	if err != nil {
		return err
	}
	debug.SetGCPercent(200) // pages are short-lived garbage: less work, as far as the limit allows
	limitMemory(publishMemory + int64(in.Book.Len())*publishMemoryEach)
	in.Options.HTMLOnly = c.opts.text("only") == "html"
	if branch := c.opts.text("branch"); branch != "" {
		return d.publishBranch(ctx, in, branch, tip)
	}
	dir, err := d.siteDir(staff)
	if err != nil {
		return err
	}
	report, err := d.buildSite(ctx, in, dir)
	if err != nil {
		return err
	}
	if staff {
		d.publishedForStaff(report, tip, dir)
		return nil
	}
	d.published(ctx, report, full, tip, dir)
	return nil
}

// publishable is the revision to publish; a copy without the whole history
// has none.
func (d *desk) publishable(ctx context.Context) (string, error) {
	if d.repo == nil {
		return "", stuck("this folder has no git repository, so nothing is entered that could be published")
	}
	missing, err := d.repo.Missing()
	if err != nil {
		return "", stuck("%v", err)
	}
	if len(missing) > 0 {
		return "", stuck("this copy does not have the whole history; pages made from it would leave out who entered what").
			try("Get the rest: git fetch --unshallow")
	}
	if rev := d.opts.text("at"); rev != "" {
		return d.revision(ctx, rev)
	}
	tip, err := d.head(ctx)
	if err == nil && tip == "" {
		err = stuck("nothing has been entered yet").try("blotter enter")
	}
	return tip, err
}

// published says what was done, and what changed since the last time.
func (d *desk) published(ctx context.Context, r render.Report, full *book.Book, tip, dir string) {
	if d.opts.on("quiet") {
		d.notePublished(tip)
		return
	}
	d.say("%s, revision %s. %s written, %s unchanged%s. %s; nothing withheld found in any file.",
		count(r.Sheets, "sheet"), tip[:7], count(r.Written, "file"), thousands(r.Unchanged), removedWords(r.Removed), withheldWords(r.Withheld))
	teaching := 0
	for e := range full.All() {
		if e.Stage == ledger.Full && full.Aside(e.Number) {
			teaching++
		}
	}
	if !d.opts.on("staff") && teaching > 0 {
		r.Drafts -= min(teaching, r.Drafts)
		d.say("Not published: %s of teaching or student lots, not yet taken in.", count(teaching, "sheet"))
	}
	if r.Drafts+r.Stubs > 0 {
		d.say("Not published: %s, %s.", count(r.Drafts, "draft"), count(r.Stubs, "stub"))
	}
	if unread := unreadSheets(full); len(unread) > 0 {
		d.say("%s", hang(count(len(unread), "file")+" could not be read, so not published: ", strings.Join(unread[:min(len(unread), manyOfOneCode)], ", "), d.Width))
	}
	if len(r.Refused) > 0 {
		d.say("%s", hang(count(len(r.Refused), "picture")+" not shown, since the files hold no JPEG, PNG, GIF or WebP that is whole: ", strings.Join(r.Refused[:min(len(r.Refused), manyOfOneCode)], ", "), d.Width))
	}
	if words := d.sincePublished(ctx, tip, full); words != "" {
		d.say("Since the last publication: %s.", words)
	}
	if staged, err := d.repo.Unentered(ctx); err == nil && staged {
		d.say("Edits that are not entered yet are not on it: blotter status")
	}
	d.say("%s", filepath.Join(dir, "index.html"))
	d.notePublished(tip)
}

// unreadSheets are the records of which nothing is known, since their files
// were entered past the hooks and cannot be read.
func unreadSheets(b *book.Book) []string {
	var out []string
	for e := range b.All() {
		if e.Stage != ledger.Full && slices.ContainsFunc(e.Findings, func(f ledger.Finding) bool { return f.Code == "file-large" || f.Code == "yaml-syntax" }) {
			out = append(out, string(e.Number))
		}
	}
	return out
}

func removedWords(n int) string {
	if n == 0 {
		return ""
	}
	return ", " + thousands(n) + " removed"
}

func withheldWords(n int) string {
	if n == 0 {
		return "No place withheld"
	}
	return count(n, "place") + " withheld"
}

// publishedFile notes the last revision that was published from this copy.
func (d *desk) publishedFile() string { return filepath.Join(d.repo.StateDir(), "published") }

func (d *desk) notePublished(tip string) {
	if err := d.keepState(d.publishedFile(), []byte(tip+"\n")); err != nil {
		d.tell("this publication could not be noted: %v", err)
	}
}

// lastPublished is the last revision published from this copy; "" for none.
func (d *desk) lastPublished() string {
	b, err := os.ReadFile(d.publishedFile())
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(b))
}

// publishBranch puts the site on a branch as its one commit.
func (d *desk) publishBranch(ctx context.Context, in *render.Input, branch, tip string) error {
	dir, err := os.MkdirTemp("", "blotter-site-")
	if err != nil {
		return stuck("%v", err)
	}
	defer os.RemoveAll(dir)
	report, err := d.buildSite(ctx, in, dir)
	if err != nil {
		return err
	}
	os.Remove(d.stateFile(dir))
	tree, err := disk.OpenTree(dir)
	if err != nil {
		return stuck("%v", err)
	}
	defer tree.Close()
	files, err := tree.Files()
	if err != nil {
		return stuck("%v", err)
	}
	commit, err := d.repo.Revision(ctx, tip)
	if err != nil {
		return stuck("%v", err)
	}
	_, err = d.repo.PublishBranch(ctx, gitrepo.Publication{
		Branch: branch, Message: asOf(in.Site),
		Who: history.Person{Name: d.museum.Name.Text, Email: "catalogue@localhost", When: commit.Committer.When},
		Files: func(put func(path string, data []byte) error) error {
			for _, f := range files {
				data, err := tree.Read(f)
				if err == nil {
					err = put(f, data)
				}
				if err != nil {
					return err
				}
			}
			return nil
		},
	})
	if errors.Is(err, gitrepo.ErrBranchInUse) {
		return misuse("%s is the branch that the ledger itself is on", branch)
	}
	if err != nil {
		return stuck("%v", err)
	}
	d.say("%s, revision %s, on the branch %s. %s; nothing withheld found in any file.", count(report.Sheets, "sheet"), tip[:7], branch, withheldWords(report.Withheld))
	d.notePublished(tip)
	return nil
}

// asOf says which version of the ledger a publication shows, in words that
// become public with it.
func asOf(rv render.Revision) string {
	if rv.ID == "" {
		return "The catalogue as of " + rv.When.Format("2 January 2006")
	}
	return "The catalogue as of revision " + rv.Short()
}

// sincePublished counts, by kind, the sheets of which the catalogue shows
// something anew: "3 new, 1 named anew"; "" when nothing was published before,
// or nothing changed.
func (d *desk) sincePublished(ctx context.Context, tip string, full *book.Book) string {
	last, err := d.publishedRevision(ctx)
	if err != nil || last == tip {
		return "" // never, or that revision is gone, as after undo
	}
	diff, err := d.difference(ctx, last, tip, full)
	if err != nil {
		return ""
	}
	return diff.counted()
}
