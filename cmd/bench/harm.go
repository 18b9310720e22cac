package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"blotter/cmd/bench/harm"
)

// harmOptions are the flags of the harm campaign.
type harmOptions struct {
	kills  int
	seed   uint64
	only   string
	moment time.Duration
}

// runHarm builds the test binary of cmd/blotter, which can be given faults and
// a clock, and does to it what happens in a museum.
func runHarm(work string, o harmOptions) error {
	if err := os.MkdirAll(work, 0o777); err != nil {
		return err
	}
	program := filepath.Join(work, "blotter.test")
	if out, err := exec.Command("go", "test", "-c", "-o", program, "./cmd/blotter").CombinedOutput(); err != nil {
		return fmt.Errorf("build cmd/blotter: %w: %s", err, out)
	}
	dir := filepath.Join(work, "harm")
	if err := os.RemoveAll(dir); err != nil {
		return err
	}
	c := &harm.Campaign{Program: program, Dir: dir, Seed: o.seed, Only: o.only, Moment: o.moment, Say: os.Stdout}
	begun := time.Now()
	t := c.Kills(o.kills)
	for _, l := range t.Lost {
		fmt.Printf("LOST %s\n", l)
	}
	for _, l := range t.Left {
		fmt.Printf("not tried: %s\n", l)
	}
	fmt.Printf("%d cases, %d kills, %d faults of the disk, %d rounds of two writers, %.0f s: %d lost\n", t.Cases, t.Kills, t.Faults, t.Rounds, time.Since(begun).Seconds(), len(t.Lost))
	if len(t.Lost) > 0 {
		return fmt.Errorf("%d things were lost", len(t.Lost))
	}
	return nil
}
