package disk

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
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
	gone   bool // the lock's own file goes with it
}

// Lock takes the lock of a ledger, kept in folder dir (made when missing),
// and waits up to timeout for whoever holds it. holder is what others are
// told meanwhile, for example "blotter determine (process 4242)". The error
// is a *Held when the time is over.
func Lock(ctx context.Context, dir, holder string, timeout time.Duration) (*Locked, error) {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return nil, fmt.Errorf("lock ledger: %w", err)
	}
	l := &Locked{lock: flock.New(filepath.Join(dir, "lock")), holder: filepath.Join(dir, "lock-holder")}
	ctx, cancel := context.WithTimeout(ctx, timeout)
	defer cancel()
	ok, err := l.take(ctx)
	if !ok && err == nil {
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

// take waits for the lock as long as ctx lasts; false: somebody held it until
// then.
func (l *Locked) take(ctx context.Context) (bool, error) {
	ok, err := l.lock.TryLock()
	if !ok && err == nil {
		ok, err = l.lock.TryLockContext(ctx, 25*time.Millisecond)
	}
	if errors.Is(err, context.DeadlineExceeded) {
		return false, nil
	}
	return ok, err
}

// LockBeside takes the lock of one file that several people write, as on a
// network drive: it is kept beside the file, hidden, and removed by Unlock. A
// file system that knows no locks gives none, and no error.
func LockBeside(ctx context.Context, file string, timeout time.Duration) (*Locked, error) {
	beside := filepath.Join(filepath.Dir(file), "."+filepath.Base(file)+".lock")
	ctx, cancel := context.WithTimeout(ctx, timeout)
	defer cancel()
	for {
		l := &Locked{lock: flock.New(beside), gone: true}
		ok, err := l.take(ctx)
		switch {
		case errors.Is(err, errors.ErrUnsupported):
			return &Locked{}, nil
		case err != nil:
			return nil, fmt.Errorf("lock %s: %w", filepath.Base(file), err)
		case !ok:
			return nil, fmt.Errorf("lock %s: %w", filepath.Base(file), &Held{})
		}
		mine, err := l.lock.Stat()
		now, e := os.Stat(beside)
		if err == nil && e == nil && os.SameFile(mine, now) {
			return l, nil
		}
		l.lock.Unlock() // whoever held it before has removed it: that one locks nothing any more
	}
}

// Unlock lets go of the lock.
func (l *Locked) Unlock() error {
	if l.lock == nil {
		return nil
	}
	if l.holder != "" {
		_ = os.Remove(l.holder)
	}
	if !l.gone {
		return l.lock.Unlock()
	}
	if runtime.GOOS != "windows" { // before others can take what is no longer there
		_ = os.Remove(l.lock.Path())
		return l.lock.Unlock()
	}
	err := l.lock.Unlock()
	_ = os.Remove(l.lock.Path()) // Windows removes no file that is open: whoever waits keeps it
	return err
}
