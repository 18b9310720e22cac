package book

import (
	"context"
	"encoding/binary"
	"encoding/hex"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// The index lets one changed record be judged without loading the others: it
// keeps, for one version of the ledger, which records have which key, and
// which files are the museum's. It is brought to another version by what
// changed between the two.
//
// It lies in the cache as shards of postings by the hash of the key, shards of
// sums (see Tally), and one value that names the version. All of an update is one Put of at most 4096
// entries, which disk makes in one transaction, so that version and postings
// always belong together.

// shardCount is how many shards there are; a change of one record touches a
// few of them.
const shardCount = 2048

var indexBucket = disk.Bucket{Name: "index", Version: codecVersion}

var versionKey = []byte("version")

// version is what an index is of.
type version struct {
	stamp  string // what entries were made under
	tree   string // identity of the ledger's version
	museum []ledger.File
}

// posting says that a record has a key.
type posting struct {
	hash uint64 // of the key
	path string // of the record
	blob ledger.BlobID
}

// shard is postings one behind the other, as the cache has them: the hash in
// eight bytes, the path below specimens/, the blob id in raw bytes.
type shard []byte

func (s shard) add(p posting) shard {
	raw, err := hex.DecodeString(string(p.blob))
	if err != nil {
		raw = nil // not an id of git's making: the record is looked for under none and read anew
	}
	s = binary.LittleEndian.AppendUint64(s, p.hash)
	s = appendText(s, below(p.path))
	return appendText(s, string(raw))
}

// each calls use for every posting with its bytes; path and blob are raw.
func (s shard) each(use func(hash uint64, path, blob, whole []byte)) {
	for len(s) >= 8 {
		var parts [2][]byte
		at := 8
		for i := range parts {
			size, n := binary.Uvarint(s[at:])
			if n <= 0 || size > uint64(len(s)-at-n) {
				return
			}
			parts[i] = s[at+n : at+n+int(size)]
			at += n + int(size)
		}
		use(binary.LittleEndian.Uint64(s), parts[0], parts[1], s[:at])
		s = s[at:]
	}
}

func (v version) encode() []byte {
	b := appendText(nil, v.stamp)
	b = appendText(b, v.tree)
	for _, f := range v.museum {
		b = appendText(b, f.Path)
		b = appendText(b, string(f.Blob))
	}
	return b
}

func decodeVersion(b []byte) (version, bool) {
	r := &reader{s: string(b)}
	v := version{stamp: r.inline(), tree: r.inline()}
	for len(r.s) > 0 {
		v.museum = append(v.museum, ledger.File{Path: r.inline(), Blob: ledger.BlobID(r.inline()), Size: -1})
	}
	return v, !r.bad && b != nil
}

func shardKey(n uint64) []byte { return binary.BigEndian.AppendUint16([]byte("k"), uint16(n)) }

// index is an open index: shards from the cache as they are asked for, and
// those changed in memory.
type index struct {
	version
	shards  map[uint64]shard
	tallies map[uint64]bins
}

// add puts the keys of an entry in, remove takes them out.
func (x *index) add(e *Entry, keys []string) {
	for _, k := range keys {
		h := fnv(k)
		x.shards[h%shardCount] = x.shards[h%shardCount].add(posting{h, e.Path, e.Blob})
	}
}

func (x *index) remove(path string, keys []string) {
	for _, k := range keys {
		h := fnv(k)
		var left shard
		x.shards[h%shardCount].each(func(hash uint64, p, _, whole []byte) {
			if hash != h || string(p) != below(path) {
				left = append(left, whole...)
			}
		})
		x.shards[h%shardCount] = left
	}
}

// find lists the records that may have a key, in order of path: a hash may
// stand for two keys, so the caller looks again.
func (x *index) find(key string) []posting {
	h := fnv(key)
	var out []posting
	x.shards[h%shardCount].each(func(hash uint64, path, blob, _ []byte) {
		if hash == h {
			out = append(out, posting{h, ledger.SpecimensDir + "/" + string(path), ledger.BlobID(hex.EncodeToString(blob))})
		}
	})
	slices.SortFunc(out, func(a, b posting) int { return strings.Compare(a.path, b.path) })
	return out
}

// store keeps the version and the shards in changed and tallied.
func (x *index) store(c *disk.Cache, changed, tallied []uint64) {
	entries := x.tallyEntries(tallied)
	for _, n := range changed {
		entries = append(entries, disk.Entry{Key: shardKey(n), Value: x.shards[n]})
	}
	c.Put(indexBucket, append(entries, disk.Entry{Key: versionKey, Value: x.encode()}))
}

// indexOf makes the index of a whole Book.
func indexOf(b *Book, tree string, j Judge) *index {
	x := &index{version: version{stamp: b.stamp, tree: tree, museum: b.Museum.Files}, shards: map[uint64]shard{}, tallies: map[uint64]bins{}}
	for e := range b.All() {
		x.add(e, j.Keys(e))
		x.tally(j.tallies(e), 1)
	}
	return x
}

// upTo lists the shards there can be of n.
func upTo(n int) []uint64 {
	out := make([]uint64, n)
	for i := range out {
		out[i] = uint64(i)
	}
	return out
}

// load reads the index and the shards of keys, and of sums, in one
// transaction; false when there is none, or it is of another version than want
// (nil: any).
func loadIndex(c *disk.Cache, want *version, keys, sums []string) (*index, bool) {
	var x *index
	c.View(indexBucket, func(get func([]byte) []byte) {
		x = nil
		v, ok := decodeVersion(get(versionKey))
		if !ok || want != nil && (v.tree != want.tree || v.stamp != want.stamp) {
			return
		}
		x = &index{version: v, shards: map[uint64]shard{}}
		for _, k := range keys {
			n := fnv(k) % shardCount
			if _, have := x.shards[n]; !have {
				x.shards[n] = slices.Clone(shard(get(shardKey(n))))
			}
		}
		x.loadTallies(get, sums)
	})
	return x, x != nil
}

// Base is the version of the ledger that changes are judged against.
type Base struct {
	// Tree names the content of the ledger in this version, as the id of its
	// tree does; "": nothing may be kept for it.
	Tree   string
	Source ledger.Source
	// Changed lists what differs from the version that from names to this one.
	// An error, such as a tree that is not there any more, only costs time.
	Changed func(ctx context.Context, from string) ([]ledger.Change, error)
}
