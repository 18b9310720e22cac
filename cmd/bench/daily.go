package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
)

// measureFind looks for the sheets of one plant from one place in a span of
// years, with what earlier runs kept, beside git's own search for one word in
// the work tree.
func measureFind(s stage) (ours, peer cost, err error) {
	w := s.ours("find", "--count", "genus:Ranunculus", "place:Voss", "year:1950..1960")
	if _, err := w.run(); err != nil {
		return ours, peer, err
	}
	return alternate(s.rounds, w, s.git("grep", "--count", "-w", "Ranunculus"))
}

// measureStatus says how the ledger stands, beside git that says it of the
// same files.
func measureStatus(s stage) (ours, peer cost, err error) {
	w := s.ours("status")
	if _, err := w.run(); err != nil {
		return ours, peer, err
	}
	return alternate(s.rounds, w, s.git("status", "--porcelain"))
}

// measureDue tells what needs a hand, beside git that says how the files stand.
func measureDue(s stage) (ours, peer cost, err error) {
	w := s.ours("due")
	if _, err := w.run(); err != nil {
		return ours, peer, err
	}
	return alternate(s.rounds, w, s.git("status", "--porcelain"))
}

// measureEnter enters one re-determination that is written and not entered,
// beside git that commits the same file past any hook.
func measureEnter(s stage) (ours, peer cost, err error) {
	head, err := outputOf(s.dir, "git", "rev-parse", "HEAD")
	if err != nil {
		return ours, peer, err
	}
	defer func() { err = errors.Join(err, s.backTo(head)) }()
	turn := 300
	written := func() error {
		turn++
		return writeDetermination(s.dir, turn)
	}
	w := s.ours("enter", "--quiet")
	w.prepare = written
	if _, err := w.run(); err != nil {
		return ours, peer, err
	}
	p := work{name: "git commit", dir: s.dir, argv: []string{"git", "commit", "-q", "-a", "--no-verify", "-m", "One sheet named anew"}, prepare: written}
	return alternate(s.rounds, w, p)
}

// measureHook commits one staged sheet with our hook in its place, beside the
// same commit without.
func measureHook(s stage) (ours, peer cost, err error) {
	head, err := outputOf(s.dir, "git", "rev-parse", "HEAD")
	if err != nil {
		return ours, peer, err
	}
	hook := filepath.Join(s.dir, ".git", "hooks", "pre-commit")
	if err := os.WriteFile(hook, []byte("#!/bin/sh\nexec '"+s.blotter+"' hooks run pre-commit\n"), 0o777); err != nil {
		return ours, peer, err
	}
	defer func() { err = errors.Join(err, os.Remove(hook), s.backTo(head)) }()
	turn := 400
	staged := func() error {
		turn++
		if err := writeDetermination(s.dir, turn); err != nil {
			return err
		}
		return runIn(s.dir, "git", "add", synNumber(turn).Path())
	}
	w := s.git("commit", "-q", "-m", "One sheet named anew")
	w.prepare = staged
	if _, err := w.run(); err != nil {
		return ours, peer, err
	}
	p := s.git("commit", "-q", "--no-verify", "-m", "One sheet named anew")
	p.prepare = staged
	return alternate(s.rounds, w, p)
}

// measureShare brings this copy and another one together: one sheet of ours is
// to be sent and, when both, one of theirs to be received. The peer is git that
// pushes, or pulls and pushes, the same with a copy of its own.
func measureShare(both bool) func(s stage) (ours, peer cost, err error) {
	return func(s stage) (ours, peer cost, err error) {
		head, err := outputOf(s.dir, "git", "rev-parse", "HEAD")
		if err != nil {
			return ours, peer, err
		}
		defer func() { err = errors.Join(err, s.backTo(head)) }()
		var ends [2]string
		for i, name := range []string{"shared.git", "plain.git"} {
			ends[i] = filepath.Join(s.work, name)
			defer os.RemoveAll(ends[i])
			if err := runIn(s.dir, "git", "clone", "-q", "--bare", s.dir, ends[i]); err != nil {
				return ours, peer, err
			}
		}
		turn := 500
		apart := func(end string) func() error {
			return func() error {
				if turn++; both {
					if err := sentByAnother(s, end, turn); err != nil {
						return err
					}
					turn++
				}
				return reDetermine(s.dir, turn)
			}
		}
		// Both begin each round at the same commit, so that each end has what
		// its own side brought it and nothing more.
		w, p := s.ours("share", "--with", ends[0], "--yes"), s.git("push", "-q", ends[1], "HEAD:refs/heads/main")
		if both {
			p = work{name: "git pull, git push", dir: s.dir, argv: []string{"sh", "-c", "git pull -q --no-rebase --no-edit --no-verify '" + ends[1] + "' main && git push -q '" + ends[1] + "' HEAD:refs/heads/main"}}
		}
		w.prepare, p.prepare = s.from(head, ends[0], apart(ends[0])), s.from(head, ends[1], apart(ends[1]))
		if _, err := w.run(); err != nil {
			return ours, peer, err
		}
		return alternate(s.rounds, w, p)
	}
}

// from turns this copy and another one back to a commit before then is done.
func (s stage) from(head, end string, then func() error) func() error {
	return func() error {
		return errors.Join(s.backTo(head), runIn(end, "git", "update-ref", "refs/heads/main", head), then())
	}
}

// sentByAnother puts one re-determination of serial i into the copy at end,
// and leaves this one as it was.
func sentByAnother(s stage, end string, i int) error {
	head, err := outputOf(s.dir, "git", "rev-parse", "HEAD")
	if err != nil {
		return err
	}
	return errors.Join(reDetermine(s.dir, i), runIn(s.dir, "git", "push", "-q", end, "HEAD:refs/heads/main"), s.backTo(head))
}

// backTo turns the ledger to a commit.
func (s stage) backTo(head string) error { return runIn(s.dir, "git", "reset", "-q", "--hard", head) }

// writeDetermination writes one more opinion into the record of serial i.
func writeDetermination(dir string, i int) error {
	path := filepath.Join(dir, synNumber(i).Path())
	before, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	after := strings.Replace(string(before), "duplicates:", "  - name: "+synName(i, 90)+"\n    by: M. Ostrander\n    date: 2026-02-03\nduplicates:", 1)
	return os.WriteFile(path, []byte(after), 0o666)
}
