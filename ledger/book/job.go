package book

import (
	"bytes"
	"context"
	"errors"
	"strings"

	"blotter/ledger"
)

// takeOver takes the entries that the older Book has, and gives the jobs in
// which something is then missing.
func (l *load) takeOver(jobs []*job) []*job {
	left := jobs[:0]
	for _, j := range jobs {
		for _, i := range j.files {
			if e := l.taken(l.records[i]); e != nil {
				l.entries[i] = *e
			} else {
				j.missing = append(j.missing, i)
			}
		}
		l.tell(len(j.files) - len(j.missing))
		if len(j.missing) > 0 {
			left = append(left, j)
		}
	}
	return left
}

// fromCache takes the entries that the cache has. Its pages are touched in
// this goroutine alone; the workers get copies.
func (l *load) fromCache(ctx context.Context, jobs []*job) (err error) {
	wanted := make([][]int, len(jobs))
	for i, j := range jobs {
		wanted[i] = j.missing
	}
	before := l.done
	l.o.Cache.View(entriesBucket, func(get func([]byte) []byte) {
		l.done = before
		for i, j := range jobs {
			j.missing, j.chunk = wanted[i], &chunk{}
		}
		err = l.each(ctx, func(yield func(*job) bool) {
			for _, j := range jobs {
				if b := get([]byte(j.key)); b != nil {
					j.chunk.kept = string(b)
					if !yield(j) {
						return
					}
				}
			}
		}, l.fromChunk)
	})
	return err
}

func (l *load) fromChunk(_ context.Context, j *job, w *worker) error {
	j.chunk.open(l.stamp, w.in)
	var still []int
	for _, i := range j.missing {
		if !j.chunk.entry(l.records[i], &l.entries[i]) {
			still = append(still, i)
		}
	}
	l.tell(len(j.missing) - len(still))
	if j.missing = still; len(still) == 0 {
		j.chunk = nil
	}
	return nil
}

// oldWords brings the kept records of chunks that are to be written anew.
func (l *load) oldWords(jobs []*job) {
	l.o.Cache.View(recordsBucket, func(get func([]byte) []byte) {
		for _, j := range jobs {
			if j.words = nil; len(j.missing) < len(j.files) {
				j.words = bytes.Clone(get([]byte(j.key)))
			}
		}
	})
}

// taken is the entry that the older Book has of a file with the same bytes.
func (l *load) taken(f ledger.File) *Entry {
	if l.old == nil {
		return nil
	}
	if e := l.old.ByPath(f.Path); e != nil && e.Blob == f.Blob {
		return e
	}
	return nil
}

// decode reads the records of a job that nobody kept, and keeps them.
func (l *load) decode(ctx context.Context, j *job, w *worker) error {
	var words []keptRecord
	for _, i := range j.missing {
		f := l.records[i]
		e, r, err := read(ctx, l.src, f, w)
		if err != nil {
			return err
		}
		l.entries[i] = e
		if r != nil && l.o.Cache != nil {
			words = append(words, keptRecord{blob: f.Blob, words: marshal(r)})
		}
	}
	l.tell(len(j.missing))
	if l.o.Cache == nil {
		return nil
	}
	now := make([]kept, 0, len(j.files))
	current := make(map[ledger.BlobID]bool, len(j.files))
	for _, i := range j.files {
		now = append(now, kept{name: below(l.records[i].Path), entry: l.entries[i]})
		current[l.records[i].Blob] = true
	}
	l.chunks.put(entriesBucket, j.key, encodeChunk(l.stamp, append(now, j.chunk.others(now)...)))
	l.chunks.put(recordsBucket, j.key, addRecords(j.words, words, current))
	j.chunk, j.words = nil, nil
	return nil
}

// read decodes, reads and judges one record. The record is nil when its file
// is too large to be read.
func read(ctx context.Context, src ledger.Source, f ledger.File, w *worker) (Entry, *ledger.Record, error) {
	if f.Size > ledger.MaxFile {
		return tooLarge(f), nil, nil
	}
	text, err := src.Read(ctx, f)
	if errors.Is(err, ledger.ErrLarge) {
		return tooLarge(f), nil, nil
	}
	if err != nil {
		return Entry{}, nil, err
	}
	r, findings := ledger.Decode(f.Path, text)
	d := w.reader.Of(r)
	e := EntryOf(d, w.in)
	e.Path, e.Blob = f.Path, f.Blob
	findings = append(findings, w.one(d)...)
	ledger.SortFindings(findings)
	e.Findings = findings
	e.slim()
	return e, r, nil
}

func tooLarge(f ledger.File) Entry {
	n, _ := ledger.NumberOfPath(f.Path)
	_, findings := ledger.Decode(f.Path, make([]byte, ledger.MaxFile+1))
	e := newEntry()
	e.Number, e.Path, e.Blob, e.Findings = n, f.Path, f.Blob, findings
	return e
}

// tell counts n more records as read.
func (l *load) tell(n int) {
	if l.o.Progress == nil {
		return
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	l.done += n
	l.o.Progress(l.done, len(l.records))
}

// below is the path of a record below specimens/.
func below(path string) string { return strings.TrimPrefix(path, ledger.SpecimensDir+"/") }
