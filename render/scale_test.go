package render

import (
	"context"
	"os"
	"runtime"
	"runtime/pprof"
	"strconv"
	"testing"
	"time"

	"blotter/ledger/book"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// TestScale builds the site of as many sheets as BLOTTER_SCALE says, records
// in memory, and reports the times: from nothing, again, after one edit.
func TestScale(t *testing.T) {
	n, _ := strconv.Atoi(os.Getenv("BLOTTER_SCALE"))
	if n == 0 {
		t.Skip("BLOTTER_SCALE says for how many sheets")
	}
	files := manyFiles(t, n)
	in := inputOf(t, files)
	in.Options.HTMLOnly = os.Getenv("BLOTTER_ALL") == ""
	held := map[string]*reading.Reading{}
	read := in.Reading
	for e := range in.Book.All() {
		d, _, err := read(context.Background(), e)
		if err != nil {
			t.Fatal(err)
		}
		held[e.Path] = d
	}
	in.Reading = func(ctx context.Context, e *book.Entry) (*reading.Reading, *public.Withheld, error) {
		return reading.Of(held[e.Path].Record, in.Book.Museum.Conventions), nil, nil
	}
	if os.Getenv("BLOTTER_CHECK") == "" {
		in.Look = nil
	}
	dir, err := os.MkdirTemp("/dev/shm", "scale")
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	var state []byte
	for _, what := range []string{"cold", "again", "one edit"} {
		if what == "one edit" {
			for e := range in.Book.All() {
				e.Blob = "0000"
				break
			}
		}
		if prof := os.Getenv("BLOTTER_PROFILE"); prof != "" && what == "again" {
			f, err := os.Create(prof)
			if err != nil {
				t.Fatal(err)
			}
			defer f.Close()
			if err := pprof.StartCPUProfile(f); err != nil {
				t.Fatal(err)
			}
			defer pprof.StopCPUProfile()
		}
		start := time.Now()
		var rep Report
		rep, state = buildInto(t, dir, in, state)
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		t.Logf("%s: %v, %+v, heap %d MB", what, time.Since(start).Round(time.Millisecond), rep, m.HeapSys>>20)
	}
}
