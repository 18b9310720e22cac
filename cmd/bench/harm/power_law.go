package harm

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
)

// Two laws of what a disk still has after a power cut. By both it has what
// was synced before, and each name leads to the old or to the new file.
//
// "journal" is how the common journalling file systems behave (from memory: ext4 as it is
// mounted by default, XFS): names are kept in the order in which they came, up to some moment, and
// any fsync keeps all names up to it; the bytes of a file that nobody synced are there, not
// there, there in part, or zeros, whatever its name.
//
// "posix" is no more than fsync(2) promises: a name is kept when its folder was
// synced; of others each folder has those up to a moment of its own. git never
// syncs a folder, so that what it says to be entered may lack its objects.
const (
	journal = "journal"
	posix   = "posix"
)

// cut is a power cut: after so many steps, by a law.
type cut struct {
	after int
	law   string
	names string // which names beyond what must be there: all, none, some
	bytes string // which bytes beyond what must be there: all, none, zeros, some
}

func (k cut) String() string {
	return fmt.Sprintf("law %s, names not yet synced: %s, bytes not yet synced: %s", k.law, k.names, k.bytes)
}

// drawCut draws a cut; names without their bytes, which is the worst, come
// often.
func (d *diskLog) drawCut(i int, rnd *rand.Rand) cut {
	k := cut{law: []string{journal, posix}[i%2], names: []string{"all", "some", "none"}[rnd.IntN(3)], bytes: []string{"none", "zeros", "some", "all"}[rnd.IntN(4)]}
	if i%5 == 0 { // at the end: it said that it is done
		k.after = len(d.steps)
	} else {
		k.after = rnd.IntN(len(d.steps) + 1)
	}
	return k
}

// leaves is the disk after a cut, and what was told to the user before.
func (d *diskLog) leaves(k cut, rnd *rand.Rand) (*image, string) {
	m := d.first.copy()
	m.mode, m.links = d.last.mode, d.last.links
	for n := range d.last.entries {
		if m.entries[n] == nil {
			m.entries[n] = map[string]node{}
		}
	}
	done := d.steps[:k.after]
	kept := keepNames(done, k, rnd)
	for i, s := range done {
		if kept[i] {
			m.apply(s)
		}
	}
	files := bytesOf(done, k.law)
	for _, n := range slices.Sorted(maps.Keys(files)) {
		m.data[n] = files[n].after(d.first.data[n], k, rnd)
	}
	var said strings.Builder
	for _, s := range done {
		if s.does == says {
			said.Write(s.data)
		}
	}
	return m, said.String()
}

// keepNames tells which of the steps about names the disk has.
func keepNames(done []step, k cut, rnd *rand.Rand) []bool {
	must := map[node]int{}           // of a folder: up to here; the whole disk is folder -1
	groups := map[node]bool{}        // that have names of their own moment
	folders := func(s step) []node { // in which it is seen
		switch {
		case k.law == journal:
			return []node{-1}
		case s.does == renames && s.from != s.dir:
			return []node{s.from, s.dir}
		}
		return []node{s.dir}
	}
	for i, s := range done {
		switch {
		case s.names():
			for _, f := range folders(s) {
				groups[f] = true
			}
		case s.does == syncsAll:
			for f := range groups {
				must[f] = i
			}
		case s.does == syncs && k.law == journal:
			must[-1] = i
		case s.does == syncs:
			must[s.node] = i
		}
	}
	upTo := map[node]int{}
	for _, f := range slices.Sorted(maps.Keys(groups)) {
		switch k.names {
		case "all":
			upTo[f] = len(done)
		case "none":
			upTo[f] = must[f]
		default:
			upTo[f] = must[f] + rnd.IntN(len(done)-must[f]+1)
		}
	}
	kept := make([]bool, len(done))
	for i, s := range done {
		if s.names() {
			for _, f := range folders(s) {
				kept[i] = kept[i] || i < upTo[f]
			}
		}
	}
	return kept
}

// fileBytes are the steps of one file.
type fileBytes struct {
	kept    []step // that the disk has
	open    []step // that it may have
	flushed int    // so many of open lie on the disk, where nobody finds them yet
}

// bytesOf sorts the steps about bytes by file.
func bytesOf(done []step, law string) map[node]*fileBytes {
	all := map[node]*fileBytes{}
	for _, s := range done {
		b := all[s.node]
		switch s.does {
		case writes, truncs:
			if b == nil {
				b = &fileBytes{}
				all[s.node] = b
			}
			b.open = append(b.open, s)
		case flushes:
			if b != nil {
				b.flushed = len(b.open)
			}
		case syncs:
			if b != nil {
				b.keep(len(b.open))
			}
			for _, b := range all {
				if law == journal { // in which it stands by now where they lie
					b.keep(b.flushed)
				}
			}
		case syncsAll:
			for _, b := range all {
				b.keep(len(b.open))
			}
		}
	}
	return all
}

func (b *fileBytes) keep(n int) {
	b.kept, b.open, b.flushed = append(b.kept, b.open[:n]...), b.open[n:], 0
}

// after is what the file holds after the cut.
func (b *fileBytes) after(was []byte, k cut, rnd *rand.Rand) []byte {
	for _, s := range b.kept {
		was = alter(was, s)
	}
	if len(b.open) == 0 {
		return was
	}
	how := k.bytes
	if how == "some" { // each file its own way
		how = []string{"none", "zeros", "part", "all"}[rnd.IntN(4)]
	}
	open := b.open
	switch how {
	case "none":
		return was
	case "part":
		open = open[:rnd.IntN(len(open)+1)]
	}
	for i, s := range open {
		if s.does == writes && how == "zeros" {
			s.data = make([]byte, len(s.data))
		}
		if s.does == writes && how == "part" && i == len(open)-1 {
			s.data = s.data[:rnd.IntN(len(s.data)+1)]
		}
		was = alter(was, s)
	}
	return was
}

func alter(b []byte, s step) []byte {
	m := &image{data: map[node][]byte{s.node: b}}
	m.apply(s)
	return m.data[s.node]
}
