package book

import (
	"cmp"
	"encoding/binary"
	"slices"
	"strings"

	"blotter/ledger/disk"
)

// Tally is one count that a record adds to a sum over the ledger: under Key,
// one more of Bin. Sums let a record be judged against very many others
// without loading them.
type Tally struct{ Key, Bin string }

// Counts are the sums under one key, by bin; none is 0.
type Counts map[string]int

// bin is a bin of a key, whose hash stands for it: among a million keys two
// share a hash once in tens of millions of ledgers.
type bin struct {
	hash uint64
	of   string
}

// bins are the sums of one shard of the index.
type bins map[bin]int

func (s bins) add(t Tally, by int) {
	b := bin{fnv(t.Key), t.Bin}
	if s[b] += by; s[b] == 0 {
		delete(s, b)
	}
}

// tallyShards is how many shards of sums there are. With the shards of
// postings and the version they fit into one Put.
const tallyShards = 1024

func tallyShard(key string) uint64 { return fnv(key) % tallyShards }

func tallyKey(n uint64) []byte { return binary.BigEndian.AppendUint16([]byte("t"), uint16(n)) }

func (s bins) encode() []byte {
	list := make([]bin, 0, len(s))
	for b := range s {
		list = append(list, b)
	}
	slices.SortFunc(list, func(a, b bin) int { return cmp.Or(cmp.Compare(a.hash, b.hash), strings.Compare(a.of, b.of)) })
	var out []byte
	for _, b := range list {
		out = binary.LittleEndian.AppendUint64(out, b.hash)
		out = appendText(out, b.of)
		out = binary.AppendUvarint(out, uint64(s[b]))
	}
	return out
}

func decodeBins(b []byte) bins {
	s := bins{}
	r := &reader{s: string(b)}
	for len(r.s) >= 8 && !r.bad {
		k := bin{hash: binary.LittleEndian.Uint64([]byte(r.bytes(8)))}
		k.of = r.inline()
		s[k] = int(r.uint())
	}
	return s
}

// tally adds what a record counts for, by times.
func (x *index) tally(of []Tally, by int) {
	for _, t := range of {
		n := tallyShard(t.Key)
		if x.tallies[n] == nil {
			x.tallies[n] = bins{}
		}
		x.tallies[n].add(t, by)
	}
}

// counts are the sums under a key whose shard was loaded.
func (x *index) counts(key string) Counts {
	h := fnv(key)
	out := Counts{}
	for b, n := range x.tallies[tallyShard(key)] {
		if b.hash == h {
			out[b.of] = n
		}
	}
	return out
}

// loadTallies reads the shards of keys.
func (x *index) loadTallies(get func([]byte) []byte, keys []string) {
	x.tallies = map[uint64]bins{}
	for _, k := range keys {
		if n := tallyShard(k); x.tallies[n] == nil {
			x.tallies[n] = decodeBins(get(tallyKey(n)))
		}
	}
}

// tallyEntries are the shards of sums as they are stored.
func (x *index) tallyEntries(shards []uint64) []disk.Entry {
	var out []disk.Entry
	for _, n := range shards {
		out = append(out, disk.Entry{Key: tallyKey(n), Value: x.tallies[n].encode()})
	}
	return out
}

// Sums are the counts under a key after the changes; for keys that a changed
// record counts for.
func (p *Partial) Sums(key string) Counts { return p.sums[key] }

// sum fills in what the changed records count for: the sums of the base, less
// what was, and what is now.
func (l *partial) sum(p *Partial, x *index) {
	p.sums = map[string]Counts{}
	change := func(list []*Entry, by int) {
		for _, e := range list {
			for _, t := range l.o.Judge.tallies(e) {
				if p.sums[t.Key] == nil {
					p.sums[t.Key] = x.counts(t.Key)
				}
				if p.sums[t.Key][t.Bin] += by; p.sums[t.Key][t.Bin] == 0 {
					delete(p.sums[t.Key], t.Bin)
				}
			}
		}
	}
	change(p.Before, -1)
	change(p.After, 1)
}

// tallyKeys are the keys that records count for.
func (j Judge) tallyKeys(lists ...[]*Entry) []string {
	var out []string
	for _, list := range lists {
		for _, e := range list {
			for _, t := range j.tallies(e) {
				out = append(out, t.Key)
			}
		}
	}
	return out
}

func (j Judge) tallies(e *Entry) []Tally {
	if j.Tallies == nil {
		return nil
	}
	return j.Tallies(e)
}
