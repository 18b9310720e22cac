package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// measureVerify proves the whole history and reads every stored byte, beside
// the history pass and git's own look at the objects. again: with what an
// earlier run proved.
func measureVerify(again bool) func(s stage) (ours, peer cost, err error) {
	return func(s stage) (ours, peer cost, err error) {
		w := s.ours("verify", "--quiet")
		p := work{name: "history, git fsck", dir: s.dir, argv: []string{"sh", "-c", "'" + s.self + "' -child history && git fsck --full --no-progress"}, prepare: s.noCache}
		w.prepare = s.noCache
		if again {
			if _, err := w.run(); err != nil {
				return ours, peer, err
			}
			w.prepare, p = nil, s.git("fsck", "--full", "--no-progress")
		}
		return alternate(s.rounds, w, p)
	}
}

// measurePush sends one re-determined sheet to a bare ledger whose hook judges
// it, beside the same push to one without a hook. The server end is as it
// stands after hooks install.
func measurePush(s stage) (ours, peer cost, err error) {
	var ends [2]string // with the hook, without
	for i, name := range []string{"server.git", "plain.git"} {
		ends[i] = filepath.Join(s.work, name)
		defer os.RemoveAll(ends[i])
		if err := runIn(s.dir, "git", "clone", "-q", "--bare", s.dir, ends[i]); err != nil {
			return ours, peer, err
		}
	}
	install := work{name: "hooks install", dir: ends[0], argv: []string{s.blotter, "hooks", "install", "--server"}}
	c, err := install.run()
	if err != nil {
		return ours, peer, err
	}
	fmt.Printf("%-22s %10s %10s %6dMB\n", "  (install, once)", short(c.wall), short(c.cpu), c.rss>>20)
	var head string
	turn := 0
	send := func(to string) work {
		return work{name: "git push", dir: s.dir, argv: []string{"git", "push", "-q", to, "HEAD:refs/heads/main"}, prepare: func() error {
			if strings.HasSuffix(to, "plain.git") {
				return nil // the entry that the other end got just now
			}
			turn++
			return reDetermine(s.dir, 200+turn)
		}}
	}
	out, err := outputOf(s.dir, "git", "rev-parse", "HEAD")
	if err != nil {
		return ours, peer, err
	}
	head = out
	defer func() { runIn(s.dir, "git", "reset", "-q", "--hard", head) }()
	return alternate(s.rounds, send(ends[0]), send(ends[1]))
}
