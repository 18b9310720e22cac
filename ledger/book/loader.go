package book

import (
	"context"
	"encoding/binary"
	"errors"
	"sync"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/reading"
)

// Loader brings the full record behind an entry: from the cache, else from
// the source. It may be used by several goroutines at once and is quickest
// when records are asked for in order of path.
type Loader struct {
	Source      ledger.Source
	Cache       *disk.Cache // nil: records are always decoded
	Conventions reading.Conventions

	mu     sync.Mutex
	recent [8]folder // chunks last used
	next   int       // the one of recent to give up next
}

// folder is the kept words of one chunk.
type folder struct {
	key     string
	records map[ledger.BlobID]string
}

// Loader loads the records of b, which came from src.
func (b *Book) Loader(src ledger.Source, c *disk.Cache) *Loader {
	return &Loader{Source: src, Cache: c, Conventions: b.Museum.Conventions}
}

// Record is the record of e with every word. The caller may change it.
func (l *Loader) Record(ctx context.Context, e *Entry) (*ledger.Record, error) {
	if words, ok := l.kept(e); ok {
		r := &ledger.Record{}
		if r.UnmarshalBinary([]byte(words)) == nil {
			r.Path = e.Path
			return r, nil
		}
	}
	text, err := l.Source.Read(ctx, ledger.File{Path: e.Path, Blob: e.Blob, Size: -1})
	if errors.Is(err, ledger.ErrLarge) {
		return &ledger.Record{Path: e.Path}, nil // check says so
	}
	if err != nil {
		return nil, err
	}
	r, _ := ledger.Decode(e.Path, text)
	return r, nil
}

// Reading is the record of e with every word read.
func (l *Loader) Reading(ctx context.Context, e *Entry) (*reading.Reading, error) {
	r, err := l.Record(ctx, e)
	if err != nil {
		return nil, err
	}
	return reading.Of(r, l.Conventions), nil
}

// kept finds the cache's copy of e's record.
func (l *Loader) kept(e *Entry) (string, bool) {
	if l.Cache == nil {
		return "", false
	}
	key, _ := chunkKey(e.Path)
	l.mu.Lock()
	for i := range l.recent {
		if l.recent[i].key == key {
			words, ok := l.recent[i].records[e.Blob]
			l.mu.Unlock()
			return words, ok
		}
	}
	l.mu.Unlock()
	f := folder{key: key, records: map[ledger.BlobID]string{}}
	for _, k := range splitRecords(l.Cache.Get(recordsBucket, []byte(key))) {
		f.records[k.blob] = string(k.words)
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.recent[l.next] = f
	l.next = (l.next + 1) % len(l.recent)
	words, ok := f.records[e.Blob]
	return words, ok
}

// keptRecord is one record of a chunk in the form that ledger gives it.
type keptRecord struct {
	blob  ledger.BlobID
	words []byte
}

// marshal is the kept form of a record; nil when it has none.
func marshal(r *ledger.Record) []byte {
	b, err := r.MarshalBinary()
	if err != nil {
		return nil
	}
	return b
}

// addRecords is the chunk old with more put before what it has. Of the old
// ones it keeps those that are current and some others.
func addRecords(old []byte, more []keptRecord, current map[ledger.BlobID]bool) []byte {
	var out []byte
	have := map[ledger.BlobID]bool{}
	put := func(k keptRecord) {
		if k.words == nil || have[k.blob] {
			return
		}
		have[k.blob] = true
		out = appendText(out, string(k.blob))
		out = binary.AppendUvarint(out, uint64(len(k.words)))
		out = append(out, k.words...)
	}
	for _, k := range more {
		put(k)
	}
	others := 0
	for _, k := range splitRecords(old) {
		if current[k.blob] {
			put(k)
		} else if others++; others <= olderKept {
			put(k)
		}
	}
	return out
}

// splitRecords are the records of a chunk; none when it is damaged.
func splitRecords(b []byte) []keptRecord {
	var out []keptRecord
	for len(b) > 0 {
		var parts [2][]byte
		for i := range parts {
			size, n := binary.Uvarint(b)
			if n <= 0 || size > uint64(len(b)-n) {
				return nil
			}
			parts[i], b = b[n:n+int(size)], b[n+int(size):]
		}
		out = append(out, keptRecord{blob: ledger.BlobID(parts[0]), words: parts[1]})
	}
	return out
}
