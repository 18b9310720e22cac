//go:build linux || openbsd || dragonfly

package gitrepo

import (
	"io/fs"
	"syscall"
)

// stampOf is the stamp of a file; false where the file system tells too little.
func stampOf(st fs.FileInfo) (stamp, bool) {
	s, ok := st.Sys().(*syscall.Stat_t)
	if !ok {
		return stamp{}, false
	}
	return stamp{size: s.Size, modified: s.Mtim.Nano(), changed: s.Ctim.Nano(), inode: s.Ino}, true
}
