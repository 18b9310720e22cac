package main

import (
	"context"
	"strings"
	"time"

	"blotter/hooks"
	"blotter/ledger/gitrepo"
)

// warnOfHooks tells a person whose copy has no hooks that commits of other
// programs are not checked here.
func (d *desk) warnOfHooks() {
	if d.repo == nil {
		return
	}
	d.warnOfClock()
	if branch, err := d.repo.Branch(); err == nil && branch == "" {
		d.tell("%s", wrap("This copy was turned to a revision with another git program, so this entry stands on no line of work, and git switch main would leave it behind. To keep it: git switch -c NAME", d.Width, ""))
	}
	if hooks.Stands(d.repo) {
		return
	}
	d.tell("This copy has no hooks: what another git program enters is not checked. To set them up: blotter hooks install")
}

// warnOfClock tells whose entry bears an earlier day than the one before it:
// one of the two clocks was wrong, and what was entered by it bears that day.
func (d *desk) warnOfClock() {
	ctx := context.Background()
	id, err := d.head(ctx)
	if err != nil || id == "" {
		return
	}
	last, err := d.repo.Revision(ctx, id)
	if err != nil || len(last.Parents) != 1 {
		return
	}
	before, err := d.repo.Revision(ctx, last.Parents[0])
	if err != nil || !last.Committer.When.Before(before.Committer.When.AddDate(0, 0, -1)) {
		return
	}
	day := func(t time.Time) string { return t.In(d.zone).Format("2 January 2006") }
	d.tell("%s", wrap("The clock of this computer says "+day(last.Committer.When)+", and the entry before bears "+day(before.Committer.When)+
		": one of the two is wrong. If it is this one, set the clock; blotter undo takes the entry back.", d.Width, ""))
}

// installHooks puts the checks between git's commits and the ledger.
func (d *desk) installHooks(ctx context.Context) error {
	return hooks.Setup(ctx, d.repo, d.Program)
}

// bench is what judging an entry needs of this desk.
func (d *desk) bench() hooks.Bench {
	return hooks.Bench{Repo: d.repo, Cache: d.cache(), Today: d.todayAsDay(), Progress: d.progress("Reading")}
}

// checkCommits judges a stretch of entries, A..B or all up to B, as a server
// with the hooks would: for hosts where no hook can be set up.
func (d *desk) checkCommits(ctx context.Context, commits, format string) error {
	if d.repo == nil {
		return stuck("this folder has no git repository, so it has no entries")
	}
	from, to, ok := strings.Cut(commits, "..")
	if !ok {
		from, to = "", commits
	}
	g := gitrepo.Range{}
	for _, end := range []struct {
		rev  string
		into *[]string
	}{{to, &g.Tips}, {from, &g.Not}} {
		if end.rev == "" || strings.Trim(end.rev, "0") == "" {
			continue // no beginning, or the null id that hosts give for a new branch
		}
		id, err := d.revision(ctx, end.rev)
		if err != nil {
			return err
		}
		*end.into = append(*end.into, id)
	}
	if len(g.Tips) == 0 {
		return misuse("--commits %s names no entries; write it like origin/main..HEAD", commits)
	}
	v, err := d.bench().Range(ctx, g)
	if err != nil {
		return stuck("%v", err)
	}
	if v.Older > 0 && format == "text" {
		defer d.tell("%s that stood before, elsewhere.", count(v.Older, "error"))
	}
	return d.showFindings(v.Findings, nil, format, entriesSummary(v.Findings, v.Entries))
}
