// Package disktest makes the disk fail on purpose. It is for tests alone;
// nothing that is shipped imports it.
package disktest

import (
	"errors"
	"fmt"
	"os"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger/internal/fault"
)

// ErrFault is the error of a step that was made to fail.
var ErrFault = errors.New("no space left on device (made to fail by a test)")

// How says what happens at the chosen step.
type How string

const (
	Fail  How = "fail"  // the step is not done and returns ErrFault
	Short How = "short" // a write stops half way and returns ErrFault; other steps as Fail
	Kill  How = "kill"  // the process ends at once, as by kill -9
)

// Faults chooses one step.
type Faults struct {
	At  int // 1 for the first step
	How How

	mu    sync.Mutex
	steps int
	names []string
}

// Inject makes f hold for the whole process until stop is called.
func Inject(f *Faults) (stop func()) {
	fault.Hook = f.step
	return func() { fault.Hook = nil }
}

// FromText reads "3:kill", the form in which a test passes a fault to a
// command in its environment, and injects it. "" injects nothing. A step that
// is not reached does nothing; with a file name after a second colon
// ("3:kill:FILE") every step's name is added to that file as a line, so that
// a test can tell how many there are.
func FromText(text string) error {
	if text == "" {
		return nil
	}
	at, rest, _ := strings.Cut(text, ":")
	how, log, _ := strings.Cut(rest, ":")
	n, err := strconv.Atoi(at)
	if err != nil {
		return fmt.Errorf("read fault %q: %w", text, err)
	}
	f := &Faults{At: n, How: How(how)}
	fault.Hook = f.step
	if log != "" {
		fault.Hook = func(step, path string) (bool, error) {
			if h, err := os.OpenFile(log, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o666); err == nil {
				fmt.Fprintln(h, step, path)
				h.Close()
			}
			return f.step(step, path)
		}
	}
	return nil
}

// Steps are the steps seen so far, "STEP PATH".
func (f *Faults) Steps() []string {
	f.mu.Lock()
	defer f.mu.Unlock()
	return append([]string(nil), f.names...)
}

func (f *Faults) step(step, path string) (bool, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.steps++
	f.names = append(f.names, step+" "+path)
	if f.steps != f.At {
		return false, nil
	}
	switch f.How {
	case Kill:
		if p, err := os.FindProcess(os.Getpid()); err == nil {
			p.Kill()
		}
		select {} // never come back
	case Short:
		return step == "write", fmt.Errorf("%s %s: %w", step, path, ErrFault)
	}
	return false, fmt.Errorf("%s %s: %w", step, path, ErrFault)
}
