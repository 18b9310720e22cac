package hooks

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger/disk"
)

// Folder is where git looks for hooks, and which hooks belong there.
type Folder struct {
	Dir    string // absolute; core.hooksPath if the user set it
	Server bool   // a bare repository: pre-receive alone
}

func (f Folder) kinds() []kind {
	if f.Server {
		return serverKinds
	}
	return workKinds
}

// State is how one hook stands.
type State struct {
	Name   string
	Ours   bool // our hook file is there
	Older  bool // it is ours, but another version of Blotter wrote it
	Kept   bool // an earlier hook of the user is kept and run first
	Others bool // a hook of somebody else stands in its place
}

// Status tells how each hook of the folder stands, in a fixed order.
func Status(f Folder) ([]State, error) {
	var all []State
	for _, k := range f.kinds() {
		path := filepath.Join(f.Dir, k.name)
		s := State{Name: k.name, Kept: exists(path + keptSuffix)}
		text, err := os.ReadFile(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return nil, fmt.Errorf("read hook: %w", err)
		case strings.Contains(string(text), mark):
			s.Ours, s.Older = true, string(text) != script(k)
		default:
			s.Others = true
		}
		all = append(all, s)
	}
	return all, nil
}

// Installed reports whether every hook stands as this version writes it.
func Installed(f Folder) bool {
	states, err := Status(f)
	if err != nil {
		return false
	}
	for _, s := range states {
		if !s.Ours || s.Older {
			return false
		}
	}
	return true
}

// Install writes every hook of the folder; a hook of somebody else is kept
// beside ours and run first. Doing it twice changes nothing.
func Install(f Folder) error {
	if err := os.MkdirAll(f.Dir, 0o777); err != nil {
		return fmt.Errorf("make hooks folder: %w", err)
	}
	states, err := Status(f)
	if err != nil {
		return err
	}
	for i, k := range f.kinds() {
		path := filepath.Join(f.Dir, k.name)
		if states[i].Ours && !states[i].Older {
			continue
		}
		if states[i].Others {
			if states[i].Kept {
				return fmt.Errorf("install hook %s: two hooks of yours stand here, %s and %s; join them into one first", k.name, path, path+keptSuffix)
			}
			if err := os.Rename(path, path+keptSuffix); err != nil {
				return fmt.Errorf("keep your hook: %w", err)
			}
		}
		if err := disk.WriteFile(path, []byte(script(k))); err != nil {
			return fmt.Errorf("write hook: %w", err)
		}
		if err := os.Chmod(path, 0o755); err != nil {
			return fmt.Errorf("write hook: %w", err)
		}
	}
	return nil
}

// Remove takes our hooks away and puts the user's own back. Doing it twice
// changes nothing.
func Remove(f Folder) error {
	states, err := Status(f)
	if err != nil {
		return err
	}
	for i, k := range f.kinds() {
		path := filepath.Join(f.Dir, k.name)
		if states[i].Ours {
			if err := os.Remove(path); err != nil {
				return fmt.Errorf("remove hook: %w", err)
			}
		}
		if states[i].Kept && !states[i].Others {
			if err := os.Rename(path+keptSuffix, path); err != nil {
				return fmt.Errorf("put your hook back: %w", err)
			}
		}
	}
	return nil
}

// Program returns the path that hooks shall call: the running program, or,
// when that lies in a folder Go builds into and clears away, a copy of it
// under the repository's own folder.
func Program(running, commonDir string) (string, error) {
	path, err := filepath.Abs(running)
	if err != nil {
		return "", err
	}
	if !strings.Contains(filepath.ToSlash(path), "/go-build") {
		return path, nil
	}
	content, err := os.ReadFile(path)
	if err != nil {
		return "", fmt.Errorf("copy the program: %w", err)
	}
	stays := filepath.Join(commonDir, "blotter", "bin", filepath.Base(path))
	if err := os.MkdirAll(filepath.Dir(stays), 0o777); err != nil {
		return "", fmt.Errorf("copy the program: %w", err)
	}
	if err := disk.WriteFile(stays, content); err != nil {
		return "", fmt.Errorf("copy the program: %w", err)
	}
	if err := os.Chmod(stays, 0o755); err != nil {
		return "", fmt.Errorf("copy the program: %w", err)
	}
	return stays, nil
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}
