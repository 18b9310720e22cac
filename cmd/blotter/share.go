package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"strings"

	"blotter/ledger/gitrepo"
	"blotter/ledger/merge"
)

func shareCommand() *command {
	return &command{
		Name: "share", Family: famEnter,
		Says: "Brings this copy of the ledger and the other one together: receives what others entered, checks, sends what was entered here.",
		Notes: []string{
			"The other copy is a folder that several people reach, a file on a stick, or an address at another machine. It is named once, by --with; after that blotter share alone means it.",
			"With --new the other copy is made: under a name that is not there yet, a folder in which nobody works and whose checks stand; in a folder that is there already, as a stick is, one file CODE-shared.bundle.",
			"What is written and not yet entered stays as it is, and is not sent. Where somebody else entered another version of the same file, nothing is changed before yours is entered.",
			"Records that two people changed are joined field by field, and every opinion is kept. What is sent is never taken back; broken off at any moment, a copy is as before or as after.",
		},
		Examples: []example{
			{"blotter share", "with the copy that was named last time, or that this one was joined from"},
			{"blotter share --with /media/usb --new", "the first time with a stick"},
			{"blotter share --dry-run", "says what would be received and sent"},
		},
		Flags: []*flag{flagWith, flagNew, flagDryRun, flagYes, flagAs}, Exits: []int{exitFindings},
		Kin: []string{"join", "status", "undo", "backup"},
		Run: runShare,
	}
}

func runShare(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("share takes nothing; %q is too much", c.args[0]).try("With another copy: blotter share --with " + shellWord(c.args[0]))
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if err := d.canShare(ctx); err != nil {
		return err
	}
	s, err := d.sharing(ctx)
	if err == nil {
		err = s.run(ctx)
	}
	if errors.Is(err, errRehearsed) {
		return nil
	}
	return err
}

// errRehearsed ends a rehearsal that has said all.
var errRehearsed = errors.New("rehearsed")

// canShare refuses a ledger that cannot be shared as it stands.
func (d *desk) canShare(ctx context.Context) error {
	if err := d.notPractice("shared"); err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no history, so there is nothing to share").try("Begin one here: git init, then blotter enter")
	}
	if !d.repo.HasProgram() {
		return noProgram("share").try("Without it: blotter backup --to /media/usb makes one file of the whole ledger, which blotter join or blotter restore reads.")
	}
	if err := d.notBegun("nothing was sent or received"); err != nil {
		return err
	}
	main, err := d.repo.MainLine(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	switch own, err := d.repo.Branch(); {
	case err != nil || own == "":
		return stuck("this copy has been turned to an older revision with another git program; it is shared from where it is worked at").
			try("Back: git switch " + cmp.Or(shellWord(main), "main") + ", then blotter share")
	case own != main:
		return sideLine(own, main)
	}
	if missing, err := d.repo.Missing(); err != nil || len(missing) > 0 {
		return stuck("this copy does not hold the whole history, so it cannot be compared with another").try("A whole copy: blotter join ADDRESS DIR")
	}
	head, err := d.head(ctx)
	if err == nil && head == "" {
		return stuck("nothing has been entered yet").try("blotter enter")
	}
	return err
}

// noProgram is for what needs the git program, on a machine without it.
func noProgram(verb string) *fault {
	return stuck("the git program is not on this machine, and %s needs it", verb).try("Put git on this machine, then again.")
}

// sharing is one run of share.
type sharing struct {
	*desk
	place  address       // of the other copy
	other  gitrepo.Other // the same, for git
	branch string        // theirs
	ours   string        // the revision that this copy is at
	base   string        // one that both had
	theirs string        // the one that the other copy is at; "" when it is empty
	had    string        // one that the other copy had once and has not now, nor this copy; "" is none
	lacks  []string      // releases of this copy that the other one lacks, by name
	made   bool          // the other copy was made, with everything in it
	sent   bool          // something was sent

	answers map[string]map[string]merge.Answer // of what both changed in two ways, by file and field
	chosen  map[string]choice                  // of whole files

	recast   []gitrepo.Clash   // files that one copy moved and the other changed
	cameFrom map[string]string // where those were before, by the place they are at now
	sides    [2]*movedSide     // this copy, the other one
}

// sharing finds out what to share with.
func (d *desk) sharing(ctx context.Context) (*sharing, error) {
	s := &sharing{desk: d}
	typed := d.opts.text("with")
	if typed == "" {
		usual, ok, err := d.repo.Usual()
		if err != nil {
			return nil, stuck("%v", err)
		}
		switch {
		case ok && d.opts.on("new"):
			return nil, misuse("--new makes another copy, and --with says where: this ledger is shared with %s", shownAddress(usual.Address)).try("blotter share --with /media/usb --new")
		case !ok:
			return nil, d.noOtherCopy()
		}
		s.other, s.place = usual, d.addressOf(usual.Address)
		return s, s.place.there()
	}
	s.place = d.addressOf(typed)
	if err := s.place.usable(d.root); err != nil {
		return nil, err
	}
	if d.opts.on("new") {
		if err := s.makeNew(ctx); err != nil {
			return nil, err
		}
	} else if err := s.place.narrow("share --with"); err != nil {
		return nil, err
	} else if err := s.place.there(); err != nil {
		return nil, err
	}
	var err error
	if s.other, err = d.repo.OtherAt(s.place.text); err != nil {
		return nil, stuck("%v", err)
	}
	return s, nil
}

// noOtherCopy says what to type for the first sharing of a ledger.
func (d *desk) noOtherCopy() error {
	others, err := d.repo.Others()
	if err == nil && len(others) > 0 {
		var names []string
		for _, o := range others {
			names = append(names, shownAddress(o.Address))
		}
		return misuse("which copy? This ledger is shared with several: %s", strings.Join(names, ", ")).try("blotter share --with " + shellWord(names[0]))
	}
	file := slugWord(d.museum.Code.Text)
	return misuse("no other copy of this ledger is known here; this may be the only one").try(
		"On a stick:                       blotter share --with /media/usb --new",
		"In a folder that others reach:    blotter share --with /srv/herbarium/"+file+".git --new",
		"At an address that was given you: blotter share --with ssh://museum.example/"+file+".git",
		"Until then, keep a copy elsewhere: blotter backup --to /media/usb")
}

// manyTries is how often share begins anew because somebody else sent
// something meanwhile.
const manyTries = 5

func (s *sharing) run(ctx context.Context) error {
	if s.made {
		if err := s.receive(ctx); err != nil { // what was sent a moment ago: git sees that both are the same
			return err
		}
		return s.end(ctx)
	}
	for range manyTries {
		if err := s.receive(ctx); err != nil {
			return err
		}
		if err := s.bringBack(ctx); err != nil {
			return err
		}
		if err := s.bring(ctx); err != nil {
			return err
		}
		if err := s.releases(ctx); err != nil {
			return err
		}
		err := s.send(ctx)
		if errors.Is(err, gitrepo.ErrMoved) {
			s.tell("Somebody else sent something meanwhile; once more.")
			continue
		}
		if err != nil {
			return err
		}
		return s.end(ctx)
	}
	return stuck("others sent something each of %d times that this copy was about to; what was received is entered, what is yours is not sent yet", manyTries).
		try("In a moment: blotter share")
}

// receive brings what the other copy has, and finds where both are.
func (s *sharing) receive(ctx context.Context) (err error) {
	if s.ours, err = s.head(ctx); err != nil {
		return err
	}
	before, err := s.stoodAt(ctx)
	if err != nil {
		return err
	}
	if err := s.repo.Receive(ctx, s.other, s.Asks); err != nil {
		if ctx.Err() != nil {
			return errInterrupted
		}
		return s.place.unreachable("Nothing was changed.", err)
	}
	if s.branch, s.theirs, err = s.repo.TipOf(ctx, s.other); err != nil {
		return stuck("%v", err).try("Its keeper knows which one is meant.")
	}
	if err := s.onMainLine(ctx); err != nil {
		return err
	}
	if err := s.stepsBack(ctx, before); err != nil || s.theirs == "" {
		return errors.Join(err, s.remember(ctx))
	}
	if err := s.findBase(ctx); err != nil {
		return err
	}
	if s.base == "" {
		name := s.nameAt(ctx, s.theirs)
		if err := s.repo.Forget(ctx, s.other); err != nil {
			return stuck("%v", err)
		}
		return stuck("%s holds another ledger%s; both stay as they are", s.place, name).
			try("To have a copy of that one: blotter join " + shellWord(s.place.String()) + " DIR")
	}
	return s.remember(ctx)
}

// remember keeps the address, so that it need not be typed again.
func (s *sharing) remember(ctx context.Context) error {
	if s.other.Known || s.opts.on("dry-run") {
		return nil
	}
	var err error
	if s.other, err = s.repo.Remember(ctx, s.other); err != nil {
		return stuck("%v", err)
	}
	if s.other.Name == "origin" {
		s.tell("Remembered: blotter share alone now means %s.", s.place)
	}
	return nil
}

// end says that both are the same, and what waits here.
func (s *sharing) end(ctx context.Context) error {
	if s.opts.on("dry-run") {
		s.tell("Nothing was changed: --dry-run.")
	}
	waiting, err := s.waiting(ctx)
	if err != nil {
		return err
	}
	if err := s.keepStand(ctx); err != nil {
		return err
	}
	if len(waiting) > 0 {
		var names []string
		for _, w := range waiting[:min(len(waiting), 5)] {
			names = append(names, sheetOrPath(w.path))
		}
		list := strings.Join(names, ", ")
		if n := len(waiting) - len(names); n > 0 {
			list += fmt.Sprintf(" and %s more", thousands(n))
		}
		s.say("%s", wrap("Written here, not yet entered, so not sent: "+list+".", s.Width, ""))
		s.next("blotter enter, then blotter share")
		return nil
	}
	if s.sent && s.Screen {
		s.tell("%s", "Nothing you did today can be lost: every entry can be seen in blotter changes --since today")
	}
	return nil
}

// waiting is what is written and not entered. Where git's own look at the dates
// of the files says that there is nothing, no file is read.
func (s *sharing) waiting(ctx context.Context) ([]pendingFile, error) {
	if open, err := s.repo.Unentered(ctx); err == nil && !open {
		return nil, nil
	}
	return s.pending(ctx)
}
