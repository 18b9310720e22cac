package gitrepo

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
)

// ShareState opens what the program keeps below the git folder to those whom
// core.sharedRepository lets write there, the group or everybody, as git does
// with its own files. Where it names nobody, nothing is changed.
func (r *Repo) ShareState() error {
	bits, err := r.sharedBits()
	if err != nil || bits == 0 || runtime.GOOS == "windows" {
		return err
	}
	if err := os.MkdirAll(r.StateDir(), 0o777); err != nil {
		return err
	}
	return filepath.WalkDir(r.StateDir(), func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		mode := info.Mode().Perm() | bits
		switch {
		case e.IsDir():
			mode |= mode&0o444>>2 | fs.ModeSetgid
		case !e.Type().IsRegular():
			return nil
		}
		if err := os.Chmod(path, mode); err != nil && !errors.Is(err, fs.ErrPermission) {
			return err
		}
		return nil
	})
}

// sharedBits are the permissions that core.sharedRepository adds to files
// (git-config(1)).
func (r *Repo) sharedBits() (fs.FileMode, error) {
	word, err := r.Setting("core.sharedrepository")
	switch strings.ToLower(word) {
	case "", "false", "0", "umask":
		return 0, err
	case "true", "1", "group":
		return 0o660, err
	case "all", "world", "everybody", "2":
		return 0o664, err
	}
	n, e := strconv.ParseUint(word, 8, 32)
	if e != nil || n&0o600 != 0o600 {
		return 0, err
	}
	return fs.FileMode(n & 0o666), err
}
