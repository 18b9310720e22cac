package main

import (
	"os"
	"runtime"
	"runtime/debug"
)

// hastyPercent lets the heap reach 16 MB before the first collection of
// garbage; the runtime would begin at 4 MB and go over what a short command
// keeps three times, a fifth of the work of a hook.
const hastyPercent = 400

// memoryGoal is how much memory, in bytes, the collector tries to stay below:
// a ledger of a million records keeps some 1.5 GB alive when it is read whole,
// and the runtime's own pace would let that double and more. Four gigabytes are
// what a museum's computer has.
const memoryGoal = 3 << 30

// collectLate puts off the first collection, after which the runtime's own
// pace holds, or the pace that a command has chosen meanwhile.
func collectLate() {
	limitMemory(memoryGoal)
	if os.Getenv("GOGC") != "" {
		return
	}
	debug.SetGCPercent(hastyPercent)
	first := new(*int) // found to be garbage by the first collection
	runtime.SetFinalizer(first, func(**int) {
		if p := debug.SetGCPercent(100); p != hastyPercent {
			debug.SetGCPercent(p)
		}
	})
}

// limitMemory makes the collector work harder as memory comes near so many
// bytes, unless the environment says otherwise: GOMEMLIMIT. Nothing fails when
// more is needed.
func limitMemory(bytes int64) {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(bytes)
	}
}
