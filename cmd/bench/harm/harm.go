// Package harm does to the program what happens in a museum: it is killed at
// a random moment, the disk is full, several people write at once; and it
// counts what was lost. The developers' bench runs the whole campaign, the
// tests of cmd/blotter a share of it.
//
// It knows the program from outside only, as a file to be run: whatever it
// holds to, a person with a file manager and git could hold to as well.
package harm

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// Campaign is one run.
type Campaign struct {
	// Program is the test binary of cmd/blotter, which stands in for the
	// program with a clock and faults that its environment chooses.
	Program string
	Dir     string // an empty folder to work in; its path goes into what is made
	Seed    uint64
	Only    string // names of cases that hold it; "" are all
	Say     io.Writer

	// Moment, when not 0, is when each kill comes, to repeat one.
	Moment time.Duration
	// Cut, when not 0, is the only power cut that is made, to repeat one; they
	// are counted from 1.
	Cut int
}

// Tally is what came of it.
type Tally struct {
	Cases, Kills int      // kills that found the program alive
	Full         int      // runs that met a full disk
	Rounds       int      // of several writers at once
	Cuts, Mended int      // of the power; after which doctor was needed
	Lost         []string // each thing that was lost, torn or stuck, and how to see it again
	Left         []string // cases that could not be tried, and why
}

func (t *Tally) lost(format string, args ...any) {
	t.Lost = append(t.Lost, fmt.Sprintf(format, args...))
}

// Add adds another tally.
func (t *Tally) Add(o Tally) {
	t.Cases, t.Kills, t.Full, t.Rounds = t.Cases+o.Cases, t.Kills+o.Kills, t.Full+o.Full, t.Rounds+o.Rounds
	t.Cuts, t.Mended = t.Cuts+o.Cuts, t.Mended+o.Mended
	t.Lost, t.Left = append(t.Lost, o.Lost...), append(t.Left, o.Left...)
}

// now is the clock of all runs, so that two runs of one command write the
// same bytes.
const now = "2026-11-03T09:40:00Z"

// environ is the environment of a run: nothing of the machine but git's path.
func (c *Campaign) environ(git bool, extra ...string) []string {
	path := ""
	if git {
		path = os.Getenv("PATH")
	}
	return append([]string{"BLOTTER_AS_PROGRAM=1", "PATH=" + path, "HOME=" + c.Dir, "TMPDIR=" + filepath.Join(c.Dir, "tmp"),
		"GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL=" + os.DevNull, "GIT_TERMINAL_PROMPT=0", "TZ=UTC", "LC_ALL=C.UTF-8",
		"BLOTTER_NOW=" + now, "GIT_AUTHOR_DATE=" + now, "GIT_COMMITTER_DATE=" + now,
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example",
		"GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example"}, extra...)
}

// result is how a run ended.
type result struct {
	code int
	out  string // both streams
	took time.Duration
}

// run runs the program in a folder to its end.
func (c *Campaign) run(dir string, env, args []string) result {
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, c.Program, args...)
	cmd.Dir, cmd.Env = dir, env
	begun := time.Now()
	out, err := cmd.CombinedOutput()
	r := result{out: string(out), took: time.Since(begun)}
	var exit *exec.ExitError
	switch {
	case errors.As(err, &exit):
		r.code = exit.ExitCode()
	case err != nil:
		r.code, r.out = -1, r.out+err.Error()
	}
	return r
}

// git runs the git program, to look and never to alter.
func (c *Campaign) git(dir string, args ...string) (string, error) {
	cmd := exec.Command("git", args...)
	cmd.Dir, cmd.Env = dir, append(c.environ(true), "GIT_OPTIONAL_LOCKS=0")
	out, err := cmd.CombinedOutput()
	return string(out), err
}

func (c *Campaign) sayf(format string, args ...any) {
	if c.Say != nil {
		fmt.Fprintf(c.Say, format+"\n", args...)
	}
}

// sayLost tells at once what was lost, and how to see it again.
func (c *Campaign) sayLost(lost []string) {
	for _, l := range lost {
		c.sayf("LOST %s", l)
	}
}

// run is where every case is run: always the same path, since what some
// commands write tells where they stood.
func (c *Campaign) place() string { return filepath.Join(c.Dir, "run") }

// renew makes the place a copy of a stock.
func (c *Campaign) renew(stock string) error {
	if err := c.clear(); err != nil {
		return err
	}
	return os.CopyFS(c.place(), os.DirFS(stock))
}

// renewWith makes the place what a disk holds.
func (c *Campaign) renewWith(m *image) error {
	if err := c.clear(); err != nil {
		return err
	}
	return m.write(c.place())
}

func (c *Campaign) clear() error {
	tmp := filepath.Join(c.Dir, "tmp")
	if err := errors.Join(os.RemoveAll(tmp), os.MkdirAll(tmp, 0o777), os.MkdirAll(c.place(), 0o777)); err != nil {
		return err
	}
	// The place itself stays: another disk may be mounted there.
	old, err := os.ReadDir(c.place())
	if err != nil {
		return err
	}
	for _, e := range old {
		if err := os.RemoveAll(filepath.Join(c.place(), e.Name())); err != nil {
			return err
		}
	}
	return nil
}

func write(dir string, files map[string]string) error {
	for name, text := range files {
		file := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			return err
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			return err
		}
	}
	return nil
}

// wanted reports whether a case is to be run.
func (c *Campaign) wanted(name string) bool { return strings.Contains(name, c.Only) }
