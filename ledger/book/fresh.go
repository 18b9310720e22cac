package book

import (
	"bytes"
	"maps"
	"slices"

	"blotter/ledger"
)

// freshEntries are the entries that a partial loading had to make, because the
// cache did not have them.
type freshEntries struct {
	byPath map[string][]*Entry // versions of a record
	words  map[string][]keptRecord
	count  int
}

// leastFresh is how many entries a partial loading must have made for them to
// be kept. A hook that judges one record goes without a write.
var leastFresh = 64 // a test lowers it

func (s *freshEntries) find(f ledger.File) *Entry {
	for _, e := range s.byPath[f.Path] {
		if e.Blob == f.Blob {
			return e
		}
	}
	return nil
}

// add takes an entry and, when they are to be kept, the words of its record.
func (s *freshEntries) add(e *Entry, r *ledger.Record, words bool) *Entry {
	if s.byPath == nil {
		s.byPath, s.words = map[string][]*Entry{}, map[string][]keptRecord{}
	}
	s.byPath[e.Path] = append(s.byPath[e.Path], e)
	s.count++
	if r != nil && words {
		key, _ := chunkKey(e.Path)
		s.words[key] = append(s.words[key], keptRecord{blob: e.Blob, words: marshal(r)})
	}
	return e
}

// keep puts what was made into the cache, when it is much. What is judged
// before it is entered is then not decoded again by the hook: an entry is kept
// by the id of its bytes, whatever version of the ledger has it.
func (l *partial) keep() {
	if l.o.Cache == nil || l.fresh.count < leastFresh {
		return
	}
	now := map[string][]kept{}
	paths := slices.Sorted(maps.Keys(l.fresh.byPath))
	for _, path := range paths {
		key, _ := chunkKey(path)
		for _, e := range slices.Backward(l.fresh.byPath[path]) { // the newest was asked for last
			now[key] = append(now[key], kept{name: below(path), entry: *e})
		}
	}
	l.fetch(paths)
	keys := slices.Sorted(maps.Keys(now))
	old := make([][]byte, len(keys))
	l.o.Cache.View(recordsBucket, func(get func([]byte) []byte) {
		for i, key := range keys {
			old[i] = bytes.Clone(get([]byte(key)))
		}
	})
	w := chunkWriter{cache: l.o.Cache}
	for i, key := range keys {
		c := l.chunks[key]
		if c.kept != "" {
			c.open(l.stamp, l.w.in)
		}
		all := c.with(now[key])
		current := make(map[ledger.BlobID]bool, len(all))
		for k := range all {
			current[all[k].entry.Blob] = true
		}
		w.put(entriesBucket, key, encodeChunk(l.stamp, all))
		w.put(recordsBucket, key, addRecords(old[i], l.fresh.words[key], current))
	}
	w.flush()
}
