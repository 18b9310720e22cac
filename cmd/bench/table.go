package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// rows are the goals, in the order of the table.
var rows = []row{
	{name: "start", goal: 5, peer: "an empty Go program", measure: measureStart},
	{name: "history-cold", goal: 1.2, peer: "git log --raw --no-renames", measure: measureHistory("history")},
	{name: "history-cold-gogit", goal: 3, peer: "git log --raw --no-renames", measure: measureHistory("history-gogit")},
	{name: "history-100-more", goal: 3, peer: "git log --raw of those commits", measure: measureHistoryMore},
	{name: "pre-commit", goal: 5, wall: 150 * time.Millisecond, peer: "git diff --cached --raw", measure: measurePreCommit},
	{name: "hook", peer: "git commit without a hook", measure: measureHook},
	{name: "enter", peer: "git commit -a without a hook", measure: measureEnter},
	{name: "status", peer: "git status", measure: measureStatus},
	{name: "due", peer: "git status", measure: measureDue},
	{name: "find", peer: "git grep for one word", measure: measureFind},
	{name: "check-cold", goal: 1.3, peer: "yaml.v3 to nodes, two workers", measure: measureCheckCold},
	{name: "check-again", goal: 0.2, peer: "the same, cold", measure: measureCheckAgain},
	{name: "publish-cold", goal: 1.0 / 3, peer: "hugo", measure: measurePublish(true, hugo)},
	{name: "publish-cached", goal: 1.0 / 5, peer: "hugo", measure: measurePublish(false, hugo)},
	{name: "publish-floor", goal: 2.5, peer: "writing the same bytes", measure: measurePublish(false, floor)},
	{name: "archive-in", goal: 15, peer: "unpacking the same archive", measure: measureArchiveIn(false)},
	{name: "archive-in-other", goal: 25, peer: "unpacking the same archive", measure: measureArchiveIn(true)},
	{name: "leak", goal: 3, peer: "copying the same bytes", measure: measureLeak(false)},
	{name: "leak-again", goal: 1.5, peer: "copying the same bytes", measure: measureLeak(true)},
	{name: "publish-one", wall: time.Second, peer: "", measure: measurePublishOne},
	{name: "mirror", peer: "git fast-export, git fast-import", measure: measureMirror},
	{name: "mirror-one", peer: "", measure: measureMirrorOne},
	{name: "verify", goal: 1, peer: "history-cold, git fsck", measure: measureVerify(false)},
	{name: "verify-again", goal: 1, peer: "git fsck", measure: measureVerify(true)},
	{name: "share", peer: "git push of the same commit", measure: measureShare(false)},
	{name: "share-both", peer: "git pull, git push", measure: measureShare(true)},
	{name: "push", peer: "the same push without the hook", measure: measurePush},
	{name: "backup", peer: "git bundle create", measure: measureBackup},
	{name: "restore", peer: "git clone, git fsck", measure: measureRestore},
	{name: "export", peer: "copying the same bytes", measure: measureExport},
	{name: "print", peer: "the same words by fpdf, not laid out", measure: measurePrint},
	{name: "import-rehearsed", peer: "copying the same bytes", measure: measureImport("--dry-run")},
	{name: "import", peer: "copying the same bytes", measure: measureImport("--yes")},
}

func measureStart(s stage) (ours, peer cost, err error) {
	return alternate(s.rounds*7, s.ours("--version"), work{name: "empty", dir: s.dir, argv: []string{s.empty}})
}

func measureHistory(piece string) func(s stage) (ours, peer cost, err error) {
	return func(s stage) (ours, peer cost, err error) {
		w := s.piece(piece)
		w.prepare = s.noCache
		return alternate(s.rounds, w, s.git("log", "--raw", "--no-renames"))
	}
}

// measureHistoryMore saves the index of a commit a hundred back, then lets it
// be extended.
func measureHistoryMore(s stage) (ours, peer cost, err error) {
	if s.n*11/100 < 100 {
		return ours, peer, errors.New("the ledger has fewer than 100 later commits")
	}
	w := s.piece("history")
	w.prepare = func() error {
		if err := s.noCache(); err != nil {
			return err
		}
		if err := runIn(s.dir, "git", "update-ref", "refs/heads/main", "main~100"); err != nil {
			return err
		}
		_, err := s.piece("history").run()
		return errors.Join(err, runIn(s.dir, "git", "update-ref", "refs/heads/main", "main@{1}"))
	}
	return alternate(s.rounds, w, s.git("log", "--raw", "--no-renames", "main~100..main"))
}

// measurePreCommit stages one re-determination, warms the cache, and runs the
// hook's own work beside git's own list of what is staged.
func measurePreCommit(s stage) (ours, peer cost, err error) {
	path := filepath.Join(s.dir, synNumber(1).Path())
	before, err := os.ReadFile(path)
	if err != nil {
		return ours, peer, err
	}
	defer func() {
		err = errors.Join(err, os.WriteFile(path, before, 0o666), runIn(s.dir, "git", "reset", "-q"))
	}()
	after := strings.Replace(string(before), "duplicates:", "  - name: Caltha palustris L.\n    by: M. Ostrander\n    date: 2026-02-03\nduplicates:", 1)
	if err := os.WriteFile(path, []byte(after), 0o666); err != nil {
		return ours, peer, err
	}
	if err := runIn(s.dir, "git", "add", synNumber(1).Path()); err != nil {
		return ours, peer, err
	}
	hook := s.ours("hooks", "run", "pre-commit")
	for range 2 {
		if _, err := hook.run(); err != nil {
			return ours, peer, err
		}
	}
	return alternate(s.rounds*3, hook, s.git("diff", "--cached", "--raw"))
}

func measureCheckCold(s stage) (ours, peer cost, err error) {
	w := s.ours("check", "--no-cache", "--quiet")
	return alternate(s.rounds, w, s.piece("decode"))
}

func measureCheckAgain(s stage) (ours, peer cost, err error) {
	if _, err := s.ours("check", "--quiet").run(); err != nil {
		return ours, peer, err
	}
	return alternate(s.rounds, s.ours("check", "--quiet"), s.ours("check", "--no-cache", "--quiet"))
}

// measurePublish publishes the pages of every specimen into an empty folder,
// with or without what earlier runs kept, beside a peer that makes pages of
// equal number and size.
func measurePublish(cold bool, other func(s stage) (work, error)) func(s stage) (ours, peer cost, err error) {
	return func(s stage) (ours, peer cost, err error) {
		w := s.ours("publish", "--only", "html", "--to", s.out, "--quiet")
		if err := errors.Join(s.noOutput(), s.noCache()); err != nil {
			return ours, peer, err
		}
		if _, err := w.run(); err != nil {
			return ours, peer, err
		}
		p, err := other(s)
		if err != nil {
			return ours, peer, err
		}
		w.prepare = func() error {
			if cold {
				return errors.Join(s.noOutput(), s.noCache())
			}
			return s.noOutput()
		}
		return alternate(s.rounds, w, p)
	}
}

// measurePublishOne enters one re-determination and publishes what changes.
func measurePublishOne(s stage) (ours, peer cost, err error) {
	publish := s.ours("publish", "--to", s.out, "--quiet")
	if err := s.noOutput(); err != nil {
		return ours, peer, err
	}
	if _, err := publish.run(); err != nil {
		return ours, peer, err
	}
	turn := 0
	publish.prepare = func() error {
		turn++
		return reDetermine(s.dir, 10+turn)
	}
	var all []cost
	for range s.rounds {
		c, err := publish.run()
		if err != nil {
			return ours, peer, err
		}
		all = append(all, c)
	}
	return median(all), peer, nil
}

// reDetermine enters one more opinion on serial i by plain git, past the hooks.
func reDetermine(dir string, i int) error {
	if err := writeDetermination(dir, i); err != nil {
		return err
	}
	return runIn(dir, "git", "commit", "-q", "--no-verify", "-m", string(synNumber(i))+" named anew", "--", synNumber(i).Path())
}
