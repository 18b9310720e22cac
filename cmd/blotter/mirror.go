package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/mirror"
	"blotter/ledger/public"
)

func mirrorCommand() *command {
	return &command{
		Name: "mirror", Family: famMake, Synopsis: "--to DIR",
		Says: "Makes a public git repository from the ledger: the same history, in which what is withheld never was.",
		Notes: []string{
			"Records, people.yaml, names/ and the public part of blotter.yaml go into it, each file written anew; messages are composed from what changed. What is withheld of a sheet is so in every version.",
			"Run it after each day's entries and push from DIR with git. When something is withheld that was shown before, the mirror is made anew from its root, and revisions cited before are void.",
		},
		Examples: []example{
			{"blotter mirror --to ../herbarium-public.git", "make it, or bring it up to the last entry"},
			{"blotter mirror --to ../herbarium-public.git --check", "look through every object of it again"},
			{"blotter mirror --to /srv/git/herbarium.git --quiet", "from a timer, into a folder that is served"},
		},
		Flags: []*flag{flagTo, flagCheck},
		Exits: []int{exitFindings},
		Kin:   []string{"publish", "export", "history"},
		Run:   runMirror,
	}
}

func runMirror(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("mirror makes the whole ledger; %q is too much", c.args[0]).try("blotter mirror --to DIR")
	}
	if c.opts.text("to") == "" {
		return misuse("where to? --to names the folder of the public repository").try("blotter mirror --to DIR")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	tip, err := d.publishable(ctx)
	if err != nil {
		return err
	}
	dir := inDir(d.Dir, c.opts.text("to"))
	if err := d.fitsForMirror(dir); err != nil {
		return err
	}
	locked, err := disk.Lock(ctx, d.mirrorFolder(), "blotter mirror", lockPatience)
	if err != nil {
		return stuck("another mirror of this ledger is being made").try("Nothing was changed; try again when it is done.")
	}
	defer locked.Unlock()
	if c.opts.on("check") && !gitrepo.Made(dir) {
		return stuck("there is no mirror in %s", dir).try("Make it: blotter mirror --to DIR")
	}
	target, err := gitrepo.OpenBare(dir, c.Environ)
	if errors.Is(err, gitrepo.ErrForeign) {
		return stuck("%s holds something that Blotter did not make", dir).try("Nothing was changed. Name an empty folder, or one that is not there yet.")
	}
	if err != nil {
		return stuck("%v", err)
	}
	defer target.Close()
	j, err := d.mirrorJob(ctx, tip, dir)
	if err != nil {
		return err
	}
	if c.opts.on("check") {
		return d.checkMirror(ctx, j, target, dir)
	}
	return d.makeMirror(ctx, j, target, dir)
}

// fitsForMirror refuses folders in which the mirror would lie in the ledger.
func (d *desk) fitsForMirror(dir string) error {
	if d.liesIn(dir) {
		return misuse("the mirror is public and cannot lie inside the ledger, which is not").try("blotter mirror --to ../herbarium-public.git")
	}
	return nil
}

// realPath is a path with the links in it followed, as far as it exists.
func realPath(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real
	}
	up := filepath.Dir(path)
	if up == path {
		return path
	}
	return filepath.Join(realPath(up), filepath.Base(path))
}

// mirrorJob gathers what the mirror in dir is made from.
func (d *desk) mirrorJob(ctx context.Context, tip, dir string) (*mirror.Job, error) {
	src, err := d.repo.At(ctx, tip)
	if err != nil {
		return nil, stuck("%v", err)
	}
	b, err := book.Load(ctx, src, d.loadOptions())
	if err != nil {
		return nil, stuck("read the ledger: %v", err)
	}
	view, err := d.repo.History(ctx, d.cache(), tip)
	if err != nil {
		return nil, stuck("%v", err)
	}
	j := &mirror.Job{Source: d.repo, Tip: tip, Book: b, Loader: b.Loader(src, d.cache()), History: view}
	for _, f := range []string{d.mirrorState(dir), d.mirrorState(dir) + nextState} {
		if text, err := os.ReadFile(f); err == nil {
			if s := mirror.DecodeState(text); s != nil {
				j.Kept = append(j.Kept, s)
			}
		}
	}
	return j, nil
}

// mirrorFolder is where states of mirrors are kept.
func (d *desk) mirrorFolder() string { return filepath.Join(d.repo.StateDir(), "mirror") }

// mirrorState is where the state of the mirror in dir is kept.
func (d *desk) mirrorState(dir string) string {
	return filepath.Join(d.mirrorFolder(), filepath.Base(d.stateFile(realPath(dir))))
}

// nextState ends the name of a state of which it is not certain yet that the
// mirror came to be so.
const nextState = ".next"

func (d *desk) makeMirror(ctx context.Context, j *mirror.Job, target *gitrepo.Bare, dir string) error {
	file := d.mirrorState(dir)
	r, err := j.Make(ctx, target, func(s *mirror.State) error {
		text, err := s.Encode()
		if err != nil {
			return err
		}
		return d.keepState(file+nextState, text)
	})
	if err != nil {
		return d.mirrorFault(ctx, err, dir)
	}
	if err := os.Rename(file+nextState, file); err != nil {
		d.tell("what was mirrored could not be noted (%v); the next run makes the same again", err)
	}
	if d.opts.on("quiet") {
		return nil
	}
	d.say("%s mirrored, %s of them now; revision %s there. %s.", count(r.Commits, "entry"), thousands(r.New), r.Tip[:7], withheldNumbers(r.Withheld))
	d.mirrorAnew(r.Anew)
	d.say("%s", dir)
	return nil
}

func withheldNumbers(n int) string {
	if n == 0 {
		return "Nothing is withheld"
	}
	return count(n, "sheet") + " withheld in every version"
}

// mirrorAnew says what follows from a mirror's being made anew.
func (d *desk) mirrorAnew(why mirror.Reason) {
	void := "Revisions of the mirror that were cited before are void; push it with --force."
	switch why {
	case mirror.Stricter:
		d.say("Made anew from its first entry: something is withheld now that was shown before.")
		d.say("%s Copies that others have fetched already cannot be called back.", void)
	case mirror.Looser:
		d.say("Made anew from its first entry: something is shown now in another way than before. %s", void)
	case mirror.Rewritten:
		d.say("Made anew from its first entry: entries of the ledger were taken back. Revisions from there on that were cited before are void; push it with --force.")
	case mirror.Program:
		d.say("Made anew from its first entry: this blotter writes it in another form. %s", void)
	}
}

func (d *desk) mirrorFault(ctx context.Context, err error, dir string) error {
	var leaked *mirror.Leaked
	var foreign *mirror.Foreign
	var near *mirror.GivesAway
	switch {
	case errors.As(err, &leaked):
		d.say("Not mirrored: a withheld place would have become public.")
		d.leaks(leaked.Leaks)
		d.say("  The mirror is as it was. The words stand in a version of that file: mark that sheet sensitive too, and all its versions are generalised.   [place-leak]")
		first := leaked.Leaks[0]
		d.say("  If they may stand there, say so in %s: - {file: %s, text: THE WORDS THERE, why: WHY, by: NAME, date: %s}", ledger.PublicFile, first.File, d.today())
		return errFindings
	case errors.As(err, &near):
		return d.giveAway("mirrored", near.Neighbours)
	case errors.As(err, &foreign):
		return stuck("%s holds %s, which Blotter did not put there", dir, foreign.What).
			try("Nothing was changed. Take it away, or make the mirror anew in another folder.")
	case ctx.Err() != nil:
		return errInterrupted
	}
	return stuck("not mirrored: %v", err).try("The mirror leads where it led; run it again to finish.")
}

// leaks lists what was found where, without repeating it.
func (d *desk) leaks(list []public.Leak) {
	for i, l := range list {
		if i == leakLines {
			d.say("  and %s more", thousands(len(list)-leakLines))
			break
		}
		who := string(l.Number)
		if who == "" {
			who = "a person shown by initials"
		}
		d.say("  %s, %s, found in %s, line %d", who, l.Field, l.File, l.Line)
	}
}

func (d *desk) checkMirror(ctx context.Context, j *mirror.Job, target *gitrepo.Bare, dir string) error {
	s, err := j.Check(ctx, target)
	var leaked *mirror.Leaked
	if errors.As(err, &leaked) {
		d.say("Withheld words stand in the mirror:")
		d.leaks(leaked.Leaks)
		d.say("  Make it anew, which it is when they became withheld since: blotter mirror --to DIR   [place-leak]")
		return errFindings
	}
	if err != nil {
		return d.mirrorFault(ctx, err, dir)
	}
	d.say("%s looked through; nothing withheld found in any.", count(s.Objects, "object"))
	switch {
	case s.Anew == mirror.Stricter:
		d.say("Something that it shows is withheld now: the next run makes it anew.")
		return errFindings
	case s.Anew != mirror.Not:
		d.say("The next run makes it anew from its first entry.")
	case s.Behind > 0:
		d.say("It lacks %s of the ledger: blotter mirror --to DIR", fmt.Sprintf("the last %s", count(s.Behind, "entry")))
	}
	return nil
}
