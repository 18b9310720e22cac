package work

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
)

// keptBucket has the files of work/ as decoded, each by its path behind the
// blob that it was made from. A file with findings is never kept. The figures
// that made it worth it: 3,000 works of 30 lines take ten times as long from
// their words (BenchmarkState).
var keptBucket = disk.Bucket{Name: "works", Version: ledger.WorkVersion()}

// LoadKept is Load with a cache of what was decoded before; nil: none.
func LoadKept(ctx context.Context, src ledger.Source, b *book.Book, c *disk.Cache) (*Works, error) {
	w := newWorks(b)
	var missing []ledger.File
	c.View(keptBucket, func(get func([]byte) []byte) {
		w.Files, w.byName, missing = nil, map[ledger.WorkNumber]*File{}, nil
		for f := range b.Works() {
			if as := unpacked(get([]byte(f.Path)), f); as != nil {
				w.put(fileOf(f, as, w.moments))
			} else {
				missing = append(missing, f)
			}
		}
	})
	var more []disk.Entry
	for _, f := range missing {
		as, sound, err := w.read(ctx, src, f)
		if err != nil {
			return nil, err
		}
		if packed, err := as.MarshalBinary(); err == nil && sound && f.Blob != "" {
			more = append(more, disk.Entry{Key: []byte(f.Path), Value: append([]byte(string(f.Blob)+"\n"), packed...)})
		}
	}
	c.Put(keptBucket, more)
	w.bring()
	return w, nil
}

// unpacked is what was kept of a file; nil when that is of other bytes.
func unpacked(kept []byte, f ledger.File) *ledger.Work {
	n := len(f.Blob)
	if n == 0 || len(kept) <= n || string(kept[:n]) != string(f.Blob) || kept[n] != '\n' {
		return nil
	}
	as := &ledger.Work{}
	if as.UnmarshalBinary(kept[n+1:]) != nil {
		return nil
	}
	as.Path = f.Path
	return as
}
