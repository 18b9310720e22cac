package harm

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// node is a file, folder or link of a disk, whatever its names.
type node int

// image is a disk: what it holds after some steps. Its root is node 0.
type image struct {
	entries map[node]map[string]node // of each folder
	data    map[node][]byte          // of each file; never altered in place
	links   map[node]string
	mode    map[node]fs.FileMode
	next    node
}

// imageOf reads the disk as it is below a folder.
func imageOf(dir string) (*image, error) {
	m := &image{entries: map[node]map[string]node{0: {}}, data: map[node][]byte{}, links: map[node]string{}, mode: map[node]fs.FileMode{}, next: 1}
	at := map[string]node{".": 0}
	err := fs.WalkDir(os.DirFS(dir), ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || p == "." {
			return err
		}
		n := m.new()
		m.entries[at[filepath.Dir(p)]][e.Name()] = n
		file := filepath.Join(dir, p)
		info, err := e.Info()
		if err != nil {
			return err
		}
		m.mode[n] = info.Mode().Perm()
		switch {
		case e.IsDir():
			at[p], m.entries[n] = n, map[string]node{}
		case e.Type()&fs.ModeSymlink != 0:
			m.links[n], err = os.Readlink(file)
		default:
			m.data[n], err = os.ReadFile(file)
		}
		return err
	})
	return m, err
}

func (m *image) new() node {
	m.next++
	return m.next - 1
}

// copy is another disk that holds the same.
func (m *image) copy() *image {
	o := &image{entries: map[node]map[string]node{}, data: maps.Clone(m.data), links: maps.Clone(m.links), mode: maps.Clone(m.mode), next: m.next}
	for n, e := range m.entries {
		o.entries[n] = maps.Clone(e)
	}
	return o
}

// step is one thing that a program did to the disk.
type step struct {
	does kind
	node node   // what it is about
	dir  node   // the folder in which a name comes, or goes
	name string // that comes or goes
	from node   // of a rename: the folder in which the old name goes
	old  string // that name
	off  int64
	data []byte // of write; of say
	path string // as people read it
}

type kind int

const (
	enters   kind = iota // a name comes: a new file, folder, link, or another name of one
	leaves               // a name goes
	renames              // both, at once
	writes               // bytes of a file
	truncs               // its length becomes off
	syncs                // the disk has it: a file's bytes, or a folder's names
	flushes              // the disk has its bytes, but not yet where they are (sync_file_range)
	syncsAll             // the disk has all
	says                 // the program told its user something
)

func (k kind) String() string {
	return [...]string{"make", "remove", "rename", "write", "truncate", "fsync", "flush", "sync", "say"}[k]
}

// names reports whether a step is about names, not bytes.
func (s step) names() bool { return s.does <= renames }

// apply does a step to the disk. What it is about may not be there, when
// steps before it were lost.
func (m *image) apply(s step) {
	switch s.does {
	case enters, renames:
		if s.does == renames && m.entries[s.from][s.old] == s.node {
			delete(m.entries[s.from], s.old)
		}
		if m.entries[s.dir] != nil {
			m.entries[s.dir][s.name] = s.node
		}
	case leaves:
		delete(m.entries[s.dir], s.name)
	case writes:
		m.data[s.node] = overwrite(m.data[s.node], s.off, s.data)
	case truncs:
		m.data[s.node] = overwrite(m.data[s.node][:min(s.off, int64(len(m.data[s.node])))], s.off, nil)
	}
}

// overwrite puts bytes into others, which are as long as needed then.
func overwrite(was []byte, off int64, b []byte) []byte {
	now := make([]byte, max(int64(len(was)), off+int64(len(b))))
	copy(now, was)
	copy(now[off:], b)
	return now
}

// write makes an empty folder hold what the disk holds.
func (m *image) write(dir string) error { return m.writeFolder(dir, 0, 0) }

func (m *image) writeFolder(dir string, n node, depth int) error {
	if depth > 40 {
		return nil // a folder below itself, by renames half of which were lost
	}
	for _, name := range slices.Sorted(maps.Keys(m.entries[n])) {
		e, file := m.entries[n][name], filepath.Join(dir, name)
		perm, ok := m.mode[e]
		if !ok {
			perm = 0o644
		}
		var err error
		if m.entries[e] != nil {
			if err = os.MkdirAll(file, 0o755); err == nil {
				err = m.writeFolder(file, e, depth+1)
			}
		} else if to, ok := m.links[e]; ok {
			err = os.Symlink(to, file)
		} else if err = os.WriteFile(file, m.data[e], perm); err == nil {
			err = os.Chmod(file, perm)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// find is what a path from the root leads to.
func (m *image) find(path []string) (node, bool) {
	at := node(0)
	for _, name := range path {
		n, ok := m.entries[at][name]
		if !ok {
			return 0, false
		}
		at = n
	}
	return at, true
}
