package disk

import (
	"context"
	"errors"
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
