package disk

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"
)

var things = Bucket{Name: "things", Version: 1}

// entries are n entries that are easily told from one another.
func entries(n int) []Entry {
	es := make([]Entry, n)
	for i := range es {
		es[i] = Entry{fmt.Appendf(nil, "key %06d", i*7919%n), bytes.Repeat(fmt.Appendf(nil, "value %d ", i*7919%n), 20)}
	}
	return es
}

// found counts the entries that the cache still has, and fails for one that
// is not what was put.
func found(t *testing.T, c *Cache, want []Entry) (n int) {
	t.Helper()
	c.View(things, func(get func([]byte) []byte) {
		n = 0
		for _, e := range want {
			v := get(e.Key)
			if v != nil && !bytes.Equal(v, e.Value) {
				t.Errorf("%s: got %.40q", e.Key, v)
			}
			if v != nil {
				n++
			}
		}
	})
	return n
}

func TestCacheKeeps(t *testing.T) {
	c := NewCache(filepath.Join(t.TempDir(), "blotter", "cache.db"))
	if c.Get(things, []byte("x")) != nil {
		t.Error("a cache that is not there holds something")
	}
	es := entries(10_000)
	c.Put(things, es)
	if n := found(t, c, es); n != len(es) {
		t.Errorf("%d of %d entries", n, len(es))
	}
	if c.Get(things, []byte("key")) != nil {
		t.Error("a key that was never put is there")
	}
}

// Goroutines of one process that read for longer than one waits for another
// process must not make a Put be lost: an archive of a million sheets kept only
// some of its parts.
func TestCacheWaitsForItself(t *testing.T) {
	file := filepath.Join(t.TempDir(), "cache.db")
	es := entries(100)
	NewCache(file).Put(things, es[:1])
	reading, done := make(chan bool), make(chan bool)
	go NewCache(file).View(things, func(func([]byte) []byte) {
		reading <- true
		time.Sleep(3 * lockWait)
	})
	<-reading
	go func() {
		NewCache(file).Put(things, es[1:])
		done <- true
	}()
	<-done
	if n := found(t, NewCache(file), es); n != len(es) {
		t.Errorf("%d of %d entries were kept", n, len(es))
	}
}

func TestCacheVersions(t *testing.T) {
	c := NewCache(filepath.Join(t.TempDir(), "cache.db"))
	c.Put(things, []Entry{{[]byte("k"), []byte("old")}})
	other := Bucket{"thingsandmore", 1}
	c.Put(other, []Entry{{[]byte("k"), []byte("other")}})
	next := Bucket{things.Name, 2}
	if v := c.Get(next, []byte("k")); v != nil {
		t.Errorf("version 2 sees %q", v)
	}
	c.Put(next, []Entry{{[]byte("k"), []byte("new")}})
	if v := c.Get(things, []byte("k")); v != nil {
		t.Errorf("version 1 is still there: %q", v)
	}
	if v := c.Get(other, []byte("k")); string(v) != "other" {
		t.Errorf("another bucket went with it: %q", v)
	}
}

func TestNilCache(t *testing.T) {
	var c *Cache
	c.Put(things, entries(1))
	c.Drop()
	if n := found(t, c, entries(1)); n != 0 {
		t.Error("a nil cache holds something")
	}
}

// TestCacheLocked wants a cache that another process writes to be done
// without, quickly.
func TestCacheLocked(t *testing.T) {
	file := filepath.Join(t.TempDir(), "cache.db")
	c := NewCache(file)
	c.Put(things, entries(10))
	db, err := bolt.Open(file, 0o666, nil)
	if err != nil {
		t.Fatal(err)
	}
	start := time.Now()
	if n := found(t, c, entries(10)); n != 0 {
		t.Errorf("%d entries out of a locked cache", n)
	}
	c.Put(things, entries(10))
	if d := time.Since(start); d > 2*time.Second {
		t.Errorf("waited %v", d)
	}
	db.Close()
	if n := found(t, c, entries(10)); n != 10 {
		t.Errorf("%d entries once it is free again", n)
	}
}

func TestCacheReadOnly(t *testing.T) {
	if os.Getuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("permissions do not bind here")
	}
	dir := t.TempDir()
	c := NewCache(filepath.Join(dir, "cache.db"))
	c.Put(things, entries(10))
	os.Chmod(filepath.Join(dir, "cache.db"), 0o444)
	os.Chmod(dir, 0o555)
	defer os.Chmod(dir, 0o777)
	c.Put(things, entries(20))
	if n := found(t, c, entries(10)); n != 10 {
		t.Errorf("%d entries out of a read-only cache", n)
	}
}

// TestCacheDamaged cuts the file short and overwrites parts of it: nothing
// that was not put is ever found, and the next Put heals the cache when its
// file cannot be read.
func TestCacheDamaged(t *testing.T) {
	dir := t.TempDir()
	es := entries(1500)
	NewCache(filepath.Join(dir, "good")).Put(things, es)
	good, err := os.ReadFile(filepath.Join(dir, "good"))
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	for i := range 30 {
		bad := bytes.Clone(good)
		what := ""
		switch i % 3 {
		case 0:
			n := rnd.IntN(len(bad))
			bad, what = bad[:n], fmt.Sprintf("cut at %d", n)
		case 1:
			at := rnd.IntN(len(bad) - 5000)
			for j := range 5000 {
				bad[at+j] = byte(rnd.Uint32())
			}
			what = fmt.Sprintf("overwritten at %d", at)
		case 2:
			for range 50 {
				bad[rnd.IntN(len(bad))] ^= byte(1 << rnd.IntN(8))
			}
			what = "fifty bits"
		}
		file := filepath.Join(dir, fmt.Sprint(i))
		if err := os.WriteFile(file, bad, 0o666); err != nil {
			t.Fatal(err)
		}
		c := NewCache(file)
		found(t, c, es)
		c.Put(things, es)
		if n := found(t, c, es); n != len(es) && i%3 == 0 {
			t.Errorf("%s: %d of %d entries after the next Put", what, n, len(es))
		}
	}
}

func BenchmarkCache(b *testing.B) {
	es := entries(100_000)
	file := filepath.Join(b.TempDir(), "cache.db")
	b.Run("fill", func(b *testing.B) {
		for b.Loop() {
			os.Remove(file)
			NewCache(file).Put(things, es)
		}
	})
	b.Run("read all", func(b *testing.B) {
		for b.Loop() {
			NewCache(file).View(things, func(get func([]byte) []byte) {
				for _, e := range es {
					if get(e.Key) == nil {
						b.Fatal("missing")
					}
				}
			})
		}
	})
	b.Run("one", func(b *testing.B) {
		for b.Loop() {
			NewCache(file).Get(things, es[0].Key)
		}
	})
}
