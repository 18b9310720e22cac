// Package fault lets a test make the n-th step on the disk fail, stop short
// or kill the process (engineering.md, "Disk and tests"). Outside tests no
// hook is set and a step costs one comparison. Tests set it through
// ledger/disk/disktest.
package fault

// Hook, when set, is asked before every step that changes the disk. An error
// is returned instead of doing the step. short, for a write, says to write
// half of the bytes before the error.
var Hook func(step, path string) (short bool, err error)

// Step announces a step; the caller must stop when it returns an error.
func Step(step, path string) (short bool, err error) {
	if Hook == nil {
		return false, nil
	}
	return Hook(step, path)
}
