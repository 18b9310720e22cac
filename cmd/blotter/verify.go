package main

import (
	"context"
	"fmt"
	"strings"
	"time"

	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

func verifyCommand() *command {
	return &command{
		Name: "verify", Family: famAsk,
		Says: "Proves that nothing shared ever vanished: every entry, every release, every picture, every stored byte.",
		Notes: []string{"It holds each entry of the history to the law: no opinion, note, type status, fate, line of work or number that stood before is altered or gone, unless that entry bears a correction with its reason (Corrects:). The first entry that broke it is told in full: who, when, which sheet, what vanished, and what to type to put it right. What stands again since is counted and no longer a fault.",
			"Releases (blotter release; git's tags): each must still be what it was when this copy first saw it, lie in the ledger's history, and bear a signature that fits if it bears one. A signature is checked by the git program with the keys that this computer knows. With --archive the releases alone are looked at, and whether FILE is one of those that went out with them.",
			"What was proved of an entry holds for ever and is kept, so a second run reads only what came since, and every stored byte. It works in a bare repository, the server end, too; best once a week and before a backup is trusted."},
		Examples: []example{
			{"blotter verify", "the whole history"},
			{"blotter verify --since 2026-01-01", "of the entries only those of this year"},
			{"blotter verify --archive lk7.zip", "is this the file that went out, and with which release?"},
			{"blotter verify --no-cache --json", "all anew, for a program"},
		},
		Flags: joinFlags([]*flag{flagSince, flagArchive, flagNoCache}, askFlags), Exits: []int{exitFindings},
		Kin: []string{"check", "history", "release", "backup", "hooks"},
		Run: runVerify,
	}
}

func runVerify(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("verify looks at the whole ledger; %q is too much", c.args[0]).try("One sheet: blotter history SHEET")
	}
	files := c.opts.list("archive")
	if len(files) > 0 && c.opts.given("since") {
		return misuse("--archive looks at the releases alone, and --since at entries; one of them is enough")
	}
	d, err := c.deskOrServer(ctx)
	if err != nil {
		return err
	}
	defer d.repo.Close()
	v := &verification{desk: d}
	if len(files) > 0 {
		err = v.lookAtArchives(ctx, files)
	} else {
		err = v.run(ctx)
	}
	if err != nil {
		return err
	}
	switch {
	case c.asksJSON() && len(files) > 0:
		err = c.printJSON(v.archivesInJSON())
	case c.asksJSON():
		err = c.printJSON(v.inJSON())
	default:
		v.tell()
	}
	if err == nil && v.broken() {
		err = errFindings
	}
	return err
}

// deskOrServer is the desk of the ledger that we stand in, or of the one that
// a bare repository holds, whose files lie nowhere.
func (c *call) deskOrServer(ctx context.Context) (*desk, error) {
	if _, ok := ledgerAbove(c.Dir); ok {
		d, err := c.desk()
		if err == nil && d.repo == nil {
			err = stuck("this folder has no git repository, so it has no history")
		}
		return d, err
	}
	repo, err := gitrepo.Open(c.Dir, c.Environ)
	if err != nil || !repo.Bare() {
		_, err := c.desk()
		return nil, err
	}
	at, err := repo.Setting("blotter.ledger")
	if err != nil {
		return nil, stuck("%v", err)
	}
	repo = repo.In(strings.TrimPrefix(at, "."))
	c.opened = append(c.opened, repo)
	d := &desk{call: c, repo: repo, zone: zoneOf(ctx, repo), museum: &ledger.Museum{}}
	src, err := d.atHead(ctx, ledger.MuseumFile)
	if err != nil {
		return nil, err
	}
	if src == nil {
		return nil, stuck("%s holds no ledger yet", c.Dir)
	}
	d.museum, _ = ledger.DecodeMuseum(ledger.MuseumFile, src)
	return d, nil
}

// verification is one run of verify and what it found.
type verification struct {
	*desk
	tip      string
	view     *history.View // nil: the history cannot be read
	whole    gitrepo.Wholeness
	proof    hooks.Proof
	since    bool // not all entries were asked for
	noPast   error
	remedies map[int][]string // of breaches, by their place in proof.Breaches
	releases []release
	gone     []release // known from before, and no longer there
	pictures pictureProof
	archives []sought // files that are asked about
}

func (v *verification) run(ctx context.Context) error {
	var err error
	if v.tip, err = v.head(ctx); err != nil {
		return err
	}
	if v.whole, err = v.repo.Whole(ctx, v.cache(), v.progress("Reading what is stored")); err != nil {
		return stuck("%v", err)
	}
	if err := v.past(ctx); err != nil {
		if ctx.Err() != nil || len(v.whole.Faults) == 0 {
			return err
		}
		v.noPast = err // what is damaged says why
		return nil
	}
	if err := v.lookAtReleases(ctx); err != nil {
		return err
	}
	return v.lookAtPictures(ctx)
}

// past holds the history to the laws.
func (v *verification) past(ctx context.Context) error {
	var err error
	if v.view, err = v.repo.History(ctx, v.cache(), v.tip); err != nil {
		return stuck("%v", err)
	}
	var after func(string) bool
	if since := v.opts.text("since"); since != "" {
		known, err := v.before(ctx, v.view, since)
		if err != nil {
			return err
		}
		v.since, after = true, func(id string) bool { return known[id] }
	}
	bench := hooks.Bench{Repo: v.repo, Cache: v.cache(), Today: v.todayAsDay(), Progress: v.progress("Proving entries")}
	if v.proof, err = bench.Prove(ctx, v.tip, after); err != nil {
		return stuck("%v", err)
	}
	v.remedies = map[int][]string{}
	for i, x := range v.proof.Breaches {
		if x.Mended == "" && x.Finding.Severity == ledger.Error {
			if v.remedies[i], err = v.remedy(ctx, x); err != nil {
				return stuck("%v", err)
			}
		}
	}
	return nil
}

// open are the broken promises that nobody has put right, as places in
// proof.Breaches, oldest first; put right and unread the others.
func (v *verification) sorted() (open, mended, unread []int) {
	for i, x := range v.proof.Breaches {
		switch {
		case x.Finding.Severity != ledger.Error:
			unread = append(unread, i)
		case x.Mended != "":
			mended = append(mended, i)
		default:
			open = append(open, i)
		}
	}
	return open, mended, unread
}

func (v *verification) broken() bool {
	open, _, _ := v.sorted()
	bad := len(open) > 0 || len(v.whole.Faults) > 0 || len(v.gone) > 0 || len(v.pictures.changed) > 0 || v.noPast != nil
	for _, r := range v.releases {
		bad = bad || r.bad()
	}
	for _, a := range v.archives {
		bad = bad || len(a.with) == 0
	}
	return bad
}

// byWhom is who made an entry, when, and its revision.
func (v *verification) byWhom(id string) string {
	place, ok := v.view.Place(id)
	if !ok {
		return "revision " + id[:7]
	}
	c := v.view.Commit(place)
	return fmt.Sprintf("%s, %s, revision %s", c.Author.When.In(v.zone).Format("2 January 2006"), c.Author.Name, c.ID[:7])
}

// subjectWord is what people call the file that a finding is about.
func subjectWord(path string) string {
	if n, ok := ledger.NumberOfPath(path); ok {
		return string(n)
	}
	if n, ok := ledger.WorkNumberOfPath(path); ok {
		return string(n)
	}
	return path
}

func dayWord(when time.Time, zone *time.Location) string {
	return when.In(zone).Format("2 January 2006")
}
