package main

import (
	"os"
	"os/exec"
	"testing"

	"blotter/cmd/bench/harm"
)

// harmless is a campaign on this test binary; each test of it takes a share of
// what go run ./cmd/bench -harm does.
func harmless(t *testing.T) *harm.Campaign {
	if testing.Short() {
		t.Skip("it starts some hundred processes")
	}
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing, and CI must run the campaign")
		}
		t.Skip("git is missing: what is left is judged by it")
	}
	return &harm.Campaign{Program: os.Args[0], Dir: t.TempDir(), Seed: 1}
}

// TestHarm: the program is killed at moments that the seed chooses, git with
// it or not, and nothing may be lost, torn or stuck afterwards.
func TestHarm(t *testing.T) {
	t.Parallel()
	c := harmless(t)
	for _, c.Only = range []string{"kill/new+git", "kill/undo-two-git", "kill/join+git", "kill/mirror+git"} {
		tally := c.Kills(2)
		if tally.Kills == 0 {
			t.Errorf("%s: nothing was killed", c.Only)
		}
		for _, l := range tally.Lost {
			t.Error(l)
		}
	}
}

// TestHarmFullDisk: on a disk that is full at some moment a command does all
// or nothing, and says in plain words why.
func TestHarmFullDisk(t *testing.T) {
	t.Parallel()
	c := harmless(t)
	for _, way := range []struct {
		only  string
		sizes int
		run   func(int) harm.Tally
	}{
		{"limit/set+git", 2, c.Limited}, {"limit/publish+git", 1, c.Limited}, {"full/set+git", 3, c.FullDisk}, {"full/undo-two+git", 3, c.FullDisk},
	} {
		t.Run(way.only, func(t *testing.T) {
			c.Only = way.only
			tally := way.run(way.sizes)
			for _, l := range tally.Lost {
				t.Error(l)
			}
			for _, l := range tally.Left {
				t.Skip(l)
			}
			if tally.Full != way.sizes {
				t.Errorf("%d runs, want %d", tally.Full, way.sizes)
			}
		})
	}
}

// TestHarmPower: of what a command and its git did to the disk a part is kept,
// as after a power cut; nothing that was acknowledged may be lost, nothing torn
// that is not told and mended.
func TestHarmPower(t *testing.T) {
	t.Parallel()
	c := harmless(t)
	if _, err := exec.LookPath("strace"); err != nil && os.Getenv("CI") == "true" {
		t.Fatal("strace is missing, and CI must cut the power")
	}
	for _, c.Only = range []string{"power/new+git", "power/new-git", "power/undo-two-git"} {
		tally := c.Power(5)
		for _, l := range tally.Lost {
			t.Error(l)
		}
		for _, l := range tally.Left {
			t.Skip(l)
		}
		if tally.Cuts != 5 {
			t.Errorf("%s: %d cuts, want 5", c.Only, tally.Cuts)
		}
	}
}

// TestHarmWriters: several write to one ledger at once; what was said to be
// entered is there, what was refused is nowhere, what was saved by hand stays.
func TestHarmWriters(t *testing.T) {
	t.Parallel()
	c := harmless(t)
	tally := c.Writers(3)
	if tally.Rounds != 3 {
		t.Errorf("%d rounds, want 3", tally.Rounds)
	}
	for _, l := range tally.Lost {
		t.Error(l)
	}
}

// TestHarmMeetsAll: every command that enters or makes something is a case of
// the campaign, or it is said why not.
func TestHarmMeetsAll(t *testing.T) {
	killed, known := harm.Killed(), map[string]bool{}
	for _, c := range commands() {
		known[c.Name] = true
		if c.Family != famEnter && c.Family != famMake {
			continue
		}
		if _, spared := harm.Unharmed[c.Name]; killed[c.Name] == spared {
			t.Errorf("%s: a case of the campaign: %v; said why not: %v", c.Name, killed[c.Name], spared)
		}
	}
	for name := range killed {
		if !known[name] {
			t.Errorf("the campaign has a case of %s, which is no command", name)
		}
	}
}
