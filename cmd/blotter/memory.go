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

// collectLate puts off the first collection, after which the runtime's own
// pace holds, or the pace that a command has chosen meanwhile.
func collectLate() {
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
