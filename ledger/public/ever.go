package public

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/reading"
)

// neverBucket keeps of which former versions nothing was withheld: for the
// first number of each folder that has any, a stamp of them. Its version is
// raised whenever more may be withheld of the same record by the same rules.
var neverBucket = disk.Bucket{Name: "never-withheld", Version: reading.Version*100 + 1}

// EverWithheld reports whether any record is withheld, now or in any version
// of the history h. The ids of such a ledger's commits are computed from
// withheld words, so they are not for the public. read brings the versions;
// those of which the cache knows that nothing is withheld are not read again.
func (v *View) EverWithheld(ctx context.Context, h *history.View, read history.Read, cache *disk.Cache) (bool, error) {
	if len(v.withheld) > 0 {
		return true, nil
	}
	if v.today != nil {
		cache = nil // two ledgers decide
	}
	var fresh []disk.Entry
	for _, f := range v.unknown(v.former(h), cache) {
		for _, x := range f.versions {
			if err := ctx.Err(); err != nil {
				return false, err
			}
			r, err := read(ctx, x.number, x.blob)
			if err != nil {
				return false, err
			}
			if r.Record != nil && v.why(r.Record) != nil {
				return true, nil
			}
		}
		fresh = append(fresh, disk.Entry{Key: []byte(f.versions[0].number), Value: []byte(f.stamp)})
	}
	cache.Put(neverBucket, fresh)
	return false, nil
}

// former is the former versions of the records of one folder.
type former struct {
	versions []version
	stamp    string // of them and of all that decides whether they are withheld
}

type version struct {
	number ledger.Number
	blob   ledger.BlobID
	stands bool // there is a record of the number still
}

// former gathers the versions that no longer stand, folder by folder.
func (v *View) former(h *history.View) []former {
	var out []former
	folder := ""
	for _, n := range h.Numbers() {
		now := v.full.Find(n)
		for _, rv := range h.Borne(n) {
			if rv.Blob == "" || now != nil && rv.Blob == now.Blob {
				continue
			}
			if f := n.Folder(); f != folder || len(out) == 0 {
				out, folder = append(out, former{}), f
			}
			last := &out[len(out)-1]
			last.versions = append(last.versions, version{n, rv.Blob, now != nil})
		}
	}
	rules := v.full.Museum.Stamp() // they say which names and places are withheld
	for i := range out {
		out[i].stamp = v.stampOf(out[i].versions, rules)
	}
	return out
}

// stampOf is a text of versions and of what decides whether they are withheld:
// the museum's rules, and the release that frees them, that of the present
// version where there is one.
func (v *View) stampOf(versions []version, rules string) string {
	h := sha256.New()
	io.WriteString(h, rules)
	for _, x := range versions {
		fmt.Fprintf(h, "%s %s %t %d\n", x.number, x.blob, x.stands, v.released[x.number.Key()])
	}
	return hex.EncodeToString(h.Sum(nil))
}

// unknown are those of which the cache does not know that nothing is withheld.
func (v *View) unknown(all []former, cache *disk.Cache) []former {
	var out []former
	cache.View(neverBucket, func(get func([]byte) []byte) {
		out = nil
		for _, f := range all {
			if string(get([]byte(f.versions[0].number))) != f.stamp {
				out = append(out, f)
			}
		}
	})
	return out
}
