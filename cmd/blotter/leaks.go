package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/public"
)

// scanner looks through an output of which file keeps what was looked through
// before; "" when nothing is kept. whole: every file of a site is given.
func (d *desk) scanner(s *public.Secrets, file string, whole bool) *public.Scanner {
	o := public.ScanOptions{Reviewed: s.Reviewed(), Whole: whole}
	full := d.opts.has("full") && d.opts.on("full") || d.opts.has("no-cache") && d.opts.on("no-cache")
	if file != "" && !full {
		o.State, _ = os.ReadFile(file)
	}
	return s.Scanner(o)
}

// keepScan notes what was looked through, for the next time.
func (d *desk) keepScan(file string, scan *public.Scanner) error {
	if scan == nil {
		os.Remove(file)
		return nil
	}
	return d.keepState(file, scan.State())
}

// lookThrough looks through one file of an export, which is to be named as the
// leak test names it: "export:" and its kind.
func (d *desk) lookThrough(ctx context.Context, s *public.Secrets, name string, r io.ReaderAt, size int64) error {
	scan := d.scanner(s, "", false)
	if err := scan.Scan(ctx, name, r, size); err != nil {
		return stuck("%v", err)
	}
	report, err := scan.Report(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	d.stale(report.Stale)
	if len(report.Leaks) > 0 {
		return d.leaked("written", report.Leaks)
	}
	return nil
}

// leakLines is how many places of a leak are told.
const leakLines = 20

// leaked says where withheld words would have become public, without
// repeating them. what was not done: published, written.
func (d *desk) leaked(what string, leaks []public.Leak) error {
	d.say("Not %s: a withheld place would have become public.", what)
	named := map[string]bool{} // files whose name tells it
	for _, l := range leaks {
		named[l.File] = named[l.File] || l.Line <= 0
	}
	var lines []string
	for _, l := range leaks {
		who := string(l.Number)
		if who == "" {
			who = "a person"
		}
		where := ledger.ShownPath(l.File)
		if l.Line > 0 {
			where += ", line " + thousands(l.Line)
		}
		where += cameFrom(l.File)
		if named[l.File] {
			where = "a file in " + path.Dir(l.File) + "/ whose name would tell it"
		}
		if line := fmt.Sprintf("  %s, %s, found in what would be %s", who, l.Field, where); !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
		if len(lines) > leakLines {
			lines[leakLines] = "  and more"
			break
		}
	}
	for _, line := range lines {
		d.say("%s", line)
	}
	d.say("  All is as it was. Take the words out of the text they stand in, or name the region only.   [place-leak]")
	if first := leaks[0]; !named[first.File] {
		d.say("  If they may stand there, say so in %s: - {file: %s, text: THE WORDS THERE, why: WHY, by: NAME, date: %s}", ledger.PublicFile, first.File, d.today())
	}
	return errFindings
}

// cameFrom names the file of the ledger that a page of the site is made from,
// where that is one.
func cameFrom(file string) string {
	if slug, ok := strings.CutPrefix(file, "about/"); ok {
		slug, _, _ = strings.Cut(slug, ".")
		return " (from " + ledger.PagesDir + "/" + slug + ".md)"
	}
	return ""
}

// stale warns of reviewed hits that occur no more.
func (d *desk) stale(list []ledger.Reviewed) {
	for _, r := range list {
		d.tell("%s, line %d: this reviewed hit in %s occurs no more; take the entry out   [review-stale]", ledger.PublicFile, r.Line, ledger.ShownPath(r.File.Text))
	}
}

// giveAway lists the records that would tell where withheld ones grew, and
// what to do about each. what was not done: published, written.
func (d *desk) giveAway(what string, list []public.Neighbour) error {
	d.say("Not %s: %s would tell where a withheld one grew.", what, count(len(list), "sheet"))
	var numbers []string
	category := public.Low
	for i, n := range list {
		if b := d.brief(n.Number); !slices.Contains(numbers, b) {
			numbers = append(numbers, b)
		}
		category = max(category, n.Class)
		if i < leakLines {
			d.say("  %s, %s as %s, and at the same place", n.Number, n.Tie, n.Of)
		}
	}
	if len(list) > leakLines {
		d.say("  and %s more", thousands(len(list)-leakLines))
	}
	sheets := strings.Join(numbers[:min(len(numbers), leakLines)], " ")
	d.say("  Show them no finer:  blotter set %s sensitive.category=%s sensitive.why=WHY --why WHY", sheets, category.Category())
	d.say("  or, if they may be shown as they are:  blotter set %s sensitive.released.why=WHY sensitive.released.by=NAME sensitive.released.date=%s --why WHY   [place-neighbour]", sheets, d.today())
	return errFindings
}

// givesAway refuses an export for everybody with a sheet that would give a
// withheld one away.
func (x *exporting) givesAway() error {
	if x.Full {
		return nil
	}
	chosen := map[ledger.Number]bool{}
	for _, e := range x.chosen {
		chosen[e.Number] = true
	}
	list := slices.DeleteFunc(x.view.Neighbours(), func(n public.Neighbour) bool { return !chosen[n.Number] })
	if len(list) == 0 {
		return nil
	}
	return x.desk.giveAway("written", list)
}
