package disk

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"
)

// Held is the error of a lock that somebody else holds.
type Held struct {
	Holder string // as the holder called itself; "" when it cannot be told
}

func (e *Held) Error() string {
	if e.Holder == "" {
		return "the ledger is being written to by another program"
	}
	return "the ledger is being written to by " + e.Holder
}

// Locked is a lock that is held until Unlock or the end of the process.
type Locked struct {
	lock   *flock.Flock
	holder string
}

// Lock takes the lock of a ledger, kept in folder dir (made when missing),
// and waits up to timeout for whoever holds it. holder is what others are
// told meanwhile, for example "blotter determine (process 4242)". The error
// is a *Held when the time is over.
func Lock(ctx context.Context, dir, holder string, timeout time.Duration) (*Locked, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("lock ledger: %w", err)
	}
	l := &Locked{flock.New(filepath.Join(dir, "lock")), filepath.Join(dir, "lock-holder")}
	ctx, cancel := context.WithTimeout(ctx, timeout)
	defer cancel()
	ok, err := l.lock.TryLock()
	if !ok && err == nil {
		ok, err = l.lock.TryLockContext(ctx, 25*time.Millisecond)
	}
	if errors.Is(err, context.DeadlineExceeded) || err == nil && !ok {
		b, _ := os.ReadFile(l.holder)
		return nil, &Held{strings.TrimSpace(string(b))}
	}
	if err != nil {
		return nil, fmt.Errorf("lock ledger: %w", err)
	}
	// Who holds it is a courtesy: without it the lock is as good.
	_ = os.WriteFile(l.holder, []byte(holder+"\n"), 0o666)
	return l, nil
}

// Unlock lets go of the lock.
func (l *Locked) Unlock() error {
	_ = os.Remove(l.holder)
	return l.lock.Unlock()
}
