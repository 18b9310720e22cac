package gitrepo

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"hash/fnv"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// seenBucket keeps, for each folder of a work tree, the ids of its files with
// what the file system said of them when they were read.
var seenBucket = disk.Bucket{Name: "seen", Version: 1}

const (
	// seenWorth is how many files must have been read for what was seen to be
	// written down: fewer are read again as fast.
	seenWorth = 256
	// seenAge is how much older than its reading the last change of a file
	// must be. Within one tick of the file system's clock a file can change
	// twice and look the same; the longest tick is that of FAT, two seconds.
	seenAge = 2 * time.Second
	// seenGroup is how many folders are looked up in one opening of the cache.
	seenGroup = 256
)

// stamp is what a file system says of a file that changes with its content:
// Git's own rule (racy-git) with the setting core.trustctime. A program that
// puts the time of the last change back cannot put back changed.
type stamp struct {
	size              int64
	modified, changed int64 // nanoseconds since 1970, of the content and of the inode
	inode             uint64
}

// newest is the later of the two times.
func (s stamp) newest() int64 { return max(s.modified, s.changed) }

// seenFile is a file of a folder with its id.
type seenFile struct {
	name string
	stamp
	id []byte
}

// seenFolder is one folder's files while they are identified: what was kept of
// them, and what is to be kept.
type seenFolder struct {
	dir   string
	files []*ledger.File // in order of name
	kept  []byte
	now   []seenFile
	fresh int // of now, how many were read
}

// byFolder groups files, which are in order of path, by the folder that they
// lie in.
func byFolder(files []ledger.File) []*seenFolder {
	var out []*seenFolder
	at := map[string]*seenFolder{}
	var last *seenFolder
	for i := range files {
		f := &files[i]
		dir := path.Dir(f.Path)
		if last == nil || last.dir != dir {
			if last = at[dir]; last == nil {
				last = &seenFolder{dir: dir}
				at[dir] = last
				out = append(out, last)
			}
		}
		last.files = append(last.files, f)
	}
	return out
}

// seenKey tells the folders of this work tree from those of others that share
// the cache.
func (s workSource) seenKey(dir string) []byte {
	h := fnv.New64a()
	h.Write([]byte(s.root))
	return append(h.Sum(nil), dir...)
}

// recall brings what the cache keeps of folders.
func (s workSource) recall(folders []*seenFolder) {
	s.cache.View(seenBucket, func(get func([]byte) []byte) {
		for _, d := range folders {
			d.kept = bytes.Clone(get(s.seenKey(d.dir)))
		}
	})
}

// identify fills in size and id of the folder's files: from what was kept
// where the file system says that nothing changed since, else from the bytes.
func (d *seenFolder) identify(id *identifier, root string) error {
	dir := filepath.Join(root, filepath.FromSlash(d.dir))
	stamps := openStamps(dir)
	defer stamps.close()
	old := seenReader{rest: d.kept, width: id.hash.Size()}
	for _, f := range d.files {
		name := path.Base(f.Path)
		now, known := stamps.of(name)
		if f.Size = now.size; known && now.size > ledger.MaxFile {
			continue
		}
		file := dir + string(filepath.Separator) + name
		if !known || f.Link {
			if err := id.file(file, f); err != nil {
				return err
			}
			continue
		}
		if kept, is := old.find(name); is == now {
			f.Blob = ledger.BlobID(hex.EncodeToString(kept))
			d.now = append(d.now, seenFile{name, now, kept})
			continue
		}
		if err := id.file(file, f); err != nil {
			return err
		}
		if raw, err := hex.DecodeString(string(f.Blob)); err == nil && len(raw) > 0 && f.Size == now.size {
			d.now = append(d.now, seenFile{name, now, raw})
			d.fresh++
		}
	}
	if d.fresh == 0 {
		d.now = nil
	}
	d.kept, d.files = nil, nil
	return nil
}

// keepSeen writes down what was read of folders, if it is much. Files that
// changed too shortly before begun, when their reading began, are left out.
func (s workSource) keepSeen(folders []*seenFolder, begun time.Time) {
	fresh := 0
	for _, d := range folders {
		fresh += d.fresh
	}
	if fresh < seenWorth {
		return
	}
	behind, ok := s.clockBehind()
	if !ok {
		return
	}
	before := begun.Add(-behind - seenAge).UnixNano()
	var entries []disk.Entry
	settled := 0
	for _, d := range folders {
		if d.fresh == 0 {
			continue
		}
		n := len(d.now)
		d.now = slices.DeleteFunc(d.now, func(f seenFile) bool { return f.newest() >= before })
		settled += max(0, d.fresh-(n-len(d.now)))
		entries = append(entries, disk.Entry{Key: s.seenKey(d.dir), Value: appendSeen(nil, d.now)})
	}
	if settled >= seenWorth {
		s.cache.Put(seenBucket, entries)
	}
}

// clockBehind is how far the clock that stamps files is behind ours, as on a
// file server; false when no file can be made to see it.
func (s workSource) clockBehind() (time.Duration, bool) {
	f, err := os.CreateTemp(s.repo.StateDir(), "clock-*.tmp")
	if err != nil {
		if os.MkdirAll(s.repo.StateDir(), 0o777) != nil {
			return 0, false
		}
		if f, err = os.CreateTemp(s.repo.StateDir(), "clock-*.tmp"); err != nil {
			return 0, false
		}
	}
	defer os.Remove(f.Name())
	defer f.Close()
	st, err := f.Stat()
	if err != nil {
		return 0, false
	}
	return max(0, time.Since(st.ModTime())), true
}

func appendSeen(out []byte, files []seenFile) []byte {
	for _, f := range files {
		out = binary.AppendUvarint(out, uint64(len(f.name)))
		out = append(out, f.name...)
		out = binary.AppendUvarint(out, uint64(f.size))
		out = binary.LittleEndian.AppendUint64(out, uint64(f.modified))
		out = binary.LittleEndian.AppendUint64(out, uint64(f.changed))
		out = binary.LittleEndian.AppendUint64(out, f.inode)
		out = append(out, f.id...)
	}
	return out
}

// seenReader goes once through what was kept of a folder, in order of name.
type seenReader struct {
	rest  []byte
	width int // bytes of an id

	name, id []byte // of the file that comes next; nil: none was taken
	stamp    stamp
}

// find is the id and the stamp that were kept of name, which comes after all
// names asked before; nil and the zero stamp when there are none.
func (r *seenReader) find(name string) ([]byte, stamp) {
	for r.name != nil || r.step() {
		switch c := strings.Compare(string(r.name), name); {
		case c > 0:
			return nil, stamp{}
		case c == 0:
			r.name = nil
			return r.id, r.stamp
		}
		r.name = nil
	}
	return nil, stamp{}
}

// step takes the next file; false at the end, or where nothing can be made of
// what is left.
func (r *seenReader) step() bool {
	n, used := binary.Uvarint(r.rest)
	if used <= 0 || n == 0 || n > uint64(len(r.rest)-used) {
		r.rest = nil
		return false
	}
	name, b := r.rest[used:used+int(n)], r.rest[used+int(n):]
	size, used := binary.Uvarint(b)
	if used <= 0 || len(b)-used < 24+r.width {
		r.rest = nil
		return false
	}
	b = b[used:]
	r.name, r.id, r.rest = name, b[24:24+r.width], b[24+r.width:]
	r.stamp = stamp{
		size:     int64(size),
		modified: int64(binary.LittleEndian.Uint64(b)),
		changed:  int64(binary.LittleEndian.Uint64(b[8:])),
		inode:    binary.LittleEndian.Uint64(b[16:]),
	}
	return true
}
