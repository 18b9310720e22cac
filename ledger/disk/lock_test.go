package disk

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

func TestLock(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()+"/blotter"
	l, err := Lock(ctx, dir, "blotter set (process 1)", time.Second)
	if err != nil {
		t.Fatal(err)
	}
	var held *Held
	if _, err := Lock(ctx, dir, "me", 60*time.Millisecond); !errors.As(err, &held) || held.Holder != "blotter set (process 1)" {
		t.Errorf("second lock: %v", err)
	}
	gone, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := Lock(gone, dir, "me", time.Minute); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
	first := l
	time.AfterFunc(50*time.Millisecond, func() { first.Unlock() })
	l, err = Lock(ctx, dir, "me", 5*time.Second)
	if err != nil {
		t.Fatalf("once it is free: %v", err)
	}
	if err := l.Unlock(); err != nil {
		t.Error(err)
	}
}

// TestLockBeside: many that add to one number, each after reading it, lose
// none; and no lock is left lying about.
func TestLockBeside(t *testing.T) {
	ctx, dir := context.Background(), t.TempDir()
	file := filepath.Join(dir, "lk7-shared.bundle")
	const people, rounds = 8, 25
	var all sync.WaitGroup
	for range people {
		all.Go(func() {
			for range rounds {
				l, err := LockBeside(ctx, file, time.Minute)
				if err != nil {
					t.Error(err)
					return
				}
				b, _ := os.ReadFile(file)
				n, _ := strconv.Atoi(strings.TrimSpace(string(b)))
				if err := os.WriteFile(file, []byte(strconv.Itoa(n+1)), 0o666); err != nil {
					t.Error(err)
				}
				if err := l.Unlock(); err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	if b, _ := os.ReadFile(file); string(b) != strconv.Itoa(people*rounds) {
		t.Errorf("%s of %d", b, people*rounds)
	}
	if left, _ := os.ReadDir(dir); len(left) != 1 {
		t.Errorf("left: %v", left)
	}
	l, err := LockBeside(ctx, file, time.Second)
	if err != nil {
		t.Fatal(err)
	}
	var held *Held
	if _, err := LockBeside(ctx, file, 60*time.Millisecond); !errors.As(err, &held) {
		t.Errorf("second lock: %v", err)
	}
	l.Unlock()
}
