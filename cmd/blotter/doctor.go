package main

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/disk"
)

func doctorCommand() *command {
	return &command{
		Name: "doctor", Family: famAsk,
		Says: "Looks whether this computer and this copy are fit for the work.",
		Notes: []string{"It looks at the program, git, the terminal, the hooks and the files that belong to every ledger; what stands in the records is looked at by check. " +
			"With --fix it offers each repair in turn."},
		Examples: []example{
			{"blotter doctor", "a line for each thing"},
			{"blotter doctor --fix", "asks before each repair"},
			{"blotter doctor --fix --yes", "repairs all it can without asking"},
		},
		Flags: joinFlags([]*flag{flagFix, flagYes, flagJSON}), Exits: []int{exitFindings},
		Kin: []string{"check", "hooks", "tidy", "status"},
		Run: runDoctor,
	}
}

// symptom is one thing that was looked at.
type symptom struct {
	What string                      `json:"what"`
	Good bool                        `json:"good"`
	Says string                      `json:"says"`
	Mend string                      `json:"mend,omitempty"` // what to type
	fix  func(context.Context) error // nil: a person must do it
}

func runDoctor(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("doctor takes nothing; %q is too much", c.args[0])
	}
	list := []symptom{c.lookAtProgram(), c.lookAtGit(ctx), c.lookAtLetters()}
	d, err := c.desk()
	var f *fault
	switch {
	case err == nil:
		list = append(list, d.lookAtLedger(ctx)...)
	case errors.As(err, &f):
		list = append(list, symptom{What: "ledger", Says: f.Error(), Mend: strings.Join(f.hints, "; ")})
	default:
		return err
	}
	amiss := 0
	for _, s := range list {
		if c.opts.on("json") {
			if err := c.printJSON(s); err != nil {
				return err
			}
		} else {
			c.showSymptom(s)
		}
		if !s.Good {
			amiss++
		}
	}
	if amiss > 0 && c.opts.on("fix") {
		if amiss, err = c.mendAll(ctx, list, amiss); err != nil {
			return err
		}
	}
	if !c.opts.on("json") {
		if amiss == 0 {
			c.say("All is well.")
		} else {
			c.say("%s amiss.", count(amiss, "thing"))
		}
	}
	if amiss > 0 {
		return errFindings
	}
	return nil
}

func (c *call) showSymptom(s symptom) {
	word := "good "
	if !s.Good {
		word = "amiss"
	}
	c.say("%s", hang("  "+word+"  "+pad(s.What, 10)+"  ", s.Says, c.Width))
	if s.Mend != "" {
		c.say("  %s  %s  %s", pad("", 5), pad("", 10), s.Mend)
	}
}

// mendAll offers each repair, and says how many things stay amiss.
func (c *call) mendAll(ctx context.Context, list []symptom, amiss int) (int, error) {
	var a *asker
	for _, s := range list {
		if s.Good || s.fix == nil {
			continue
		}
		ok := c.opts.on("yes")
		if !ok && !c.Asks {
			return amiss, misuse("nothing was repaired: there was nobody to ask").try("To answer yes beforehand, add --yes")
		}
		if !ok {
			if a == nil {
				a = c.asker()
			}
			var err error
			if ok, err = a.yesNo(ctx, "Repair: "+s.What+"?", false); err != nil {
				return amiss, err
			}
		}
		if !ok {
			continue
		}
		if err := s.fix(ctx); err != nil {
			return amiss, err
		}
		c.say("  mended %s", s.What)
		amiss--
	}
	return amiss, nil
}

func (c *call) lookAtProgram() symptom {
	return symptom{What: "program", Good: true, Says: "blotter " + programVersion() + ", " + runtime.Version() + ", " + runtime.GOOS + "/" + runtime.GOARCH}
}

func (c *call) lookAtGit(ctx context.Context) symptom {
	s := symptom{What: "git", Says: "the git program is not on the path; the work goes on without it, sharing does not", Mend: "Get it from git-scm.com or your system's packages."}
	path, err := exec.LookPath("git")
	if err != nil {
		return s
	}
	out, err := exec.CommandContext(ctx, path, "--version").Output()
	if err != nil {
		return s
	}
	return symptom{What: "git", Good: true, Says: strings.TrimSpace(string(out))}
}

// lookAtLetters asks the locale whether the terminal can show ×, ° and Á.
func (c *call) lookAtLetters() symptom {
	good := symptom{What: "letters", Good: true, Says: "×, ° and Á can be shown"}
	if runtime.GOOS == "windows" {
		return good
	}
	locale := ""
	for _, key := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if locale = c.getenv(key); locale != "" {
			break
		}
	}
	if l := strings.ToLower(locale); strings.Contains(l, "utf-8") || strings.Contains(l, "utf8") {
		return good
	}
	return symptom{What: "letters", Says: "the terminal is not said to use UTF-8, so ×, ° and Á may come out wrong", Mend: "export LANG=C.UTF-8"}
}

// lookAtLedger looks at what belongs to every ledger.
func (d *desk) lookAtLedger(ctx context.Context) []symptom {
	list := []symptom{{What: "ledger", Good: true, Says: d.museum.Name.Text + ", format " + d.museum.Format.Text + ", in " + d.root}}
	list = append(list, d.lookAtZone(), d.lookAtFile(ctx, ledger.SchemaFile, ledger.Schema(), "the schema, which editors complete and underline by,"),
		d.lookAtFile(ctx, ledger.WorkSchema, ledger.SchemaOf(ledger.WorkFileKind), "the schema of works"),
		d.lookAtFile(ctx, ".gitattributes", []byte("* -text\n"), "the file that keeps line ends as they are"), d.lookAtMerging(ctx))
	if d.repo == nil {
		return append(list, symptom{What: "history", Says: "this folder has no git repository: nothing can be entered here", Mend: "git init, then blotter enter"})
	}
	list = slices.Insert(list, 1, d.lookAtTorn(ctx)) // mended first: others enter what they mend
	return append(list, d.lookAtIdentity(), d.lookAtHooks(), d.lookAtWaiting(), d.lookAtWhole(), d.lookAtBusy(), d.lookAtLeftovers())
}

func (d *desk) lookAtZone() symptom {
	if _, err := time.LoadLocation(d.museum.Timezone.Text); err != nil {
		return symptom{What: "time zone", Says: "blotter.yaml names a zone that is not known: " + d.museum.Timezone.Text, Mend: "Write for example: timezone: Europe/Oslo"}
	}
	return symptom{What: "time zone", Good: true, Says: d.zone.String()}
}

// lookAtFile compares a file with what it should hold. .gitattributes may
// hold more.
func (d *desk) lookAtFile(_ context.Context, path string, want []byte, what string) symptom {
	have, err := d.read(path)
	if err == nil && (bytes.Equal(have, want) || path == ".gitattributes" && bytes.Contains(have, want)) {
		return symptom{What: shortName(path), Good: true, Says: "as this version writes it"}
	}
	s := symptom{What: shortName(path), Says: what + " differs from what this version writes", Mend: "blotter tidy all"}
	if have == nil {
		s.Says = what + " is missing"
	}
	if path == ".gitattributes" {
		s.Mend = "Write into .gitattributes: " + strings.ReplaceAll(strings.TrimSpace(string(want)), "\n", "   and   ")
		want = append(bytes.Clone(have), want...)
	}
	s.fix = func(ctx context.Context) error {
		r, err := d.enter(ctx, entry{changes: []fileChange{{path, have, want}}})
		if err == nil {
			d.report(r, "")
		}
		return err
	}
	return s
}

// lookAtMerging looks whether git leaves the joining of two versions of a file
// to Blotter, which ledgers of earlier versions say of records alone.
func (d *desk) lookAtMerging(ctx context.Context) symptom {
	s := d.lookAtFile(ctx, ".gitattributes", []byte("/work/*/*.yaml merge=blotter\n"), "how two versions of a work are joined")
	if s.Good {
		s = d.lookAtFile(ctx, ".gitattributes", []byte(mergedFiles), "how two versions of the museum's own files are joined")
	}
	s.What = "merging"
	return s
}

func shortName(path string) string {
	return map[string]string{ledger.SchemaFile: "schema", ledger.WorkSchema: "schema of works", ".gitattributes": "line ends"}[path]
}

func (d *desk) lookAtIdentity() symptom {
	author, _, err := d.repo.Identity(d.Now())
	if err != nil {
		return symptom{What: "you", Says: "git does not know who you are", Mend: `git config --global user.name "Your Name"; git config --global user.email you@example.org`}
	}
	return symptom{What: "you", Good: true, Says: author.Name + " <" + author.Email + ">; the address stands in every entry, catalogue and mirror never show it"}
}

func (d *desk) lookAtHooks() symptom {
	if hooks.Stands(d.repo) {
		return symptom{What: "hooks", Good: true, Says: "what any git program commits is checked"}
	}
	return symptom{What: "hooks", Says: "not all stand, so what another git program commits is not checked", Mend: "blotter hooks install",
		fix: func(ctx context.Context) error { return hooks.Setup(ctx, d.repo, d.Program) }}
}

func (d *desk) lookAtWhole() symptom {
	missing, err := d.repo.Missing()
	if err != nil || len(missing) > 0 {
		return symptom{What: "history", Says: "this copy has not the whole history; publish, export and mirror need it", Mend: "git fetch --unshallow"}
	}
	return symptom{What: "history", Good: true, Says: "whole"}
}

func (d *desk) lookAtBusy() symptom {
	if doing := d.repo.InProgress(); doing != "" {
		return symptom{What: "git's work", Says: "git " + doing + " was begun and is not ended", Mend: strings.Join(begunWithGit(doing, "").hints, "; ")}
	}
	if locks := d.repo.Locks(); len(locks) > 0 {
		return symptom{What: "git's work", Says: "a git command is at work, or one was broken off: " + filepath.Base(locks[0]) + " is there",
			Mend: "If no git program runs here any more, remove " + strings.Join(locks, " and ") + "; or blotter doctor --fix", fix: d.removeLocks}
	}
	upkeep := filepath.Join(d.repo.GitDir(), "objects", "maintenance.lock")
	if info, err := os.Stat(upkeep); err == nil && d.Now().Sub(info.ModTime()) > 24*time.Hour {
		return symptom{What: "git's work", Says: "git's upkeep of this copy was broken off, and is not done any more", Mend: "It may be removed: " + upkeep,
			fix: func(context.Context) error { return os.Remove(upkeep) }}
	}
	return symptom{What: "git's work", Good: true, Says: "nothing under way"}
}

// removeLocks removes what broken-off git programs left, unless one is at work.
func (d *desk) removeLocks(ctx context.Context) error {
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if err := d.repo.RemoveLocks(ctx); err != nil {
		return stuck("%v; nothing was removed", err).try("Again when it is done: blotter doctor --fix")
	}
	return nil
}

// lookAtLeftovers looks for half-written files that a broken-off run left.
func (d *desk) lookAtLeftovers() symptom {
	var left []string
	filepath.WalkDir(d.root, func(p string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
		case e.IsDir() && e.Name() == ".git":
			return fs.SkipDir
		case e.Type().IsRegular() && disk.IsTemp(e.Name()):
			left = append(left, p)
		}
		return nil
	})
	if len(left) == 0 {
		return symptom{What: "leftovers", Good: true, Says: "no half-written files"}
	}
	return symptom{What: "leftovers", Says: count(len(left), "half-written file") + " of a run that was broken off", Mend: "They may be removed: " + left[0],
		fix: func(context.Context) error {
			var errs []error
			for _, f := range left {
				errs = append(errs, os.Remove(f))
			}
			return errors.Join(errs...)
		}}
}
