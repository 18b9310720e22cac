package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// bench is one run of the whole table.
type bench struct {
	work    string // folder of everything built here
	rounds  int
	only    []string
	blotter string // the program, built from this tree
	self    string // this program
	empty   string // a Go program that does nothing
}

// stage is one synthetic ledger under measure.
type stage struct {
	*bench
	n   int
	dir string // the ledger
	out string // a folder for output, emptied by whoever needs it empty
}

// row is one line of the table: ours against a peer, and the goal for the
// ratio of their CPU (or for our wall time, when there is no peer).
type row struct {
	name    string
	goal    float64       // ours / peer at most
	wall    time.Duration // our wall time at most; 0: not judged
	peer    string
	measure func(s stage) (ours, peer cost, err error)
}

// build compiles what is measured.
func (b *bench) build() error {
	if err := os.MkdirAll(b.work, 0o777); err != nil {
		return err
	}
	b.blotter, b.empty = filepath.Join(b.work, "blotter"), filepath.Join(b.work, "empty")
	self, err := os.Executable()
	if err != nil {
		return err
	}
	b.self = self
	if err := runIn(".", "go", "build", "-o", b.blotter, "./cmd/blotter"); err != nil {
		return err
	}
	source := filepath.Join(b.work, "empty.go")
	if err := os.WriteFile(source, []byte("package main\n\nfunc main() {}\n"), 0o666); err != nil {
		return err
	}
	return runIn(".", "go", "build", "-o", b.empty, source)
}

// size measures every row on a ledger of n records and prints the table.
func (b *bench) size(n int) error {
	s := stage{bench: b, n: n, dir: filepath.Join(b.work, fmt.Sprintf("ledger-%d", n)), out: filepath.Join(b.work, "out")}
	begun := time.Now()
	if err := synthesize(s.dir, n); err != nil {
		return fmt.Errorf("make the ledger: %w", err)
	}
	fmt.Printf("\n%d records, %d later commits (ledger made in %s)\n", n, n*11/100, time.Since(begun).Round(time.Second))
	fmt.Printf("%-22s %10s %10s %8s  %-34s %10s %10s %7s %6s\n", "work", "ours wall", "ours CPU", "memory", "peer", "peer wall", "peer CPU", "ratio", "goal")
	for _, r := range rows {
		if len(b.only) > 0 && !slices.Contains(b.only, r.name) {
			continue
		}
		ours, peer, err := r.measure(s)
		if err != nil {
			fmt.Printf("%-22s not measured: %v\n", r.name, err)
			continue
		}
		fmt.Println(r.line(ours, peer))
	}
	return nil
}

func (r row) line(ours, peer cost) string {
	ratio, verdict := "", "met"
	if peer.cpu > 0 {
		q := ours.cpu.Seconds() / peer.cpu.Seconds()
		ratio = fmt.Sprintf("%.2f", q)
		if r.goal > 0 && q > r.goal {
			verdict = "MISSED"
		}
	}
	if r.wall > 0 && ours.wall > r.wall {
		verdict = "MISSED"
	}
	if r.goal == 0 && r.wall == 0 {
		verdict = "-"
	}
	goal := ""
	if r.goal > 0 {
		goal = fmt.Sprintf("%.2f", r.goal)
	}
	if r.wall > 0 {
		goal += " " + r.wall.String()
	}
	return fmt.Sprintf("%-22s %10s %10s %6dMB  %-34s %10s %10s %7s %6s  %s", r.name, short(ours.wall), short(ours.cpu), ours.rss>>20,
		r.peer, short(peer.wall), short(peer.cpu), ratio, goal, verdict)
}

func short(d time.Duration) string {
	switch {
	case d == 0:
		return "-"
	case d < time.Second:
		return fmt.Sprintf("%.1fms", d.Seconds()*1000)
	}
	return fmt.Sprintf("%.2fs", d.Seconds())
}

// ours is our program run in the ledger.
func (s stage) ours(args ...string) work {
	return work{name: strings.Join(args, " "), dir: s.dir, argv: append([]string{s.blotter}, args...)}
}

// piece is one piece of our work done alone in a process.
func (s stage) piece(args ...string) work {
	return work{name: strings.Join(args, " "), dir: s.dir, argv: append([]string{s.self, "-child"}, args...)}
}

func (s stage) git(args ...string) work {
	return work{name: "git " + args[0], dir: s.dir, argv: append([]string{"git"}, args...)}
}

// noCache takes away all that earlier runs kept.
func (s stage) noCache() error { return os.RemoveAll(filepath.Join(s.dir, ".git", "blotter")) }

func (s stage) noOutput() error { return os.RemoveAll(s.out) }

func has(program string) error {
	if _, err := exec.LookPath(program); err != nil {
		return fmt.Errorf("%s is not on this machine", program)
	}
	return nil
}
