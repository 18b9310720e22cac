package harm

import (
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// Power cuts the power n times, shared among all commands: it writes down what
// a command and its git do to the disk, lets a part of that reach a disk, by
// the laws in power_law.go, and judges what lies there. It needs strace(1).
func (c *Campaign) Power(n int) Tally {
	var t Tally
	if n == 0 || !c.wantedAny("power") {
		return t
	}
	if _, err := exec.LookPath("strace"); err != nil || runtime.GOOS != "linux" {
		t.Left = append(t.Left, "power: strace is not to be had here, which writes down what a program does to the disk")
		return t
	}
	type row struct {
		command
		git bool
	}
	var rows []row
	quick := 0
	for _, git := range []bool{true, false} {
		for _, k := range commands {
			if c.wanted("power/"+k.title(git)) && (git || k.noGit == "") {
				rows = append(rows, row{k, git})
				if !k.slow {
					quick++
				}
			}
		}
	}
	for _, w := range rows {
		share := (n + quick - 1) / max(quick, 1)
		if w.slow {
			share = min(share, n/250)
		}
		if share > 0 {
			c.powerRow(&t, w.command, w.git, share)
		}
	}
	return t
}

// powerRow cuts the power of one command so many times.
func (c *Campaign) powerRow(t *Tally, k command, git bool, share int) {
	begun, lost, mended := time.Now(), len(t.Lost), t.Mended
	u, err := c.course(k, git)
	if err == nil {
		t.Cases++
		c.cuts(t, u, share)
	} else {
		t.lost("power/%s: %v", k.title(git), err)
	}
	c.sayf("power/%-19s %4d cuts   %2d lost  %5.1f s, %d mended by doctor", k.title(git), share, len(t.Lost)-lost, time.Since(begun).Seconds(), t.Mended-mended)
	c.sayLost(t.Lost[lost:])
}

// cuts records one run of a command, and cuts its power so many times.
func (c *Campaign) cuts(t *Tally, u *course, share int) {
	log, err := c.record(u)
	if err != nil {
		t.lost("power/%s: %v", u.title(u.git), err)
		return
	}
	for i := 1; i <= share || i == c.Cut; i++ {
		h := fnv.New64a()
		fmt.Fprint(h, u.title(u.git), i)
		rnd := rand.New(rand.NewPCG(c.Seed, h.Sum64()))
		if c.Cut != 0 && i != c.Cut {
			continue
		}
		c.cutOnce(t, u, log, i, rnd)
	}
}

// record writes down what an unharmed run does to the disk. Played back as a
// whole it must give what lies there: then the log has seen all.
func (c *Campaign) record(u *course) (*diskLog, error) {
	if err := c.renew(u.stock); err != nil {
		return nil, err
	}
	first, err := imageOf(c.place())
	if err != nil {
		return nil, err
	}
	calls, r, err := c.traced(u.at(c.place()), c.environ(u.git), u.args)
	if err != nil || r.code != 0 {
		return nil, fmt.Errorf("watched by strace: exit %d, %v\n%s", r.code, err, r.out)
	}
	log, err := logOf(first, c.place(), u.at(c.place()), calls)
	if err != nil {
		return nil, err
	}
	odd, err := log.unlike(c.place())
	if err == nil && len(odd) > 0 {
		err = fmt.Errorf("the log of the disk has not seen all:\n%s", strings.Join(odd[:min(len(odd), 8)], "\n"))
	}
	return log, err
}

// cutOnce plays a part of the log and judges the disk that is left.
func (c *Campaign) cutOnce(t *Tally, u *course, log *diskLog, i int, rnd *rand.Rand) {
	k := log.drawCut(i, rnd)
	left, said := log.leaves(k, rnd)
	var last []string
	for _, s := range log.steps[max(0, k.after-4):k.after] {
		last = append(last, s.does.String()+" "+s.path)
	}
	again := fmt.Sprintf("power/%s, cut %d after step %d of %d (%s); %s\n  again: go run ./cmd/bench -harm -kills 0 -full 0 -writers 0 -seed %d -cut %d -only power/%s\n",
		u.title(u.git), i, k.after, len(log.steps), strings.Join(last, ", "), k, c.Seed, i, u.title(u.git))
	if err := c.renewWith(left); err != nil {
		t.lost("%s  %v", again, err)
		return
	}
	t.Cuts++
	c.judgeCut(t, u, again, said)
}

// judgeCut looks at what a power cut left, and goes on as a person does:
// types the command again; where it says so, lets doctor mend first.
func (c *Campaign) judgeCut(t *Tally, u *course, again, said string) {
	lost := func(format string, args ...any) {
		t.lost("%s  %s\n  it had said: %s", again, fmt.Sprintf(format, args...), strings.TrimSpace(said))
	}
	left, err := c.look(c.place())
	if err != nil {
		lost("%v", err)
		return
	}
	unfinished := false
	for p := range left {
		unfinished = unfinished || strings.HasSuffix(p, "/site-unfinished")
	}
	for _, p := range between(left, u.before, u.after, u.loose) {
		if strings.Contains(p, " ref ") || c.underWay(u, p, left[p]) || unfinished && strings.Contains(p, "/site/") {
			continue
		}
		lost("%s is neither old nor new:\n%s", p, clip(left[p]))
	}
	c.goOn(t, u, said, lost)
	for _, w := range c.whole(c.place()) {
		lost("after all: %s", w)
	}
	if still := locks(c.place()); len(still) > 0 {
		lost("after all, locks are left: %v", still)
	}
}

// goOn types the command again, until it ends as an unharmed one.
func (c *Campaign) goOn(t *Tally, u *course, said string, lost func(string, ...any)) {
	ledger := filepath.Join(c.place(), "ledger")
	r := c.run(u.at(c.place()), c.environ(u.git), u.args)
	if far := locksBeside(c.place()); r.code != 0 && len(far) > 0 && strings.Contains(r.out, "or where") {
		for _, l := range far { // whoever keeps the other copy does
			os.Remove(l)
		}
		r = c.run(u.at(c.place()), c.environ(u.git), u.args)
	}
	if r.code != 0 && strings.Contains(r.out, "blotter doctor") {
		t.Mended++
		c.doctored(u, r.out, lost)
		return
	}
	for _, m := range acknowledged.FindAllStringSubmatch(said, -1) {
		if now, err := c.look(c.place()); err != nil || !c.hasRevision(now, m[1]) {
			lost("revision %s was acknowledged and is not there, and nobody says so:\n%s", m[1], r.out)
		}
	}
	switch {
	case strings.Contains(r.out, "panic:") || strings.Contains(r.out, "goroutine "):
		lost("run again it panics:\n%s", r.out)
	case u.done == "" && u.after.refs() != u.before.refs() && c.entered(u) || u.done != "" && strings.Contains(said, u.done):
	case r.code != 0:
		lost("run again it does not succeed: exit %d\n%s", r.code, r.out)
	default:
		c.sameAll(u, "run again", true, lost)
	}
	if t.Cuts%8 == 0 { // what nobody asked for finds nothing either
		if r := c.run(ledger, c.environ(u.git), []string{"doctor"}); strings.Contains(r.out, "amiss  power cut") {
			lost("run again, doctor finds:\n%s", r.out)
		}
	}
}

// locksBeside are git's locks in other copies than the ledger at hand.
func locksBeside(place string) (found []string) {
	for _, l := range locks(place) {
		if !strings.HasPrefix(l, filepath.Join(place, "ledger")+string(filepath.Separator)) {
			found = append(found, l)
		}
	}
	return found
}

// doctored lets doctor mend, as the command asked for, and types the command
// again. What is not entered any more stands in its files, which enter takes.
func (c *Campaign) doctored(u *course, asked string, lost func(string, ...any)) {
	ledger, env := filepath.Join(c.place(), "ledger"), c.environ(u.git)
	d := c.run(ledger, env, []string{"doctor", "--fix", "--yes"})
	if d.code > 1 || strings.Contains(d.out, "panic:") || !strings.Contains(d.out, "  mended ") {
		lost("doctor does not mend it: exit %d\n%s\nit had been asked for by:\n%s", d.code, d.out, asked)
		return
	}
	r := c.run(u.at(c.place()), env, u.args)
	if r.code != 0 && !strings.Contains(r.out, "not yet entered") && !c.entered(u) {
		lost("mended by doctor and run again it does not succeed: exit %d\n%s\ndoctor:\n%s", r.code, r.out, d.out)
		return
	}
	c.sameAll(u, "mended by doctor and run again", false, lost)
}

// sameAll holds the place to what an unharmed run leaves; after mending, other
// revisions may hold the same words, or none yet.
func (c *Campaign) sameAll(u *course, when string, revisions bool, lost func(string, ...any)) {
	now, err := c.look(c.place())
	if err != nil {
		lost("%v", err)
	}
	for _, p := range unlike(now, u.after, u.loose) {
		if _, is := u.after[p]; !is && !revisions {
			continue // done twice: once as typed, once entered
		}
		if revisions || !strings.Contains(p, " ref ") && !strings.HasSuffix(p, " status") && !strings.Contains(p, "/site/") {
			lost("%s, %s is not as it should be:\n%s\nbut should:\n%s", when, p, clip(now[p]), clip(u.after[p]))
		}
	}
}

// hasRevision reports whether a repository of a state has a commit.
func (c *Campaign) hasRevision(s state, id string) bool {
	for p := range s {
		if dir, _, ok := strings.Cut(p, " ref "); ok {
			if _, err := c.git(filepath.Join(c.place(), dir), "cat-file", "-e", id); err == nil {
				return true
			}
		}
	}
	return false
}
