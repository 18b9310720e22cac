package disk

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"time"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"blotter/ledger/internal/fault"
)

// Bucket is one kind of entry in a cache. Version is a constant of whoever
// makes the entries: it changes with their meaning or form, and entries of
// another version are never seen.
type Bucket struct {
	Name    string
	Version int
}

func (b Bucket) key() []byte { return fmt.Appendf(nil, "%s.%d", b.Name, b.Version) }

// Entry is one key with its value.
type Entry struct{ Key, Value []byte }

// Cache is a file of entries that can all be made again. It is opened for
// each use and done without, silently, when another process writes to it, it is
// read-only, damaged or not there: then nothing is found and nothing is kept.
// Goroutines of one process wait for each other, so View's read may not use the
// same cache. A damaged file is
// made anew at the next Put. Every value carries a checksum, so damage can
// lose an entry but not change it.
//
// A nil *Cache is always empty: that is --no-cache.
type Cache struct {
	file string
}

// NewCache is the cache in file. Nothing is opened or made yet.
func NewCache(file string) *Cache { return &Cache{file} }

const (
	lockWait = 50 * time.Millisecond // for another process that writes
	batch    = 4096                  // entries a transaction
)

var errDamaged = errors.New("cache is damaged")

// View calls read with a look-up of keys in bucket: nil for what is not
// there. The bytes it returns hold only until read returns. read is always
// called once, unless the cache breaks down under it: then once more with
// nothing to be found, so it must begin by forgetting what it gathered.
func (c *Cache) View(bucket Bucket, read func(get func(key []byte) []byte)) {
	done := false
	err := c.with(true, func(db *bolt.DB) error {
		return db.View(func(tx *bolt.Tx) error {
			b := tx.Bucket(bucket.key())
			if b == nil {
				return nil
			}
			read(func(key []byte) []byte { return unseal(key, b.Get(key)) })
			done = true
			return nil
		})
	})
	if !done || err != nil {
		read(func([]byte) []byte { return nil })
	}
}

// Get is the value of one key, nil when it is not there.
func (c *Cache) Get(bucket Bucket, key []byte) []byte {
	var value []byte
	c.View(bucket, func(get func([]byte) []byte) { value = bytes.Clone(get(key)) })
	return value
}

// Put keeps entries, replacing those of the same key, and forgets the bucket
// of any other version. It sorts entries in place.
func (c *Cache) Put(bucket Bucket, entries []Entry) {
	if c == nil || len(entries) == 0 {
		return
	}
	slices.SortFunc(entries, func(a, b Entry) int { return bytes.Compare(a.Key, b.Key) })
	if err := os.MkdirAll(filepath.Dir(c.file), 0o777); err != nil {
		return
	}
	for range 2 { // a second time when the file was damaged and made anew
		err := c.with(false, func(db *bolt.DB) error { return put(db, bucket, entries) })
		if !errors.Is(err, errDamaged) {
			return
		}
		os.Remove(c.file)
	}
}

func put(db *bolt.DB, bucket Bucket, entries []Entry) error {
	first := true
	for group := range slices.Chunk(entries, batch) {
		err := db.Update(func(tx *bolt.Tx) error {
			if first {
				if err := dropOthers(tx, bucket); err != nil {
					return err
				}
				first = false
			}
			b, err := tx.CreateBucketIfNotExists(bucket.key())
			if err != nil {
				return err
			}
			b.FillPercent = 0.9
			for _, e := range group {
				if err := b.Put(e.Key, seal(e)); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// dropOthers deletes the buckets of the same name and another version.
func dropOthers(tx *bolt.Tx, bucket Bucket) error {
	var old [][]byte
	err := tx.ForEach(func(name []byte, _ *bolt.Bucket) error {
		if base, _, ok := strings.Cut(string(name), "."); ok && base == bucket.Name && !bytes.Equal(name, bucket.key()) {
			old = append(old, bytes.Clone(name))
		}
		return nil
	})
	for _, name := range old {
		err = cmp.Or(err, tx.DeleteBucket(name))
	}
	return err
}

// Drop deletes the whole cache.
func (c *Cache) Drop() {
	if c != nil {
		os.Remove(c.file)
	}
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

// seal puts a checksum of key and value before the value.
func seal(e Entry) []byte {
	v := make([]byte, 4, 4+len(e.Value))
	binary.LittleEndian.PutUint32(v, crc32.Update(crc32.Checksum(e.Key, castagnoli), castagnoli, e.Value))
	return append(v, e.Value...)
}

// unseal is the value in v, nil when it is not what was sealed.
func unseal(key, v []byte) []byte {
	if len(v) < 4 || binary.LittleEndian.Uint32(v) != crc32.Update(crc32.Checksum(key, castagnoli), castagnoli, v[4:]) {
		return nil
	}
	return v[4:]
}

// with opens the file, calls use and closes it again. Whatever a damaged
// file does (bolt panics, a page beyond the end of a file cut short faults)
// becomes errDamaged.
func (c *Cache) with(readOnly bool, use func(*bolt.DB) error) (err error) {
	if c == nil {
		return errors.ErrUnsupported
	}
	if !readOnly {
		if _, err := fault.Step("cache", c.file); err != nil {
			return err
		}
	}
	unlock := lockHere(c.file, readOnly)
	defer unlock()
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			err = errDamaged
		}
	}()
	db, err := bolt.Open(c.file, 0o666, &bolt.Options{Timeout: lockWait, ReadOnly: readOnly, FreelistType: bolt.FreelistMapType})
	switch {
	case errors.Is(err, berrors.ErrTimeout) || errors.Is(err, os.ErrNotExist) || errors.Is(err, os.ErrPermission):
		return err
	case err != nil:
		return errDamaged
	}
	defer db.Close()
	if err := whole(db, c.file); err != nil {
		return err
	}
	return use(db)
}

// inUse are the caches that goroutines of this process read or write, by file:
// bolt's lock does not tell them from other processes, and would give up.
var inUse sync.Map // of *sync.RWMutex

func lockHere(file string, readOnly bool) (unlock func()) {
	mu, _ := inUse.LoadOrStore(file, &sync.RWMutex{})
	m := mu.(*sync.RWMutex)
	if readOnly {
		m.RLock()
		return m.RUnlock
	}
	m.Lock()
	return m.Unlock
}

// whole finds a file that was cut short before any page of it is touched.
func whole(db *bolt.DB, file string) error {
	st, err := os.Stat(file)
	if err != nil {
		return err
	}
	tx, err := db.Begin(false)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if st.Size() < tx.Size() {
		return errDamaged
	}
	return nil
}
