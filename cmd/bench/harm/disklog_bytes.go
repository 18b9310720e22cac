package harm

import (
	"bytes"
	"fmt"
	"os"
	"slices"
)

// bytes takes the calls that move bytes, or wait for them.
func (l *logging) bytes(p *process, c sysCall) error {
	switch c.name {
	case "sync", "syncfs":
		l.add(step{does: syncsAll})
		return nil
	case "truncate":
		if n, ok := l.node(l.full(p, c, -1, 0)); ok {
			l.add(step{does: truncs, node: n, off: c.number(1), path: c.text(0)})
		}
		return nil
	case "copy_file_range", "splice", "sendfile":
		return l.copied(p, c)
	}
	fd := c.number(0)
	f := p.files[fd]
	if _, ours := l.parts(c.open(0)); f == nil || !f.here || !ours { // else closed, and a pipe by now
		if (fd == 1 || fd == 2) && c.name == "write" && p == l.procs[l.main] {
			l.add(step{does: says, data: []byte(c.text(1))})
		}
		return nil
	}
	size := int64(len(l.last.data[f.node]))
	switch c.name {
	case "read", "readv":
		f.at += c.ret
	case "lseek":
		f.at = c.ret
	case "write", "writev":
		b := []byte(c.text(1))
		if c.name == "writev" {
			b = c.pieces(1)
		}
		if f.grows {
			f.at = size
		}
		l.wrote(f, f.at, b[:c.ret])
		f.at += c.ret
	case "pwrite64":
		l.wrote(f, c.number(3), []byte(c.text(1))[:c.ret])
	case "ftruncate":
		l.add(step{does: truncs, node: f.node, off: c.number(1), path: l.short(f.path)})
	case "fallocate":
		if c.word(1) == "0" && c.number(2)+c.number(3) > size {
			l.add(step{does: truncs, node: f.node, off: c.number(2) + c.number(3), path: l.short(f.path)})
		}
	case "fsync", "fdatasync":
		l.add(step{does: syncs, node: f.node, path: l.short(f.path)})
	case "sync_file_range":
		l.add(step{does: flushes, node: f.node, path: l.short(f.path)})
	case "pwritev", "pwritev2":
		return fmt.Errorf("%s of %s", c.name, f.path)
	}
	return nil
}

func (l *logging) wrote(f *opened, off int64, b []byte) {
	l.add(step{does: writes, node: f.node, off: off, data: bytes.Clone(b), path: l.short(f.path)})
}

// copied takes calls that let the system copy from file to file.
func (l *logging) copied(p *process, c sysCall) error {
	in, out, offIn, offOut := c.number(0), c.number(2), c.word(1), c.word(3)
	if c.name == "sendfile" {
		in, out, offIn, offOut = c.number(1), c.number(0), c.word(2), "NULL"
	}
	from, to := p.files[in], p.files[out]
	if _, ours := l.parts(c.open(slices.Index([]int64{c.number(0), c.number(2)}, out))); to == nil || !to.here || !ours {
		if from != nil {
			from.at += c.ret
		}
		return nil
	}
	if from == nil || offIn != "NULL" || offOut != "NULL" {
		return fmt.Errorf("%s to %s by offsets, or from a pipe", c.name, to.path)
	}
	src := l.last.data[from.node]
	if !from.here {
		var err error
		if src, err = os.ReadFile(from.path); err != nil {
			return err
		}
	}
	if to.grows {
		to.at = int64(len(l.last.data[to.node]))
	}
	l.wrote(to, to.at, src[from.at:from.at+c.ret])
	from.at, to.at = from.at+c.ret, to.at+c.ret
	return nil
}
