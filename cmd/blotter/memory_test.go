package main

import (
	"runtime/debug"
	"testing"
)

// TestLimitMemory: the program stays below its goal, a million records are
// published below what a museum's computer has, and who says by GOMEMLIMIT how
// much there may be is heeded.
func TestLimitMemory(t *testing.T) {
	before := debug.SetMemoryLimit(-1)
	percent := debug.SetGCPercent(100)
	defer func() {
		debug.SetMemoryLimit(before)
		debug.SetGCPercent(percent)
	}()
	t.Setenv("GOMEMLIMIT", "")
	collectLate()
	if got := debug.SetMemoryLimit(-1); got != memoryGoal {
		t.Errorf("the limit is %d bytes, not %d", got, memoryGoal)
	}
	if need := publishMemory + 1_000_000*publishMemoryEach; need > memoryGoal {
		t.Errorf("publishing a million records takes %d bytes", need)
	}
	t.Setenv("GOMEMLIMIT", "1GiB")
	debug.SetMemoryLimit(1 << 30)
	collectLate()
	limitMemory(5)
	if got := debug.SetMemoryLimit(-1); got != 1<<30 {
		t.Errorf("GOMEMLIMIT was not heeded: %d bytes", got)
	}
}
