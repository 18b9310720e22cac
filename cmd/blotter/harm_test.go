package main

import (
	"os"
	"os/exec"
	"testing"

	"blotter/cmd/bench/harm"
)

// TestHarm is a share of the harm campaign (go run ./cmd/bench -harm): the
// program is killed at moments that the seed chooses, git with it or not, and
// nothing may be lost, torn or stuck afterwards.
func TestHarm(t *testing.T) {
	if testing.Short() {
		t.Skip("it starts some hundred processes")
	}
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing, and CI must run the campaign")
		}
		t.Skip("git is missing: what is left is judged by it")
	}
	for _, only := range []string{"kill/new+git", "kill/determine+git", "kill/init+git", "kill/print-labels+git"} {
		c := &harm.Campaign{Program: os.Args[0], Dir: t.TempDir(), Seed: 1, Only: only}
		tally := c.Kills(2)
		if tally.Kills == 0 {
			t.Errorf("%s: nothing was killed", only)
		}
		for _, l := range tally.Lost {
			t.Error(l)
		}
	}
}
