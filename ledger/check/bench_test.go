package check_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
	"blotter/ledger/disk"
)

// big is a ledger of n made-up records; BLOTTER_BENCH_N sets n.
type big struct {
	files []ledger.File
	text  map[string][]byte
}

func (b *big) Files(context.Context) ([]ledger.File, error) { return b.files, nil }

func (b *big) Read(_ context.Context, f ledger.File) ([]byte, error) {
	if t, ok := b.text[f.Path]; ok {
		return t, nil
	}
	return nil, fmt.Errorf("read %s: not there", f.Path)
}

func (b *big) put(path, text string) ledger.BlobID {
	f := ledger.File{Path: path, Blob: ledger.BlobOf([]byte(text)), Size: int64(len(text))}
	b.files = append(b.files, f)
	b.text[path] = []byte(text)
	return f.Blob
}

func bigRecord(i, version int) string {
	return fmt.Sprintf(`# yaml-language-server: $schema=../../../record.schema.json
specimen: LK7-%07d
entry: full
kept_as: sheet
collector: Collector %d
with: [Ove Bannister]
coll_no: "%d"
date: %d.vii.%d
place:
  country: Norway
  province: Vestland
  district: Voss
  locality: %d.%d km NE of Raundal chapel, above the track
  position: 60°%02d'12"N 6°39'05"E
  datum: WGS84
  gps_accuracy: 8 m
  elevation: %d m
  elevation_by: map
habitat: Unfertilised hay meadow on moraine
associates: [Trollius europaeus, Geranium sylvaticum]
description: Perennial herb to %d cm; petals clear yellow, paler beneath, fading on drying.
phenology: [flower]
abundance: occasional
origin: wild
determinations:
  - name: Ranunculus acris L.
    kind: det
    by: Collector %d
    date: s.d.
    from: label
  - name: Ranunculus acris subsp. pumilus
    kind: det
    by: M. Ostrander
    date: 2026-11-02
    why: Beak and receptacle hairs, against the regional flora, version %d
`, i, i%300, i/300, 1+i%28, 1900+i%120, i%9, i%10, i%60, 100+i%900, i%50, i%300, version)
}

func makeBig(n int) *big {
	b := &big{text: map[string][]byte{}}
	b.put("blotter.yaml", "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n")
	b.put("names/Ranunculaceae.yaml", "family: Ranunculaceae\nnames:\n  - name: Ranunculus acris L.\n  - name: Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve\n")
	for i := range n {
		b.put(ledger.Number(fmt.Sprintf("LK7-%07d", i)).Path(), bigRecord(i, 0))
	}
	return b
}

func benchN(b *testing.B) int {
	n, err := strconv.Atoi(os.Getenv("BLOTTER_BENCH_N"))
	if err != nil {
		n = 5000
	}
	return n
}

func loadBig(b *testing.B, src ledger.Source, c *disk.Cache) *book.Book {
	b.Helper()
	k, err := book.Load(context.Background(), src, book.Options{Judge: check.Judge(), Cache: c})
	if err != nil {
		b.Fatal(err)
	}
	return k
}

// decode decodes every record with two workers, and does no more.
func (b *big) decode() {
	done := make(chan bool)
	for w := range 2 {
		go func() {
			for i := w; i < len(b.files); i += 2 {
				ledger.Decode(b.files[i].Path, b.text[b.files[i].Path])
			}
			done <- true
		}()
	}
	<-done
	<-done
}

func BenchmarkDecode(b *testing.B) {
	src := makeBig(benchN(b))
	for b.Loop() {
		src.decode()
	}
}

// BenchmarkWhole is a whole check from nothing, and how many times as long it
// takes as decoding alone, measured in turn. cmd/bench has the same against
// yaml.v3 (check-cold).
func BenchmarkWhole(b *testing.B) {
	src := makeBig(benchN(b))
	var decoding, checking time.Duration
	for b.Loop() {
		start := time.Now()
		src.decode()
		between := time.Now()
		check.Whole(loadBig(b, src, nil), check.Options{Today: today})
		decoding, checking = decoding+between.Sub(start), checking+time.Since(between)
	}
	b.ReportMetric(float64(checking)/float64(decoding), "x-decode")
}

func BenchmarkLoadScratch(b *testing.B) {
	src := makeBig(benchN(b))
	for b.Loop() {
		loadBig(b, src, nil)
	}
}

func BenchmarkLoadCold(b *testing.B) {
	src := makeBig(benchN(b))
	for b.Loop() {
		loadBig(b, src, disk.NewCache(filepath.Join(b.TempDir(), "c")))
	}
}

func BenchmarkLoadWarm(b *testing.B) {
	src := makeBig(benchN(b))
	file := filepath.Join(b.TempDir(), "c")
	c := disk.NewCache(file)
	k := loadBig(b, src, c)
	for b.Loop() {
		k = loadBig(b, src, c)
	}
	n, with := k.Len(), heap()
	runtime.KeepAlive(k)
	k = nil
	b.ReportMetric(float64(with-heap())/float64(n), "B/record")
	if st, err := os.Stat(file); err == nil {
		b.ReportMetric(float64(st.Size())/float64(n), "cacheB/record")
	}
}

// heap is the memory in use after a collection.
func heap() int64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

func BenchmarkRun(b *testing.B) {
	k := loadBig(b, makeBig(benchN(b)), nil)
	for b.Loop() {
		check.Run(k, check.Options{Today: today})
	}
}

// BenchmarkTouched is one staged record against a warm cache, as a hook does
// it; and the same after the base has moved on by one record.
func BenchmarkTouched(b *testing.B) {
	n := benchN(b)
	src := makeBig(n)
	c := disk.NewCache(filepath.Join(b.TempDir(), "c"))
	path := ledger.Number(fmt.Sprintf("LK7-%07d", n/2)).Path()
	old := ledger.BlobOf(src.text[path])
	after := &big{text: map[string][]byte{}}
	now := after.put(path, bigRecord(n/2, 1))
	judge := func(base book.Base, s ledger.Source, from, to ledger.BlobID) {
		r, err := check.Touched(context.Background(), base, s, []ledger.Change{{Path: path, Old: from, New: to}}, nil, book.Options{Cache: c}, check.Options{Today: today})
		if err != nil || r.Judged != 1 {
			b.Fatal(r, err)
		}
	}
	base := book.Base{Tree: "1", Source: src}
	judge(base, after, old, now) // makes the index
	b.Run("same", func(b *testing.B) {
		for b.Loop() {
			judge(base, after, old, now)
		}
	})
	moved := 0
	b.Run("moved", func(b *testing.B) {
		for b.Loop() {
			moved++
			from, to := old, now
			if moved%2 == 0 {
				from, to = now, old
			}
			both := &big{files: src.files, text: map[string][]byte{path: after.text[path]}}
			for _, m := range []string{"blotter.yaml", "names/Ranunculaceae.yaml"} {
				both.text[m] = src.text[m]
			}
			base := book.Base{Tree: fmt.Sprint("moved", moved), Source: both, Changed: func(context.Context, string) ([]ledger.Change, error) {
				return []ledger.Change{{Path: path, Old: from, New: to}}, nil
			}}
			judge(base, both, to, to)
		}
	})
}
