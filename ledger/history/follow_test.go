package history

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"blotter/ledger"

	"pgregory.net/rapid"
)

// plant is one plant of a plotted history: what was done to it, one letter an
// entry; the model that follow is held to.
type plant struct {
	id   int
	done string // sorted
	gone bool   // its record was taken away
}

// blob is the version of a plant under a number; a stub's names where it went.
func (p plant) blob(n ledger.Number) ledger.BlobID {
	if p.gone {
		return ""
	}
	return ledger.BlobOf(fmt.Appendf(nil, "%s %d %s", n, p.id, p.done))
}

// plot draws a history of plants that are edited, renumbered, swapped and
// taken away, in lines of work that are brought together.
type plot struct {
	t       *rapid.T
	log     []Commit
	plants  []map[ledger.Number]plant  // after each commit
	left    []map[ledger.Number]string // numbers that a plant left a stub at: its version
	touched map[int][]string           // plant -> ids of the commits that touched it
	before  []map[int]bool             // of each commit: itself and all before it
	next    int
}

func number(i int) ledger.Number { return ledger.Number(fmt.Sprintf("LK7-%07d", i)) }

func (s *plot) fresh() ledger.Number { s.next++; return number(s.next) }

// state is what the files of a commit hold, by path.
func (s *plot) state(i int) map[string]ledger.BlobID {
	out := map[string]ledger.BlobID{}
	if i < 0 {
		return out
	}
	for n, p := range s.plants[i] {
		out[n.Path()] = p.blob(n)
	}
	for n, stub := range s.left[i] {
		out[n.Path()] = ledger.BlobOf([]byte(stub))
	}
	return out
}

// commit adds one on top of parents, by their places in the log, whose files
// differ from them as the maps say.
func (s *plot) commit(parents []int, plants map[ledger.Number]plant, left map[ledger.Number]string, message string, did []int) {
	i := len(s.log)
	c := Commit{ID: hexID('c', i), Message: message}
	when := time.Unix(int64(i+rapid.IntRange(-3, 3).Draw(s.t, "clock")), 0).UTC()
	c.Author, c.Committer = Person{"Tiril Aune", "", when}, Person{"Tiril Aune", "", when}
	s.plants, s.left, s.before = append(s.plants, plants), append(s.left, left), append(s.before, map[int]bool{i: true})
	now := s.state(i)
	paths := maps.Clone(now)
	var olds []map[string]ledger.BlobID
	for _, p := range parents {
		c.Parents = append(c.Parents, hexID('c', p))
		olds = append(olds, s.state(p))
		maps.Copy(paths, olds[len(olds)-1])
		maps.Copy(s.before[i], s.before[p])
	}
	for _, path := range slices.Sorted(maps.Keys(paths)) {
		t := Touch{Path: path, Blob: now[path]}
		same := false
		for _, o := range olds {
			t.Olds = append(t.Olds, o[path])
			same = same || o[path] == t.Blob
		}
		if !same && !(len(olds) == 0 && t.Blob == "") {
			c.Touches = append(c.Touches, t)
		}
	}
	s.log = append(s.log, c)
	for _, id := range did {
		s.touched[id] = append(s.touched[id], c.ID)
	}
}

// entry does one thing on top of a commit.
func (s *plot) entry(on int) {
	plants, left := map[ledger.Number]plant{}, map[ledger.Number]string{}
	parents := []int{}
	if on >= 0 {
		plants, left, parents = maps.Clone(s.plants[on]), maps.Clone(s.left[on]), []int{on}
	}
	var have []ledger.Number
	for _, n := range slices.Sorted(maps.Keys(plants)) {
		if !plants[n].gone {
			have = append(have, n)
		}
	}
	kind := rapid.IntRange(0, 9).Draw(s.t, "kind")
	if len(have) < 2 {
		kind = 0
	}
	var a, b ledger.Number
	if len(have) > 1 {
		a = rapid.SampledFrom(have).Draw(s.t, "a")
		b = rapid.SampledFrom(slices.DeleteFunc(slices.Clone(have), func(n ledger.Number) bool { return n == a })).Draw(s.t, "b")
	}
	letter := string(rune('a' + len(s.log)))
	switch {
	case kind < 2:
		n := s.fresh()
		plants[n] = plant{id: len(s.touched), done: letter}
		s.commit(parents, plants, left, "New\n", []int{plants[n].id})
	case kind < 5:
		p := plants[a]
		p.done += letter
		plants[a] = p
		s.commit(parents, plants, left, "Determine\n", []int{p.id})
	case kind < 6:
		p := plants[a]
		p.gone = true
		plants[a] = p
		s.commit(parents, plants, left, "Take away\n", []int{p.id})
	default:
		s.move(parents, plants, left, a, b, kind < 8)
	}
}

// heads are the commits that none stands on but the last.
func (s *plot) heads() []int {
	var out []int
	for i := range len(s.log) - 1 {
		if !slices.ContainsFunc(s.log, func(c Commit) bool { return slices.Contains(c.Parents, hexID('c', i)) }) {
			out = append(out, i)
		}
	}
	return out
}

// move swaps two plants, or renumbers one and leaves a stub or nothing.
func (s *plot) move(parents []int, plants map[ledger.Number]plant, left map[ledger.Number]string, a, b ledger.Number, swap bool) {
	pa, pb := plants[a], plants[b]
	if swap {
		// Where a plant comes back to the very version that it had, nothing tells
		// that it ever left: lines of work may be brought together without it.
		for on := range s.before[parents[0]] {
			if s.plants[on][a] == pb || s.plants[on][b] == pa {
				pa.done += string(rune('a' + len(s.log)))
				pb.done += string(rune('a' + len(s.log)))
				break
			}
		}
		plants[a], plants[b] = pb, pa
		s.commit(parents, plants, left, fmt.Sprintf("Exchanged\n\nSwapped: %s %s labels\n", a, b), []int{pa.id, pb.id})
		return
	}
	to := s.fresh()
	delete(plants, a)
	plants[to] = pa
	if rapid.Bool().Draw(s.t, "stub") {
		left[a] = "stub of " + string(a)
	}
	s.commit(parents, plants, left, fmt.Sprintf("Moved\n\nRenumbered: %s %s label\n", a, to), []int{pa.id})
}

// replay does on top of ours what the last move of theirs did, as share does
// before two lines of work are brought together.
func (s *plot) replay(ours, theirs int) (int, bool) {
	moves := Moves(s.log[theirs].Message)
	if len(moves) == 0 || s.before[ours][theirs] {
		return ours, false
	}
	plants, left := maps.Clone(s.plants[ours]), maps.Clone(s.left[ours])
	var did []int
	for _, m := range moves {
		p, ok := s.plants[ours][m.From]
		if !ok || p.gone || p.id != s.plants[theirs][m.To].id {
			return ours, false
		}
		if _, used := s.plants[ours][m.To]; used != m.Swap {
			return ours, false
		}
		did = append(did, p.id)
	}
	for _, m := range moves {
		delete(plants, m.From)
		if stub, ok := s.left[theirs][m.From]; ok {
			left[m.From] = stub
		}
	}
	for _, m := range moves {
		plants[m.To] = s.plants[ours][m.From]
	}
	s.commit([]int{ours}, plants, left, s.log[theirs].Message, did)
	return len(s.log) - 1, true
}

// together merges two commits number by number; nothing when a number would be
// two plants.
func (s *plot) together(ours, theirs int) {
	if s.before[ours][theirs] || s.before[theirs][ours] {
		return
	}
	base := 0
	for i := range s.before[ours] {
		if s.before[theirs][i] {
			base = max(base, i)
		}
	}
	plants, left := map[ledger.Number]plant{}, map[ledger.Number]string{}
	seen := map[int]bool{}
	var did []int
	for i := range s.next {
		n := number(i + 1)
		b, was := s.plants[base][n]
		o, mine := s.plants[ours][n]
		x, others := s.plants[theirs][n]
		switch {
		case mine == others && o == x: // the same
		case mine == was && o == b:
			o, mine = x, others
		case others == was && x == b:
		case mine && others && o.id == x.id && !o.gone && !x.gone:
			o.done = union(o.done, x.done)
			if o != s.plants[ours][n] && o != x {
				did = append(did, o.id)
			}
		default:
			return
		}
		if mine && seen[o.id] {
			return // one plant under two numbers
		}
		if mine {
			plants[n], seen[o.id] = o, true
		}
	}
	for id := range s.touched {
		here := func(c int) bool {
			for _, p := range s.plants[c] {
				if p.id == id {
					return true
				}
			}
			return false
		}
		if (here(ours) || here(theirs)) && !seen[id] {
			return
		}
	}
	maps.Copy(left, s.left[ours])
	maps.Copy(left, s.left[theirs])
	s.commit([]int{ours, theirs}, plants, left, "Together\n", did)
}

func union(a, b string) string {
	out := []byte(a)
	for _, c := range []byte(b) {
		if !strings.ContainsRune(a, rune(c)) {
			out = append(out, c)
		}
	}
	slices.Sort(out)
	return string(out)
}

// TestPlantIsFollowed: whatever is renumbered and swapped, in one line of work
// or in several that are brought together, a number's revisions are those of
// the plant that bears it.
func TestPlantIsFollowed(t *testing.T) {
	moved, joined := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := &plot{t: t, touched: map[int][]string{}}
		s.entry(-1)
		for range rapid.IntRange(3, 18).Draw(t, "entries") {
			last := len(s.log) - 1
			other := rapid.SampledFrom(append(s.heads(), max(0, last-2))).Draw(t, "on")
			switch rapid.IntRange(0, 5).Draw(t, "what") {
			case 0:
				if on, ok := s.replay(last, other); ok {
					s.together(on, other)
				}
			case 1:
				s.together(last, other)
			case 2:
				s.entry(other)
			default:
				s.entry(last)
			}
		}
		x := &Index{}
		if err := x.Add(s.log...); err != nil {
			t.Fatal(err)
		}
		tip := rapid.IntRange(0, len(s.log)-1).Draw(t, "tip")
		v := view(t, x, hexID('c', tip))
		for n, p := range s.plants[tip] {
			var got, want []string
			for _, r := range v.OfVersion(n, p.blob(n)) {
				got = append(got, v.ID(r.Place))
			}
			for p := range v.Len() {
				if slices.Contains(s.touched[s.plants[tip][n].id], v.ID(p)) {
					want = append(want, v.ID(p))
				}
			}
			// A line of work that in the end added nothing may be left out where lines
			// were brought together; what stands may not.
			var left []string
			for _, id := range want {
				if !slices.Contains(got, id) {
					left = append(left, id)
				}
			}
			told := func(c rune) bool { return !slices.Contains(left, hexID('c', int(c-'a'))) }
			lacks := len(left) > 0 && (!s.merged(tip) || strings.ContainsFunc(p.done, func(c rune) bool { return !told(c) }))
			if (lacks || len(got)+len(left) != len(want)) && !p.gone {
				t.Fatalf("%s bears plant %d: revisions %v, want %v\n%s", n, p.id, got, want, s)
			}
			if len(s.touched[p.id]) > 1 && len(v.Borne(n)) != len(got) {
				moved++
			}
		}
		for _, c := range s.log {
			joined += boolean(len(c.Parents) > 1)
		}
	})
	if moved < 10 || joined < 10 {
		t.Errorf("too tame: %d plants moved, %d lines of work brought together", moved, joined)
	}
}

// merged reports whether lines of work were brought together up to a commit.
func (s *plot) merged(tip int) bool {
	for i := range s.before[tip] {
		if len(s.log[i].Parents) > 1 {
			return true
		}
	}
	return false
}

func boolean(b bool) int {
	if b {
		return 1
	}
	return 0
}

func (s *plot) String() string {
	var b strings.Builder
	for i, c := range s.log {
		fmt.Fprintf(&b, "%s on %v %q %v left %v\n", c.ID, c.Parents, c.Message, s.plants[i], s.left[i])
	}
	return b.String()
}
