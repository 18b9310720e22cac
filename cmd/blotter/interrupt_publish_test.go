package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"blotter/ledger/disk"
)

// TestInterruptWriting stops publish and import at any of the moments at which
// they ask whether to go on: exit 130, the ledger and each page old or new,
// and the next run does the whole work.
func TestInterruptWriting(t *testing.T) {
	sample := sampleLedger(t)
	for _, args := range [][]string{{"publish"}, {"determine", "1", "Ranunculus repens", "--by", "Signe Rask"}} {
		if out, err := runFaulty(sample, "", args); err != nil {
			t.Fatalf("%v: %v\n%s", args, err, out)
		}
	}
	for _, args := range [][]string{{"publish"}, {"import", "../register.csv", "--map", "../map.yaml", "--yes"}} {
		whole := copyLedger(t, sample)
		if code, out := runStopped(whole, -1, args); code != 0 {
			t.Fatalf("%v: exit %d\n%s", args, code, out)
		}
		old, want := siteFiles(t, sample), siteFiles(t, whole)
		before, _ := ledgerState(t, sample)
		after, _ := ledgerState(t, whole)
		stopped := 0
		for at := 1; at < 400; at = at*5/4 + 1 {
			dir := copyLedger(t, sample)
			code, out := runStopped(dir, at, args)
			if code == 0 {
				break
			}
			stopped++
			if code != exitInterrupted {
				t.Errorf("%v stopped at %d: exit %d\n%s", args, at, code, out)
			}
			for file, now := range siteFiles(t, dir) {
				if now != old[file] && now != want[file] && file != "site-unfinished" || disk.IsTemp(filepath.Base(file)) {
					t.Errorf("%v stopped at %d: %s is neither old nor new", args, at, file)
				}
			}
			if got, _ := ledgerState(t, dir); args[0] == "import" && got != before && got != after {
				t.Errorf("%v stopped at %d: the ledger is between", args, at)
			}
			if code, out := runStopped(dir, -1, args); code != 0 {
				t.Errorf("%v stopped at %d: the next run: exit %d\n%s", args, at, code, out)
			}
			if got, _ := ledgerState(t, dir); got != after {
				t.Errorf("%v stopped at %d: the next run makes something else", args, at)
			}
		}
		if stopped == 0 {
			t.Errorf("%v was never stopped", args)
		}
	}
}

// runStopped runs a command in this process and cancels it when it asks for
// the at-th time whether it may go on; never for -1.
func runStopped(dir string, at int, args []string) (int, string) {
	var out bytes.Buffer
	now := time.Date(2026, 11, 3, 9, 40, 0, 0, time.UTC)
	e := &env{In: bytes.NewReader(nil), Out: &out, Err: &out, Now: func() time.Time { return now }, Dir: dir, Width: 80,
		Environ: []string{"PATH=", "HOME=" + dir, "GIT_CONFIG_NOSYSTEM=1",
			fmt.Sprintf("GIT_AUTHOR_DATE=%d +0000", now.Unix()), fmt.Sprintf("GIT_COMMITTER_DATE=%d +0000", now.Unix()),
			"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=t@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=t@lauvkroken.example"}}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	code := run(&stopping{Context: ctx, at: at, cancel: cancel}, append([]string{"blotter"}, args...), e)
	return code, out.String()
}

// stopping is a context that ends itself when its Err is asked for the at-th
// time.
type stopping struct {
	context.Context
	cancel context.CancelFunc
	at     int
	mu     sync.Mutex
	asked  int
}

func (s *stopping) Err() error {
	s.mu.Lock()
	s.asked++
	if s.asked == s.at {
		s.cancel()
	}
	s.mu.Unlock()
	return s.Context.Err()
}
