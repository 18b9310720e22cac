package main

import (
	"bytes"
	"cmp"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"slices"
	"strings"
	"time"
)

// work is one thing to time: a command, run in dir, after an untimed
// preparation.
type work struct {
	name    string
	dir     string
	argv    []string
	stdin   string // file to read from
	env     []string
	prepare func() error
}

// cost is what one run took.
type cost struct {
	wall, cpu time.Duration
	rss       int64 // peak, bytes
}

// run does w once.
func (w work) run() (cost, error) {
	if w.prepare != nil {
		if err := w.prepare(); err != nil {
			return cost{}, fmt.Errorf("prepare %s: %w", w.name, err)
		}
	}
	c := exec.Command(w.argv[0], w.argv[1:]...)
	c.Dir, c.Stdout = w.dir, io.Discard
	c.Env = append(os.Environ(), w.env...)
	if w.stdin != "" {
		f, err := os.Open(w.stdin)
		if err != nil {
			return cost{}, err
		}
		defer f.Close()
		c.Stdin = f
	}
	var stderr bytes.Buffer
	c.Stderr = &stderr
	start := time.Now()
	err := c.Run()
	wall := time.Since(start)
	if err != nil {
		return cost{}, fmt.Errorf("%s: %w: %s", strings.Join(w.argv, " "), err, stderr.String())
	}
	s := c.ProcessState
	return cost{wall: wall, cpu: s.UserTime() + s.SystemTime(), rss: peak(s)}, nil
}

// alternate runs ours and peer in turn for so many rounds and returns the
// medians of each.
func alternate(rounds int, ours, peer work) (a, b cost, err error) {
	var as, bs []cost
	for range rounds {
		x, err := ours.run()
		if err != nil {
			return a, b, err
		}
		y, err := peer.run()
		if err != nil {
			return a, b, err
		}
		as, bs = append(as, x), append(bs, y)
	}
	return median(as), median(bs), nil
}

// median takes the run of median CPU; its peak memory is the largest seen.
func median(cs []cost) cost {
	slices.SortFunc(cs, func(a, b cost) int { return cmp.Compare(a.cpu, b.cpu) })
	m := cs[len(cs)/2]
	walls := make([]time.Duration, 0, len(cs))
	for _, c := range cs {
		walls = append(walls, c.wall)
		m.rss = max(m.rss, c.rss)
	}
	slices.Sort(walls)
	m.wall = walls[len(walls)/2]
	return m
}

func runIn(dir string, argv ...string) error {
	c := exec.Command(argv[0], argv[1:]...)
	c.Dir = dir
	out, err := c.CombinedOutput()
	if err != nil {
		return fmt.Errorf("%s: %w: %s", strings.Join(argv, " "), err, out)
	}
	return nil
}

// outputOf is what a command prints, without white space at the ends.
func outputOf(dir string, argv ...string) (string, error) {
	c := exec.Command(argv[0], argv[1:]...)
	c.Dir = dir
	out, err := c.Output()
	return strings.TrimSpace(string(out)), err
}

func sortedKeys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
