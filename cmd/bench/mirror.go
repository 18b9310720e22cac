package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
)

// markSpecies marks one species of the ledger as sensitive, once, so that some
// sheets of it are withheld: the rows after it measure that too.
func markSpecies(s stage) error {
	files, err := filepath.Glob(filepath.Join(s.dir, "names", "*.yaml"))
	if err != nil || len(files) == 0 {
		return errors.Join(err, errors.New("the ledger has no names"))
	}
	text, err := os.ReadFile(files[0])
	if err != nil || strings.Contains(string(text), "sensitive:") {
		return err
	}
	head, rest, _ := strings.Cut(string(text), "  - name: ")
	first, more, _ := strings.Cut(rest, "\n")
	out := head + "  - name: " + first + "\n    sensitive: {why: at risk from collecting, category: \"3\"}\n" + more
	if err := os.WriteFile(files[0], []byte(out), 0o666); err != nil {
		return err
	}
	return errors.Join(runIn(s.dir, "git", "add", "names"), runIn(s.dir, "git", "commit", "-q", "--no-verify", "-m", "Mark a species"))
}

// measureMirror makes the whole mirror, beside git copying the same history
// commit by commit.
func measureMirror(s stage) (ours, peer cost, err error) {
	if err := markSpecies(s); err != nil {
		return ours, peer, err
	}
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
