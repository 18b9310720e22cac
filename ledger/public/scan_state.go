package public

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"maps"
	"slices"

	"blotter/ledger"
)

// scanVersion is raised whenever a Scanner would find in the same file what it
// did not find before, or the form of its state changes.
const scanVersion = 1

// scanState is what was looked through before: which files, for which values.
type scanState struct {
	generations [][]uint64 // sets of hashes of values, each in order
	files       fileSums   // each with its place in generations
	held        map[uint64]witness
}

// witness is a public record that holds a value as well, by which it is known
// without looking through all records again.
type witness struct{ number, blob string }

func scanHead(policy string) string {
	return fmt.Sprintf("blotter leak state %d %s\n", scanVersion, policy)
}

// format is the state as it is kept: a head line, then lengths and values, then
// a checksum.
func (s *scanState) format(policy string) []byte {
	b := []byte(scanHead(policy))
	b = binary.AppendUvarint(b, uint64(len(s.generations)))
	for _, g := range s.generations {
		b = binary.AppendUvarint(b, uint64(len(g)))
		last := uint64(0)
		for _, h := range g {
			b = binary.AppendUvarint(b, h-last)
			last = h
		}
	}
	b = binary.AppendUvarint(b, uint64(len(s.held)))
	for _, h := range slices.Sorted(maps.Keys(s.held)) {
		w := s.held[h]
		b = binary.AppendUvarint(b, h)
		b = appendString(appendString(b, w.number), w.blob)
	}
	b = slices.Grow(b, 32*s.files.len())
	b = binary.AppendUvarint(b, uint64(s.files.len()))
	s.files.each(func(sum string, generation int32) {
		b = binary.AppendUvarint(appendString(b, sum), uint64(generation))
	})
	sum := sha256.Sum256(b)
	return append(b, sum[:8]...)
}

func appendString(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

// parseScanState reads a state; an empty one when it is damaged, of another
// version or of another policy, so that everything is looked through again.
func parseScanState(data []byte, policy string) scanState {
	none := scanState{held: map[uint64]witness{}}
	head := scanHead(policy)
	if len(data) < len(head)+8 || string(data[:len(head)]) != head {
		return none
	}
	body, check := data[:len(data)-8], data[len(data)-8:]
	if sum := sha256.Sum256(body); string(sum[:8]) != string(check) {
		return none
	}
	r := stateReader{b: body[len(head):]}
	s := scanState{held: map[uint64]witness{}}
	for range r.count() {
		n, last := r.count(), uint64(0)
		g := make([]uint64, 0, n)
		for range n {
			last += r.uvarint()
			g = append(g, last)
		}
		s.generations = append(s.generations, g)
	}
	for range r.count() {
		h := r.uvarint()
		s.held[h] = witness{r.text(), r.text()}
	}
	files := r.count()
	s.files.room(files)
	for range files {
		sum := r.text()
		g := int(r.uvarint())
		if g < 0 || g >= len(s.generations) {
			return none
		}
		s.files.put(sum, int32(g))
	}
	if r.bad {
		return none
	}
	return s
}

// stateReader reads numbers and texts; bad when they end too early.
type stateReader struct {
	b   []byte
	bad bool
}

func (r *stateReader) uvarint() uint64 {
	v, n := binary.Uvarint(r.b)
	if n <= 0 {
		r.bad, r.b = true, nil
		return 0
	}
	r.b = r.b[n:]
	return v
}

// count is a number of things that follow, of which each takes a byte.
func (r *stateReader) count() int {
	n := r.uvarint()
	if n > uint64(len(r.b)) {
		r.bad = true
		return 0
	}
	return int(n)
}

func (r *stateReader) text() string {
	n := r.count()
	s := string(r.b[:n])
	r.b = r.b[n:]
	return s
}

// stillHeld are the values that a public record is known to hold, of the very
// version in which it was seen to.
func (s *scanState) stillHeld(v *View) map[uint64]witness {
	out := map[uint64]witness{}
	for h, w := range s.held {
		n := ledger.Number(w.number)
		if e := v.full.Find(n); e != nil && string(e.Blob) == w.blob && !v.Hidden(n) {
			out[h] = w
		}
	}
	return out
}

// policyKey is a text that changes whenever the museum's rules on what is
// withheld do: which names, places and settings say so. The marks of single
// records are not among them.
func (v *View) policyKey() string {
	h := sha256.New()
	for _, n := range v.full.Museum.Names.All {
		if s := n.Given.Sensitive; s != (ledger.Sensitive{}) {
			fmt.Fprintf(h, "%s\x1f%v\n", n.Key(), s)
		}
	}
	for _, f := range v.full.Museum.Files {
		if f.Path == ledger.MuseumFile || f.Path == ledger.PlacesFile {
			fmt.Fprintf(h, "%s %s\n", f.Path, f.Blob)
		}
	}
	return fmt.Sprintf("%x", h.Sum(nil)[:8])
}
