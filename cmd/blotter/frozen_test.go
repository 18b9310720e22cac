package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestFrozenLedgers opens each ledger that an earlier version made
// (testdata/ledgers/NAME.bundle) and types the commands of NAME.txt beside it:
// what is printed must be what that version printed, or FORMAT.md's changes
// say why not. UPDATE_FROZEN=1 writes the text anew.
func TestFrozenLedgers(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing and CI=true")
		}
		t.Skip("git is missing: a bundle cannot be opened")
	}
	bundles, err := filepath.Glob(filepath.Join(smallLedger, "*.bundle"))
	if err != nil || len(bundles) == 0 {
		t.Fatalf("no frozen ledger: %v", err)
	}
	for _, bundle := range bundles {
		t.Run(filepath.Base(bundle), func(t *testing.T) {
			text := strings.TrimSuffix(bundle, ".bundle") + ".txt"
			want, err := os.ReadFile(text)
			if err != nil {
				t.Fatal(err)
			}
			got := typedInBundle(t, bundle, commandsOf(string(want)))
			if os.Getenv("UPDATE_FROZEN") != "" {
				if os.Getenv("CI") != "" {
					t.Fatal("frozen ledgers are not rewritten in CI")
				}
				if err := os.WriteFile(text, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			} else if got != string(want) {
				t.Errorf("printed now:\n%s\nfrozen:\n%s", got, want)
			}
		})
	}
}

// commandsOf lists the lines that were typed.
func commandsOf(text string) []string {
	var all []string
	for line := range strings.Lines(text) {
		if typed, ok := strings.CutPrefix(line, "$ "); ok {
			all = append(all, strings.TrimSpace(typed))
		}
	}
	return all
}

// typedInBundle opens a bundle and returns what each command prints there,
// revisions masked.
func typedInBundle(t *testing.T, bundle string, commands []string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "ledger")
	environ := append(demoEnviron(os.Environ()), "HOME="+t.TempDir())
	clone := exec.Command("git", "clone", "-q", bundle, dir)
	clone.Env = environ
	if out, err := clone.CombinedOutput(); err != nil {
		t.Fatalf("git clone: %v\n%s", err, out)
	}
	var all strings.Builder
	for _, line := range commands {
		words, err := splitWords(line)
		if err != nil {
			t.Fatal(err)
		}
		var said bytes.Buffer
		e := &env{In: strings.NewReader(""), Out: &said, Err: &bytes.Buffer{}, Dir: dir, Width: 100, Program: os.Args[0], Environ: environ,
			Now: func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }}
		run(context.Background(), words, e)
		all.WriteString("$ " + line + "\n" + anyRevision.ReplaceAllString(said.String(), "${1}3f2a91c") + "\n")
	}
	return all.String()
}
