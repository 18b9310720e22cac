package render

import (
	"crypto/sha256"
	"encoding/hex"
	"hash"

	"blotter/ledger/book"
)

// keyer gathers what a page shows, to be hashed. Of a large page that is
// megabytes, and all pages together show each sheet a dozen times, so it waits
// for the hash in little room.
type keyer struct {
	b []byte    // not yet hashed
	h hash.Hash // nil: nothing is
}

// keyRoom is how many bytes wait at most, beside the last word.
const keyRoom = 4 << 10

func (s *shelf) keyer() *keyer { return (&keyer{}).add(s.stamp()) }

func (k *keyer) add(words ...string) *keyer {
	for _, w := range words {
		k.b = append(append(k.b, w...), 0)
	}
	k.drain(keyRoom)
	return k
}

// entries adds what a row shows of each sheet: its record's content.
func (k *keyer) entries(lists ...[]*book.Entry) *keyer {
	for _, list := range lists {
		for _, e := range list {
			k.add(string(e.Number), string(e.Blob))
		}
		k.b = append(k.b, 1)
	}
	return k
}

// sum is the key; the keyer is then empty and may be used again.
func (k *keyer) sum() pageKey {
	if k.h == nil { // little, as that of most pages
		h := sha256.Sum256(k.b)
		k.b = k.b[:0]
		return pageKey(h[:len(pageKey{})])
	}
	k.drain(0)
	var sum [sha256.Size]byte
	k.h.Sum(sum[:0])
	k.h.Reset()
	return pageKey(sum[:len(pageKey{})])
}

// drain hashes what waits once it is more than room.
func (k *keyer) drain(room int) {
	if len(k.b) <= room {
		return
	}
	if k.h == nil {
		k.h = sha256.New()
	}
	k.h.Write(k.b)
	k.b = k.b[:0]
}

// pageKey names what a page shows; the zero one is of a page that is always
// made.
type pageKey [12]byte

// String is the key in hexadecimal; "" for none.
func (p pageKey) String() string {
	if p == (pageKey{}) {
		return ""
	}
	return hex.EncodeToString(p[:])
}

// parseKey is the inverse of String.
func parseKey(text string) (p pageKey, ok bool) {
	if text == "" {
		return p, true
	}
	if len(text) != 2*len(p) {
		return p, false
	}
	_, err := hex.Decode(p[:], []byte(text))
	return p, err == nil
}

// stamp is what every page depends on: this program's pages and the museum's
// own files.
func (s *shelf) stamp() string {
	if s.stamped == "" {
		h := (&keyer{}).add("pages", itoa(Version), s.lang.Code, itoa(boolInt(s.in.Options.HTMLOnly)), itoa(boolInt(s.in.Book.Staff())))
		for _, f := range s.in.Book.Museum.Files {
			h.add(f.Path, string(f.Blob))
		}
		for _, l := range s.site.About {
			h.add(string(l.To), plain(s.lang, l.Text))
		}
		s.stamped = h.sum().String()
	}
	return s.stamped
}

// published is a hash of which numbers have a page.
func (s *shelf) publishedKey() string {
	k := &keyer{}
	for _, e := range s.sheets {
		k.add(string(e.Number))
	}
	return k.sum().String()
}
