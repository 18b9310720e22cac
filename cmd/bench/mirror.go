package main

import (
	"errors"
	"os"
	"path/filepath"
)

// measureMirror makes the whole mirror, beside git copying the same history
// commit by commit. Nothing of this ledger is withheld: its sheets would all
// give each other away.
func measureMirror(s stage) (ours, peer cost, err error) {
	to := filepath.Join(s.work, "public.git")
	w := s.ours("mirror", "--to", to, "--quiet")
	w.prepare = func() error { return errors.Join(os.RemoveAll(to), s.noCache()) }
	other := filepath.Join(s.work, "copy.git")
	p := work{name: "git fast-export", dir: s.dir, argv: []string{"sh", "-c", "git fast-export main | git --git-dir='" + other + "' fast-import --quiet"}}
	p.prepare = func() error {
		return errors.Join(os.RemoveAll(other), runIn(s.dir, "git", "init", "-q", "--bare", other))
	}
	return alternate(s.rounds, w, p)
}

// measureMirrorOne enters one re-determination and brings the mirror up to it.
func measureMirrorOne(s stage) (ours, peer cost, err error) {
	w := s.ours("mirror", "--to", filepath.Join(s.work, "public.git"), "--quiet")
	if _, err := w.run(); err != nil {
		return ours, peer, err
	}
	turn := 0
	w.prepare = func() error {
		turn++
		return reDetermine(s.dir, 50+turn)
	}
	for range s.rounds {
		c, err := w.run()
		if err != nil {
			return ours, peer, err
		}
		ours = c
	}
	return ours, peer, nil
}
