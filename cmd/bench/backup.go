package main

import (
	"os"
	"path/filepath"
)

// measureBackup writes the whole ledger into one file and reads it back,
// beside git that only writes it.
func measureBackup(s stage) (ours, peer cost, err error) {
	to, other := filepath.Join(s.work, "ours.bundle"), filepath.Join(s.work, "git.bundle")
	w := s.ours("backup", "--to", to, "--yes", "--quiet")
	p := s.git("bundle", "create", "-q", other, "HEAD", "--branches", "--tags")
	return alternate(s.rounds, w, p)
}

// measureRestore makes a ledger of a backup, hooks, check and all, beside git
// that clones and looks through it.
func measureRestore(s stage) (ours, peer cost, err error) {
	file := filepath.Join(s.work, "ours.bundle")
	if _, err := s.ours("backup", "--to", file, "--yes", "--quiet").run(); err != nil {
		return ours, peer, err
	}
	to, other := filepath.Join(s.work, "restored"), filepath.Join(s.work, "cloned")
	defer os.RemoveAll(to)
	defer os.RemoveAll(other)
	w := s.ours("restore", file, to, "--quiet")
	w.prepare = func() error { return os.RemoveAll(to) }
	p := work{name: "git clone", dir: s.work, argv: []string{"sh", "-c", "git clone -q '" + file + "' '" + other + "' && git -C '" + other + "' fsck --full --no-progress"}}
	p.prepare = func() error { return os.RemoveAll(other) }
	return alternate(s.rounds, w, p)
}

// measureExport writes everything that may be public as a Darwin Core archive,
// beside copying that file. The cache is as a day's work leaves it.
func measureExport(s stage) (ours, peer cost, err error) {
	to := filepath.Join(s.work, "export.zip")
	w := s.ours("export", "dwca", "--to", to, "--yes", "--quiet")
	if _, err := w.run(); err != nil {
		return ours, peer, err
	}
	return alternate(s.rounds, w, work{name: "cp", dir: s.work, argv: []string{"cp", to, filepath.Join(s.work, "copy.zip")}})
}
