package harm

import (
	"bytes"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

// course is what an unharmed run of a command does.
type course struct {
	command
	git           bool
	stock         string
	before, after state
	loose         map[string]bool
	took          time.Duration
}

// course runs a command twice unharmed; what it does not write twice the same
// is not compared.
func (c *Campaign) course(k command, git bool) (*course, error) {
	u := &course{command: k, git: git, loose: map[string]bool{}}
	var err error
	if u.stock, err = c.stock(k, git); err != nil {
		return nil, err
	}
	for round := range 2 {
		if err := c.renew(u.stock); err != nil {
			return nil, err
		}
		if round == 0 {
			if u.before, err = c.look(c.place()); err != nil {
				return nil, err
			}
		}
		r := c.run(k.at(c.place()), c.environ(git), k.args)
		if r.code != 0 {
			return nil, fmt.Errorf("unharmed: exit %d\n%s", r.code, r.out)
		}
		after, err := c.look(c.place())
		if err != nil {
			return nil, err
		}
		if round == 0 {
			u.after = after
		}
		for _, p := range unlike(u.after, after, nil) {
			u.loose[p] = true
		}
		u.took = r.took
		if k.slow {
			break
		}
	}
	return u, nil
}

// courses are those of all commands that are wanted, with the git program and
// without.
func (c *Campaign) courses(t *Tally, way string) (list []*course) {
	for _, git := range []bool{true, false} {
		for _, k := range commands {
			name := way + "/" + k.title(git)
			if !c.wanted(name) || !git && k.noGit != "" {
				continue
			}
			u, err := c.course(k, git)
			if err != nil {
				t.lost("%s: %v", name, err)
				c.sayLost(t.Lost[len(t.Lost)-1:])
				continue
			}
			list = append(list, u)
		}
	}
	t.Cases += len(list)
	return list
}

// Kills kills the program at n random moments, shared among all commands with
// the git program and without.
func (c *Campaign) Kills(n int) Tally {
	var t Tally
	list := c.courses(&t, "kill")
	quick := 0
	for _, u := range list {
		if !u.slow {
			quick++
		}
	}
	for _, u := range list {
		share := (n + quick - 1) / max(quick, 1)
		if u.slow {
			share = min(share, n/250)
		}
		begun, lost := time.Now(), len(t.Lost)
		for i := range share {
			c.killOnce(&t, u, i)
		}
		c.sayf("kill/%-20s %4d kills  %2d lost  %5.1f s", u.title(u.git), share, len(t.Lost)-lost, time.Since(begun).Seconds())
		c.sayLost(t.Lost[lost:])
	}
	return t
}

// killOnce kills one run: whatever i, with the same seed, at the same share of
// the time that an unharmed run takes. Every other kill takes git with it.
func (c *Campaign) killOnce(t *Tally, u *course, i int) {
	h := fnv.New64a()
	fmt.Fprint(h, u.title(u.git), i)
	rnd := rand.New(rand.NewPCG(c.Seed, h.Sum64()))
	share, group := rnd.Float64(), rnd.IntN(2) == 0
	moment := time.Duration(share * float64(u.took))
	if c.Moment != 0 {
		moment = c.Moment
	}
	for range 8 {
		if err := c.renew(u.stock); err != nil {
			t.lost("kill/%s: %v", u.title(u.git), err)
			return
		}
		out, killed := c.killAt(u, moment, group)
		again := fmt.Sprintf("kill/%s, killed after %v, git too: %v\n  again: go run ./cmd/bench -harm -kills 20 -only kill/%s -moment %v\n", u.title(u.git), moment, group, u.title(u.git), moment)
		if killed {
			t.Kills++
		}
		c.judge(t, u, again, out)
		if killed {
			return
		}
		moment = moment * 9 / 10 // it was done before
	}
}

// killAt starts the program and kills it after a while; false when it had
// ended before.
func (c *Campaign) killAt(u *course, moment time.Duration, group bool) (string, bool) {
	cmd := exec.Command(c.Program, u.args...)
	cmd.Dir, cmd.Env = u.at(c.place()), c.environ(u.git)
	var out bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &out
	cmd.WaitDelay = 20 * time.Millisecond // git may live on with the pipe
	ownGroup(cmd)
	if err := cmd.Start(); err != nil {
		return err.Error(), false
	}
	timer := time.AfterFunc(moment, func() { kill(cmd, group) })
	cmd.Wait()
	timer.Stop()
	return out.String(), !cmd.ProcessState.Exited()
}

var acknowledged = regexp.MustCompile(`(?m)\brevision ([0-9a-f]{7,})\b`)

// underWay reports whether what is neither old nor new is as it may be on the
// way: the sheet that goes on under another number, what a run says that it has
// only begun.
func (c *Campaign) underWay(u *course, p, text string) bool {
	return p == u.parts && text == "" || c.begun(u, p) || strings.HasSuffix(p, "/site-unfinished")
}

// judge looks at what a broken-off run left, runs the command again and looks
// once more.
func (c *Campaign) judge(t *Tally, u *course, again, out string) {
	lost := func(format string, args ...any) {
		t.lost("%s  %s\n  it had said: %s", again, fmt.Sprintf(format, args...), strings.TrimSpace(out))
	}
	left, err := c.look(c.place())
	if err != nil {
		lost("%v", err)
		return
	}
	for _, p := range between(left, u.before, u.after, u.loose) {
		if c.underWay(u, p, left[p]) || c.halfway(u, p, left[p]) {
			continue
		}
		lost("%s is neither old nor new:\n%s", p, clip(left[p]))
	}
	for _, m := range acknowledged.FindAllStringSubmatch(out, -1) {
		if !c.hasRevision(left, m[1]) {
			lost("revision %s was acknowledged and is not there", m[1])
		}
	}
	r := c.run(u.at(c.place()), c.environ(u.git), u.args)
	if strings.Contains(r.out, "panic:") || strings.Contains(r.out, "goroutine ") {
		lost("run again it panics:\n%s", r.out)
	}
	now, err := c.look(c.place())
	if err != nil {
		lost("%v", err)
	}
	for _, w := range c.whole(c.place()) {
		lost("run again: %s", w)
	}
	if still := locks(c.place()); len(still) > 0 {
		lost("run again, locks are left: %v\n%s", still, r.out)
	}
	if u.done == "" && u.after.refs() != u.before.refs() && c.entered(u) || u.done != "" && strings.Contains(out, u.done) {
		// It was whole already, or git, left alone, made it whole meanwhile:
		// typed again it may say so, or do it once more.
		return
	}
	if r.code != 0 {
		lost("run again it does not succeed: exit %d\n%s", r.code, r.out)
		return
	}
	if left, _ := filepath.Glob(filepath.Join(c.place(), ".blotter-new-*")); len(left) > 0 {
		lost("run again, what was broken off is still there: %v", left)
	}
	for _, p := range unlike(now, u.after, u.loose) {
		lost("run again, %s is not as it should be:\n%s\nbut should:\n%s", p, clip(now[p]), clip(u.after[p]))
	}
}

// entered reports whether all that an unharmed run enters has been entered.
func (c *Campaign) entered(u *course) bool {
	for p, id := range u.after {
		dir, _, ok := strings.Cut(p, " ref ")
		if !ok || u.before[p] == id {
			continue
		}
		if _, err := c.git(filepath.Join(c.place(), dir), "merge-base", "--is-ancestor", strings.TrimSpace(id), "HEAD"); err != nil {
			return false
		}
	}
	return true
}

// begun reports whether a path lies in a repository that was only begun.
func (c *Campaign) begun(u *course, p string) bool {
	for q := range u.after {
		if dir, _, ok := strings.Cut(q, " ref "); ok && strings.HasPrefix(p, dir+"/") && u.before[q] == "" {
			return !isBare(filepath.Join(c.place(), dir)) && !isBare(filepath.Join(c.place(), dir, ".git"))
		}
	}
	return false
}

// halfway reports whether a branch is on the way to where an unharmed run
// takes it.
func (c *Campaign) halfway(u *course, p, id string) bool {
	dir, _, ok := strings.Cut(p, " ref ")
	if !ok || u.after[p] == "" {
		return false
	}
	_, err := c.git(filepath.Join(c.place(), dir), "cat-file", "-e", strings.TrimSpace(u.after[p]))
	if err != nil { // not yet there: then what is there must be whole at least
		_, err = c.git(filepath.Join(c.place(), dir), "rev-list", "--objects", "--quiet", strings.TrimSpace(id))
		return err == nil && (strings.Contains(p, "refs/remotes/") || u.parts != "" && c.goesOn(filepath.Join(c.place(), dir), u.before[p], id))
	}
	_, err = c.git(filepath.Join(c.place(), dir), "merge-base", "--is-ancestor", strings.TrimSpace(id), strings.TrimSpace(u.after[p]))
	return err == nil
}

// goesOn reports whether a commit holds all that another one does.
func (c *Campaign) goesOn(repo, from, id string) bool {
	_, err := c.git(repo, "merge-base", "--is-ancestor", strings.TrimSpace(from), strings.TrimSpace(id))
	return err == nil
}

func clip(s string) string {
	if len(s) > 1200 {
		return s[:1200] + " ..."
	}
	return s
}
