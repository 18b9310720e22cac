package harm

import (
	"fmt"
	"io/fs"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// diskLog is what a run did to the disk below one folder, in order.
type diskLog struct {
	first *image // before
	last  *image // after
	steps []step
}

// process is one that runs or ran; its threads share it.
type process struct {
	cwd   string
	files map[int64]*opened
}

// opened is an open file; those that inherit it share it.
type opened struct {
	path  string // "" when it is none below the root: a pipe
	node  node
	here  bool // node is one of ours
	at    int64
	grows bool // O_APPEND
}

type logging struct {
	*diskLog
	root  string
	main  int // the program itself, whose words count
	procs map[int]*process
	birth map[int]sysCall // by process: the call that made it
}

// logOf turns calls into the steps of a disk that was first before them.
func logOf(first *image, root, cwd string, calls []sysCall) (*diskLog, error) {
	l := &logging{diskLog: &diskLog{first: first, last: first.copy()}, root: root, procs: map[int]*process{}, birth: map[int]sysCall{}}
	for _, c := range calls {
		switch c.name {
		case "clone", "clone3", "fork", "vfork":
			l.birth[int(c.ret)] = c
		}
	}
	for i, c := range calls {
		if i == 0 {
			for _, c := range calls { // whoever nobody made
				if _, made := l.birth[c.pid]; !made {
					l.main = c.pid
					break
				}
			}
			l.procs[l.main] = &process{cwd: cwd, files: map[int64]*opened{}}
		}
		if err := l.take(c); err != nil {
			return nil, err
		}
	}
	return l.diskLog, nil
}

// process is the one that made a call; a new one has what its parent had.
func (l *logging) process(pid int) *process {
	if p := l.procs[pid]; p != nil {
		return p
	}
	c := l.birth[pid]
	if c.name == "" {
		return l.procs[l.main]
	}
	parent := l.process(c.pid)
	p := parent
	if !strings.Contains(strings.Join(c.args, "|"), "CLONE_THREAD") {
		p = &process{cwd: parent.cwd, files: maps.Clone(parent.files)}
	}
	l.procs[pid] = p
	return p
}

// parts are the names on the way from the root to a path; false when it does
// not lie below.
func (l *logging) parts(p string) ([]string, bool) {
	rel, err := filepath.Rel(l.root, p)
	switch {
	case err != nil || rel == ".." || strings.HasPrefix(rel, "../"):
		return nil, false
	case rel == ".":
		return nil, true
	}
	return strings.Split(rel, "/"), true
}

// full is the path that a call means: below an open folder, or where the
// process stands.
func (l *logging) full(p *process, c sysCall, folder, word int) string {
	name := c.text(word)
	switch {
	case path.IsAbs(name):
	case folder >= 0 && c.open(folder) != "":
		name = path.Join(c.open(folder), name)
	default:
		name = path.Join(p.cwd, name)
	}
	return path.Clean(name)
}

// at is the folder and the name of a path; false when it is not ours.
func (l *logging) at(p string) (dir node, name string, ok bool) {
	parts, ok := l.parts(p)
	if !ok || len(parts) == 0 {
		return 0, "", false
	}
	dir, ok = l.last.find(parts[:len(parts)-1])
	return dir, parts[len(parts)-1], ok
}

func (l *logging) add(s step) {
	l.last.apply(s)
	l.steps = append(l.steps, s)
}

func (l *logging) short(p string) string { return strings.TrimPrefix(p, l.root+"/") }

// take takes one call.
func (l *logging) take(c sysCall) error {
	p := l.process(c.pid)
	switch c.name {
	case "chdir":
		p.cwd = l.full(p, c, -1, 0)
	case "fchdir":
		p.cwd = c.open(0)
	case "open":
		l.open(p, c, l.full(p, c, -1, 0), 1, 2)
	case "creat":
		c.args = []string{c.word(0), "O_WRONLY|O_CREAT|O_TRUNC", c.word(1)}
		l.open(p, c, l.full(p, c, -1, 0), 1, 2)
	case "openat":
		l.open(p, c, l.full(p, c, 0, 1), 2, 3)
	case "openat2":
		how := strings.Split(strings.Trim(c.word(2), "{}"), ", ")
		c.args = []string{c.word(0), c.word(1), strings.TrimPrefix(how[0], "flags="), "0"}
		for _, w := range how {
			if m, ok := strings.CutPrefix(w, "mode="); ok {
				c.args[3] = m
			}
		}
		l.open(p, c, l.full(p, c, 0, 1), 2, 3)
	case "dup", "dup2", "dup3":
		p.files[c.ret] = p.files[c.number(0)]
	case "fcntl":
		if strings.HasPrefix(c.word(1), "F_DUPFD") {
			p.files[c.ret] = p.files[c.number(0)]
		}
	case "mkdir", "mkdirat":
		l.mkdir(p, c)
	case "rename", "renameat", "renameat2", "link", "linkat", "symlink", "symlinkat", "unlink", "unlinkat", "rmdir":
		return l.renamed(p, c)
	case "chmod", "fchmod", "fchmodat":
		l.chmod(p, c)
	default:
		return l.bytes(p, c)
	}
	return nil
}

// open opens a file, which may make or empty it.
func (l *logging) open(p *process, c sysCall, name string, flags, mode int) {
	f := &opened{path: name, grows: c.has(flags, "O_APPEND")}
	p.files[c.ret] = f
	parts, ok := l.parts(name)
	if !ok {
		return
	}
	if f.node, f.here = l.last.find(parts); f.here {
		if c.has(flags, "O_TRUNC") && len(l.last.data[f.node]) > 0 {
			l.add(step{does: truncs, node: f.node, path: l.short(name)})
		}
		return
	}
	if dir, base, ok := l.at(name); ok && c.has(flags, "O_CREAT") {
		f.node, f.here = l.last.new(), true
		l.last.data[f.node], l.last.mode[f.node] = nil, fs.FileMode(c.number(mode))&^0o022
		l.add(step{does: enters, node: f.node, dir: dir, name: base, path: l.short(name)})
	}
}

func (l *logging) mkdir(p *process, c sysCall) {
	name := l.full(p, c, -1, 0)
	if c.name == "mkdirat" {
		name = l.full(p, c, 0, 1)
	}
	if dir, base, ok := l.at(name); ok {
		n := l.last.new()
		l.last.entries[n] = map[string]node{}
		l.add(step{does: enters, node: n, dir: dir, name: base, path: l.short(name)})
	}
}

// renamed takes the calls by which names come and go.
func (l *logging) renamed(p *process, c sysCall) error {
	var from, to string
	switch c.name {
	case "rename", "link":
		from, to = l.full(p, c, -1, 0), l.full(p, c, -1, 1)
	case "renameat", "renameat2", "linkat":
		from, to = l.full(p, c, 0, 1), l.full(p, c, 2, 3)
	case "symlink", "symlinkat":
		return l.symlink(p, c)
	case "unlinkat":
		from = l.full(p, c, 0, 1)
	default:
		from = l.full(p, c, -1, 0)
	}
	dir, name, ok := l.at(from)
	n, there := l.last.entries[dir][name]
	if !ok || !there {
		if _, here := l.parts(to); here && to != "" && to != "." {
			return fmt.Errorf("%s from %s, which nobody watched, to %s", c.name, from, to)
		}
		return nil
	}
	if to == "" {
		l.add(step{does: leaves, node: n, dir: dir, name: name, path: l.short(from)})
		return nil
	}
	dir2, name2, ok := l.at(to)
	s := step{does: renames, node: n, from: dir, old: name, dir: dir2, name: name2, path: l.short(from) + " to " + l.short(to)}
	switch {
	case !ok:
		s = step{does: leaves, node: n, dir: dir, name: name, path: l.short(from)}
	case c.name == "link" || c.name == "linkat":
		s.does = enters
	case c.has(4, "RENAME_EXCHANGE"):
		return fmt.Errorf("%s exchanges two files", c.name)
	}
	l.add(s)
	return nil
}

func (l *logging) symlink(p *process, c sysCall) error {
	name := l.full(p, c, -1, 1)
	if c.name == "symlinkat" {
		name = l.full(p, c, 1, 2)
	}
	if dir, base, ok := l.at(name); ok {
		n := l.last.new()
		l.last.links[n] = c.text(0)
		l.add(step{does: enters, node: n, dir: dir, name: base, path: l.short(name)})
	}
	return nil
}

// chmod alters who may read or run a file: no model of ours loses that.
func (l *logging) chmod(p *process, c sysCall) {
	n, ok, mode := node(0), false, c.number(1)
	switch c.name {
	case "fchmod":
		if f := p.files[c.number(0)]; f != nil {
			n, ok = f.node, f.here
		}
	case "chmod":
		n, ok = l.node(l.full(p, c, -1, 0))
	default:
		n, ok = l.node(l.full(p, c, 0, 1))
		mode = c.number(2)
	}
	if ok {
		l.last.mode[n] = fs.FileMode(mode).Perm()
	}
}

func (l *logging) node(name string) (node, bool) {
	parts, ok := l.parts(name)
	if !ok {
		return 0, false
	}
	return l.last.find(parts)
}

// unlike names what of a folder is otherwise than the last image: then the
// log has not seen all.
func (d *diskLog) unlike(dir string) ([]string, error) {
	real, err := imageOf(dir)
	if err != nil {
		return nil, err
	}
	a, b := d.last.flat(), real.flat()
	var out []string
	for _, p := range slices.Sorted(maps.Keys(joined(a, b))) {
		if a[p] != b[p] {
			out = append(out, p+": "+strconv.Itoa(len(a[p]))+" bytes by the log, "+strconv.Itoa(len(b[p]))+" on the disk")
		}
	}
	return out, nil
}

func joined(a, b map[string]string) map[string]string {
	o := maps.Clone(a)
	maps.Copy(o, b)
	return o
}

// flat is every path with what it holds.
func (m *image) flat() map[string]string {
	out := map[string]string{}
	var walk func(n node, at string)
	walk = func(n node, at string) {
		for name, e := range m.entries[n] {
			p := path.Join(at, name)
			switch {
			case m.entries[e] != nil:
				out[p] = "folder"
				walk(e, p)
			case m.links[e] != "":
				out[p] = "link " + m.links[e]
			default:
				out[p] = "file " + m.mode[e].String() + " " + string(m.data[e])
			}
		}
	}
	walk(0, "")
	return out
}
