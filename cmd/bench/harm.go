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
	keep   bool // a program that was built before
	kills  int
	full   int
	rounds int
	cuts   int
	cut    int
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
	if _, err := os.Stat(program); o.keep && err == nil {
		fmt.Printf("as built before: %s\n", program)
	} else if out, err := exec.Command("go", "test", "-c", "-o", program, "./cmd/blotter").CombinedOutput(); err != nil {
		return fmt.Errorf("build cmd/blotter: %w: %s", err, out)
	}
	dir := filepath.Join(work, "harm")
	if err := os.RemoveAll(dir); err != nil {
		return err
	}
	c := &harm.Campaign{Program: program, Dir: dir, Seed: o.seed, Only: o.only, Moment: o.moment, Cut: o.cut, Say: os.Stdout}
	begun := time.Now()
	t := c.Kills(o.kills)
	t.Add(c.FullDisk(o.full))
	t.Add(c.Limited(o.full))
	t.Add(c.Writers(o.rounds))
	t.Add(c.Power(o.cuts))
	for _, l := range t.Left {
		fmt.Printf("not tried: %s\n", l)
	}
	fmt.Printf("%d cases, %d kills, %d runs on a full disk, %d rounds of several writers, %d power cuts of which doctor mended %d, %.0f s: %d lost\n", t.Cases, t.Kills, t.Full, t.Rounds, t.Cuts, t.Mended, time.Since(begun).Seconds(), len(t.Lost))
	if len(t.Lost) > 0 {
		return fmt.Errorf("%d things were lost", len(t.Lost))
	}
	return nil
}
