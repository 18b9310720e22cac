package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"

	"blotter/examples"
	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
)

func demoCommand() *command {
	return &command{
		Name: "demo", Family: famMake, Synopsis: "[DIR]",
		Says: "Makes a small museum to look at: its ledger with ten years of history, checked, published and shown.",
		Notes: []string{"The folder is made anew, or is one that demo made; any other is refused. Everything in it may be thrown away. Your own git settings are neither used nor changed.",
			"--practice makes another small museum with ten drawn labels, in a folder of its own: blotter new there compares what was typed with a model record. It cannot be shared, nor become part of a real ledger."},
		Examples: []example{
			{"blotter demo", "in the folder blotter-demo; prints the address of a page"},
			{"blotter demo --no-serve", "stops after publishing"},
			{"blotter demo --practice", "ten labels to type, nothing at stake"},
		},
		Args:  []argument{{"DIR", "the folder; without it blotter-demo, or blotter-practice"}},
		Flags: []*flag{flagPractice, flagNoServe, flagPort}, Exits: []int{exitFindings},
		Kin: []string{"init", "serve"},
		Run: runDemo,
	}
}

const demoFolder = "blotter-demo"

// demoMark, in the ledger's own folder below git's, says that demo made it.
const demoMark = "made-by-demo"

func runDemo(ctx context.Context, c *call) error {
	if len(c.args) > 1 {
		return misuse("one folder; %q is too much", c.args[1])
	}
	dir := inDir(c.Dir, demoFolder)
	if c.opts.on(flagPractice.Name) {
		dir = inDir(c.Dir, practiceFolder)
	}
	if len(c.args) == 1 {
		dir = inDir(c.Dir, c.args[0])
	}
	if c.opts.on(flagPractice.Name) {
		return c.runPractice(ctx, dir)
	}
	stands, err := demoStands(dir)
	if err != nil {
		return err
	}
	if !stands {
		if err := c.makeDemo(ctx, dir); err != nil {
			return err
		}
	}
	here := c.in(dir)
	here.Environ = demoEnviron(c.Environ)
	defer here.close()
	d, err := here.desk()
	if err != nil {
		return err
	}
	return d.showDemo(ctx)
}

// demoStands reports whether demo made the folder; a foreign one is an error.
func demoStands(dir string) (bool, error) {
	if _, err := os.Stat(filepath.Join(dir, ".git", "blotter", demoMark)); err == nil {
		return true, nil
	}
	entries, err := os.ReadDir(dir)
	if err == nil && len(entries) > 0 {
		return false, misuse("%s holds something that demo did not make", dir).try("Another folder: blotter demo DIR")
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return false, stuck("%v", err)
	}
	return false, nil
}

// makeDemo replays the story in a folder beside dir and gives it its name
// when it is whole, so that a demo broken off leaves nothing behind.
func (c *call) makeDemo(ctx context.Context, dir string) error {
	if err := os.MkdirAll(filepath.Dir(dir), 0o777); err != nil {
		return stuck("%v", err)
	}
	m, err := c.makeBeside(ctx, dir)
	if err != nil {
		return err
	}
	defer m.end()
	events, err := readEvents(examples.Demo())
	if err != nil {
		return stuck("%v", err)
	}
	c.tell("Making %s: ten years of a museum, %s ...", dir, count(len(events), "day"))
	debug.SetGCPercent(300) // hundreds of commands, each of which keeps little: a quarter less work for 20 MB more
	s := &story{call: c, files: examples.Demo(), dir: m.temp}
	for _, e := range events {
		if ctx.Err() != nil {
			return errInterrupted
		}
		if err := s.play(ctx, e); err != nil {
			return stuck("%s: %v", e.when.Format("2006-01-02"), err)
		}
	}
	mark := filepath.Join(m.temp, ".git", "blotter", demoMark)
	if err := os.MkdirAll(filepath.Dir(mark), 0o777); err != nil {
		return stuck("%v", err)
	}
	if err := disk.WriteFile(mark, []byte("This ledger may be thrown away.\n")); err != nil {
		return stuck("%v", err)
	}
	if err := m.moveTo(dir); err != nil {
		return stuck("%v", err)
	}
	return nil
}

// showDemo checks, publishes and shows the ledger that was made.
func (d *desk) showDemo(ctx context.Context) error {
	if err := hooks.Setup(ctx, d.repo, d.Program); err != nil {
		return stuck("%v", err)
	}
	fs, b, err := d.findings(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	errs, warnings := countFindings(fs)
	d.say("%s: %s, %s, %s.", d.root, count(b.Len(), "sheet"), count(errs, "error"), count(warnings, "warning"))
	tip, err := d.publishable(ctx)
	if err != nil {
		return err
	}
	in, full, err := d.siteInput(ctx, tip, false, false)
	if err != nil {
		return err
	}
	site := filepath.Join(d.root, siteFolder)
	report, err := d.buildSite(ctx, in, site)
	if err != nil {
		return err
	}
	d.published(ctx, report, full, tip, site)
	best := richest(b)
	if !d.opts.on("no-serve") {
		s := &showing{desk: d, dir: filepath.Join(d.repo.StateDir(), "serve")}
		if err := s.build(ctx); err != nil {
			return err
		}
		d.demoHints(best)
		if err := s.serve(ctx, pageOf(best)); err != nil {
			return err
		}
		d.tell("The museum is in %s; it may be thrown away.", d.root)
		return nil
	}
	d.demoHints(best)
	return nil
}

// demoHints says what to try in the demo.
func (d *desk) demoHints(best *book.Entry) {
	d.say("")
	d.say("Try, in that folder:")
	hint := func(line, does string) { d.say("%s", hang("  "+pad(line, 31)+"  ", does, d.Width)) }
	d.say("  cd %s", shellWord(d.root))
	if best != nil {
		hint("blotter history "+d.brief(best.Number), "every name this sheet was given, with who, when and why")
		hint("blotter print slips "+d.brief(best.Number), "the words of its slips; for the printer add --to slips.pdf")
	}
	hint("blotter find genus:Ranunculus", "sheets by name, place, year, collector")
	hint("blotter due --on 2026-10-30", "what needed a hand on the last day of its story")
	hint("blotter report 2025", "the figures of a year")
	hint("blotter new", "a sheet of your own; then blotter enter")
	d.say("The folder may be thrown away; nothing else was changed.")
	d.say("")
}

// richest is the sheet with the most names in its past: the page to begin with.
func richest(b *book.Book) *book.Entry {
	var best *book.Entry
	for e := range b.All() {
		if e.Stage == ledger.Full && e.Fate == "" && !e.Flags.Has(book.Sensitive) && (best == nil || len(e.Once) > len(best.Once)) {
			best = e
		}
	}
	return best
}

// pageOf is the address of a sheet's page.
func pageOf(e *book.Entry) string {
	if e == nil {
		return ""
	}
	return e.Path[:len(e.Path)-len(".yaml")] + ".html"
}
