//go:build unix

package gitrepo

import (
	"syscall"

	"golang.org/x/sys/unix"
)

// stampDir tells the stamps of the files of one folder, which it holds open:
// the way to it is walked once for all of them.
type stampDir struct{ fd int }

func openStamps(dir string) stampDir {
	fd, err := retry(func() (int, error) { return unix.Open(dir, unix.O_RDONLY|unix.O_DIRECTORY|unix.O_CLOEXEC, 0) })
	if err != nil {
		fd = -1
	}
	return stampDir{fd}
}

// of is the stamp of a plain file; false for anything else.
func (d stampDir) of(name string) (stamp, bool) {
	if d.fd < 0 {
		return stamp{}, false
	}
	var st unix.Stat_t
	_, err := retry(func() (int, error) { return 0, unix.Fstatat(d.fd, name, &st, unix.AT_SYMLINK_NOFOLLOW) })
	if err != nil || st.Mode&syscall.S_IFMT != syscall.S_IFREG {
		return stamp{}, false
	}
	return stamp{size: st.Size, modified: st.Mtim.Nano(), changed: st.Ctim.Nano(), inode: uint64(st.Ino)}, true
}

func (d stampDir) close() {
	if d.fd >= 0 {
		unix.Close(d.fd)
	}
}
