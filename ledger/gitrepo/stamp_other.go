//go:build !linux && !openbsd && !dragonfly && !darwin && !freebsd && !netbsd

package gitrepo

import "io/fs"

// stampOf knows no time that a program cannot put back here, as on Windows:
// every file is read.
func stampOf(fs.FileInfo) (stamp, bool) { return stamp{}, false }
