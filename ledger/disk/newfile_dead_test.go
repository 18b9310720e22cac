package disk

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

// TestBeginClears: what a killed run left of the same file is removed when it
// has been dead for long; what another run is at, and what is of other files,
// stays.
func TestBeginClears(t *testing.T) {
	dir := t.TempDir()
	leave := func(name string, age time.Duration) string {
		f, err := Begin(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		f.h.Close()
		f.dir.Close()
		at := time.Now().Add(-age)
		if err := os.Chtimes(filepath.Join(dir, f.temp), at, at); err != nil {
			t.Fatal(err)
		}
		return filepath.Join(dir, f.temp)
	}
	for _, c := range []struct {
		why, name string
		age       time.Duration
		stays     bool
	}{
		{"dead since yesterday", "out.csv", 24 * time.Hour, false},
		{"perhaps still at work", "out.csv", time.Minute, true},
		{"of another file", "other.csv", 24 * time.Hour, true},
	} {
		temp := leave(c.name, c.age)
		f, err := Begin(filepath.Join(dir, "out.csv"))
		if err != nil {
			t.Fatal(err)
		}
		f.Discard()
		if _, err := os.Stat(temp); (err == nil) != c.stays {
			t.Errorf("%s: stays %v, want %v", c.why, err == nil, c.stays)
		}
	}
}
