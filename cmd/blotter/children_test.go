package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestNoChildStays: a command leaves no git program behind in its process.
// `demo` runs some hundred commands in one, `serve` reads the ledger anew after
// each edit, and each left one that nobody buried.
func TestNoChildStays(t *testing.T) { // not in parallel: others have children too
	children := func() (out []string) {
		tasks, err := filepath.Glob("/proc/self/task/*/children")
		if err != nil || len(tasks) == 0 {
			t.Skip("this system does not list a process's children")
		}
		for _, f := range tasks {
			b, _ := os.ReadFile(f) // a thread that ended has none
			out = append(out, strings.Fields(string(b))...)
		}
		return out
	}
	before := len(children())
	dir := filepath.Join(t.TempDir(), "ledger")
	typed := func(words ...string) {
		t.Helper()
		var said bytes.Buffer
		e := &env{In: strings.NewReader(""), Out: &said, Err: &said, Dir: dir, Width: 80, Program: "blotter", Environ: demoEnviron(os.Environ()),
			Now: func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) }}
		if code := run(context.Background(), append([]string{"blotter"}, words...), e); code != exitFine {
			t.Fatalf("blotter %s: %d\n%s", strings.Join(words, " "), code, said.String())
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	typed("init", "--code", "LK7", "--name", "Lauvkroken Museum", "--no-hooks", "--yes")
	typed("new", "collector=Signe Rask", "name=Ranunculus acris L.", "--draft", "--yes")
	for range 3 {
		typed("status")
		typed("publish")
	}
	if after := children(); len(after) > before {
		t.Errorf("%d programs were left behind: %v", len(after)-before, after)
	}
}
