package book

import (
	"sync"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// The cache's buckets. A chunk is the entries, or the words, of the records
// of one folder: reading a hundred at once is far cheaper than one by one.
var (
	entriesBucket = disk.Bucket{Name: "entries", Version: codecVersion}
	recordsBucket = disk.Bucket{Name: "records", Version: ledger.DecodeVersion}
)

// olderKept is how many entries of other versions of a folder a chunk may
// keep, so that looking at two versions in turn decodes nothing twice.
const olderKept = 64

// chunk is the kept entries of one folder, of whatever versions.
type chunk struct {
	kept   string // as the cache has it
	list   []kept
	byName map[string][]int
}

// open decodes what is kept; the chunk stays empty when that was made under
// another stamp.
func (c *chunk) open(stamp string, in *Intern) {
	if list, err := decodeChunk(c.kept, stamp, in); err == nil {
		c.list = list
	}
	c.kept = ""
}

// entry fills e with the kept entry of f, if there is one.
func (c *chunk) entry(f ledger.File, e *Entry) bool {
	if at := c.at(f); at != nil {
		*e = *at
		return true
	}
	return false
}

// at is the kept entry of f; nil when there is none.
func (c *chunk) at(f ledger.File) *Entry {
	i := c.find(below(f.Path), f.Blob)
	if i < 0 {
		return nil
	}
	e := &c.list[i].entry
	e.Path, e.Blob = f.Path, f.Blob // not the chunk's copy of the same
	e.Number, _ = ledger.NumberOfPath(f.Path)
	for k := range e.Findings {
		e.Findings[k].Path = f.Path
	}
	return e
}

func (c *chunk) find(name string, blob ledger.BlobID) int {
	if c.byName == nil {
		c.byName = make(map[string][]int, len(c.list))
		for i := range c.list {
			c.byName[c.list[i].name] = append(c.byName[c.list[i].name], i)
		}
	}
	for _, i := range c.byName[name] {
		if c.list[i].entry.Blob == blob {
			return i
		}
	}
	return -1
}

// others are the kept entries that are not among now, newest first, as many
// as a chunk may keep.
func (c *chunk) others(now []kept) []kept {
	have := map[[2]string]bool{}
	for i := range now {
		have[[2]string{now[i].name, string(now[i].entry.Blob)}] = true
	}
	var out []kept
	for i := range c.list {
		if len(out) == olderKept {
			break
		}
		if !have[[2]string{c.list[i].name, string(c.list[i].entry.Blob)}] {
			out = append(out, c.list[i])
		}
	}
	return out
}

// with are the entries now before those that are kept of other records, and
// of older versions as many as a chunk may keep.
func (c *chunk) with(now []kept) []kept {
	have := map[[2]string]bool{}
	named := map[string]bool{}
	for i := range now {
		have[[2]string{now[i].name, string(now[i].entry.Blob)}] = true
		named[now[i].name] = true
	}
	older := 0
	for i := range c.list {
		switch k := &c.list[i]; {
		case have[[2]string{k.name, string(k.entry.Blob)}]:
		case !named[k.name]:
			named[k.name] = true
			now = append(now, *k)
		case older < olderKept:
			older++
			now = append(now, *k)
		}
	}
	return now
}

// chunkWriter gathers chunks and writes them in batches: one transaction
// with everything would take a hundred times as long.
type chunkWriter struct {
	cache *disk.Cache

	mu      sync.Mutex
	entries []disk.Entry
	records []disk.Entry
	bytes   int
}

// batchBytes is how much waits for one transaction.
const batchBytes = 16 << 20

func (w *chunkWriter) put(bucket disk.Bucket, key string, value []byte) {
	w.mu.Lock()
	defer w.mu.Unlock()
	list := &w.entries
	if bucket == recordsBucket {
		list = &w.records
	}
	*list = append(*list, disk.Entry{Key: []byte(key), Value: value})
	if w.bytes += len(value); w.bytes >= batchBytes {
		w.write()
	}
}

func (w *chunkWriter) flush() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.write()
}

func (w *chunkWriter) write() {
	w.cache.Put(entriesBucket, w.entries)
	w.cache.Put(recordsBucket, w.records)
	w.entries, w.records, w.bytes = nil, nil, 0
}
