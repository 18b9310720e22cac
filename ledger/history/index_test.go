package history

import (
	"errors"
	"fmt"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"blotter/ledger"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func hexID(kind byte, n int) string { return fmt.Sprintf("%c%039x", kind, n) }

var zones = []*time.Location{time.UTC, time.FixedZone("", 2*3600), time.FixedZone("", -9*3600-1800)}

// drawLog makes a log of commits, parents before children, with versions that
// may return and moments out of order; moving are more messages.
func drawLog(t *rapid.T, moving ...string) []Commit {
	n := rapid.IntRange(1, 12).Draw(t, "commits")
	paths := []string{"specimens/000/00/LK7-0000001.yaml", "specimens/000/00/LK7-0000002.yaml", "people.yaml", "images/x.jpg"}
	log := make([]Commit, n)
	for i := range log {
		c := &log[i]
		c.ID = hexID('c', i)
		for range min(i, rapid.IntRange(0, 2).Draw(t, "parents")) {
			p := hexID('c', rapid.IntRange(max(0, i-4), i-1).Draw(t, "parent"))
			if !slices.Contains(c.Parents, p) {
				c.Parents = append(c.Parents, p)
			}
		}
		when := time.Unix(int64(rapid.IntRange(0, 20).Draw(t, "when")), 0).In(rapid.SampledFrom(zones).Draw(t, "zone"))
		c.Author = Person{rapid.SampledFrom([]string{"Signe Rask", "Tiril Aune"}).Draw(t, "author"), "a@example.org", when}
		c.Committer = Person{"Ove Bannister", "", when.Add(time.Hour)}
		c.Message = rapid.SampledFrom(append([]string{"", "one", "two\n\nCorrects: LK7-0000001 seen\n"}, moving...)).Draw(t, "message")
		for _, p := range paths {
			if rapid.Bool().Draw(t, "touch") {
				c.Touches = append(c.Touches, drawTouch(t, p, len(c.Parents)))
			}
		}
	}
	return log
}

func drawTouch(t *rapid.T, path string, parents int) Touch {
	blob := func() ledger.BlobID {
		if k := rapid.IntRange(0, 4).Draw(t, "blob"); k > 0 {
			return ledger.BlobID(hexID('b', k))
		}
		return ""
	}
	out := Touch{Path: path, Blob: blob()}
	for range parents {
		out.Olds = append(out.Olds, blob())
	}
	return out
}

// told is everything that a view tells, for comparison.
type told struct {
	Commits []Commit
	Of      map[ledger.Number][]Revision
	People  []Revision
	Touched [][]ledger.Number
	Missing bool
}

func tell(v *View) told {
	out := told{Of: map[ledger.Number][]Revision{}, People: v.OfFile("people.yaml"), Missing: v.Incomplete()}
	for p := range v.Len() {
		out.Commits = append(out.Commits, v.Commit(p))
		out.Touched = append(out.Touched, v.Touched(p))
	}
	for _, n := range v.Numbers() {
		out.Of[n] = v.Of(n)
	}
	return out
}

func view(t interface{ Fatal(...any) }, x *Index, tip string) *View {
	v, err := x.At(tip)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func ancestors(log []Commit, tip string) []Commit {
	want := map[string]bool{tip: true}
	var out []Commit
	for _, c := range slices.Backward(log) {
		if want[c.ID] {
			out = append(out, c)
			for _, p := range c.Parents {
				want[p] = true
			}
		}
	}
	return out
}

// An index that grew by batches, in any order, saved and loaded on the way and
// holding commits of other branches, tells what a new one tells
// (engineering.md section 4).
func TestExtendedIsFromScratch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := drawLog(t, "three\n\nRenumbered: LK7-0000001 LK7-0000002 stuck\n", "four\n\nSwapped: LK7-0000001 LK7-0000002 stuck\n")
		grown := &Index{}
		var saved [][]byte
		var mark Mark
		for at := 0; at < len(log); {
			to := rapid.IntRange(at+1, len(log)).Draw(t, "batch")
			batch := slices.Clone(log[at:to])
			if rapid.Bool().Draw(t, "children first") {
				slices.Reverse(batch)
			}
			if err := grown.Add(batch...); err != nil {
				t.Fatal(err)
			}
			if rapid.Bool().Draw(t, "save") {
				saved = append(saved, grown.Segment(mark))
				mark = grown.Mark()
				var err error
				if grown, err = Load(saved...); err != nil {
					t.Fatal(err)
				}
			}
			at = to
		}
		tip := rapid.SampledFrom(log).Draw(t, "tip").ID
		fresh := &Index{}
		if err := fresh.Add(ancestors(log, tip)...); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(tell(view(t, fresh, tip)), tell(view(t, grown, tip))); d != "" {
			t.Fatalf("from scratch -, extended +:\n%s", d)
		}
	})
}

// A view holds what the log said, parents first.
func TestViewTellsTheLog(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := drawLog(t)
		x := &Index{}
		if err := x.Add(log...); err != nil {
			t.Fatal(err)
		}
		tip := log[len(log)-1].ID
		got := tell(view(t, x, tip))
		byID := map[string]Commit{}
		for _, c := range ancestors(log, tip) {
			byID[c.ID] = c
		}
		if len(got.Commits) != len(byID) || got.Missing {
			t.Fatalf("%d commits of %d, missing %v", len(got.Commits), len(byID), got.Missing)
		}
		revisions := 0
		for p, c := range got.Commits {
			for _, id := range c.Parents {
				if slices.IndexFunc(got.Commits, func(c Commit) bool { return c.ID == id }) >= p {
					t.Fatalf("%s stands before its parent", c.ID)
				}
			}
			want := byID[c.ID]
			for _, touch := range want.Touches {
				if strings.HasPrefix(touch.Path, ledger.SpecimensDir) {
					revisions++
					checkTouch(t, got, p, touch)
				}
			}
			want.Touches = nil
			if !c.Author.When.Equal(want.Author.When) || c.Author.When.Format(time.RFC3339) != want.Author.When.Format(time.RFC3339) {
				t.Fatalf("author's moment %v, want %v", c.Author.When, want.Author.When)
			}
			c.Author.When, c.Committer.When = want.Author.When, want.Committer.When
			if !reflect.DeepEqual(c, want) {
				t.Fatalf("commit %+v, want %+v", c, want)
			}
		}
		for _, rs := range got.Of {
			revisions -= len(rs)
		}
		if revisions != 0 {
			t.Fatalf("%d revisions too few", revisions)
		}
	})
}

func checkTouch(t *rapid.T, got told, place int, touch Touch) {
	n, _ := ledger.NumberOfPath(touch.Path)
	want := Revision{Place: place, Blob: touch.Blob, Olds: touch.Olds}
	if !slices.ContainsFunc(touch.Olds, func(b ledger.BlobID) bool { return b != "" }) {
		want.Olds = nil
	}
	if !slices.ContainsFunc(got.Of[n], func(r Revision) bool { return reflect.DeepEqual(r, want) }) {
		t.Fatalf("%v lacks %+v", got.Of[n], want)
	}
}

func TestSince(t *testing.T) {
	x := &Index{}
	log := []Commit{{ID: hexID('c', 1)}, {ID: hexID('c', 2), Parents: []string{hexID('c', 1)}}, {ID: hexID('c', 3), Parents: []string{hexID('c', 1)}},
		{ID: hexID('c', 4), Parents: []string{hexID('c', 2), hexID('c', 3)}}}
	if err := x.Add(log...); err != nil {
		t.Fatal(err)
	}
	tip := view(t, x, hexID('c', 4))
	for _, c := range []struct {
		since string
		want  []string
	}{
		{"", []string{hexID('c', 1), hexID('c', 2), hexID('c', 3), hexID('c', 4)}},
		{hexID('c', 2), []string{hexID('c', 3), hexID('c', 4)}},
		{hexID('c', 4), nil},
	} {
		var got []string
		for _, p := range tip.Since(view(t, x, c.since)) {
			got = append(got, tip.Commit(p).ID)
		}
		slices.Sort(got)
		if !slices.Equal(got, c.want) {
			t.Errorf("since %q: %v, want %v", c.since, got, c.want)
		}
	}
}

func TestShallowThenDeepened(t *testing.T) {
	x := &Index{}
	if err := x.Add(Commit{ID: hexID('c', 2), Parents: []string{hexID('c', 1)}}); err != nil {
		t.Fatal(err)
	}
	if v := view(t, x, hexID('c', 2)); !v.Incomplete() || v.Len() != 1 {
		t.Errorf("shallow: incomplete %v, %d commits", v.Incomplete(), v.Len())
	}
	if _, err := x.At(hexID('c', 1)); !errors.Is(err, ErrUnknownCommit) {
		t.Errorf("view of a commit not brought: %v", err)
	}
	if err := x.Add(Commit{ID: hexID('c', 1)}); err != nil {
		t.Fatal(err)
	}
	if v := view(t, x, hexID('c', 2)); v.Incomplete() || v.Len() != 2 {
		t.Errorf("deepened: incomplete %v, %d commits", v.Incomplete(), v.Len())
	}
}

func TestAddRefuses(t *testing.T) {
	cases := []struct {
		name, reason string
		c            Commit
	}{
		{"id", "no hexadecimal", Commit{ID: strings.Repeat("z", 40)}},
		{"id length", "an abbreviation", Commit{ID: "abc1234"}},
		{"blob", "shorter than the ids", Commit{ID: hexID('c', 1), Touches: []Touch{{Path: "people.yaml", Blob: "abcd"}}}},
		{"parents", "a former version without a parent", Commit{ID: hexID('c', 1), Touches: []Touch{{Path: "people.yaml",
			Olds: []ledger.BlobID{ledger.BlobID(hexID('b', 1))}}}}},
	}
	for _, c := range cases {
		x := &Index{}
		if err := x.Add(Commit{ID: hexID('c', 0)}, c.c); err == nil {
			t.Errorf("%s: taken (%s)", c.name, c.reason)
		}
	}
}

func TestLoadDamaged(t *testing.T) {
	x := &Index{}
	if err := x.Add(Commit{ID: hexID('c', 1), Message: "first", Touches: []Touch{{Path: "people.yaml", Blob: ledger.BlobID(hexID('b', 1))}}}); err != nil {
		t.Fatal(err)
	}
	whole := x.Segment(Mark{})
	for i := range whole {
		bad := slices.Clone(whole)
		bad[i] ^= 0x41
		if _, err := Load(bad); !errors.Is(err, ErrDamaged) {
			t.Errorf("byte %d altered: %v", i, err)
		}
		if _, err := Load(whole[:i]); !errors.Is(err, ErrDamaged) {
			t.Errorf("cut at %d: %v", i, err)
		}
	}
	if _, err := Load(whole, whole); !errors.Is(err, ErrDamaged) {
		t.Errorf("the same segment twice: %v", err)
	}
}

// BenchmarkIndex is the whole at 1,000,000 records and 110,000 commits:
// go test -bench Index -benchtime 1x -benchmem ./ledger/history
func BenchmarkIndex(b *testing.B) {
	const records, commits, bulk = 1_000_000, 101_000, 1000
	for b.Loop() {
		x := &Index{}
		blob := 0
		for i := range commits {
			c := Commit{ID: hexID('c', i), Message: "Determine a sheet\n", Author: Person{Name: "Signe Rask"}, Committer: Person{Name: "Signe Rask"}}
			if i > 0 {
				c.Parents = []string{hexID('c', i-1)}
			}
			if i < bulk {
				for k := range records / bulk {
					blob++
					c.Touches = append(c.Touches, Touch{Path: ledger.Number(fmt.Sprintf("LK7-%07d", i*bulk+k)).Path(), Blob: ledger.BlobID(hexID('b', blob))})
				}
			} else {
				blob++
				c.Touches = []Touch{{Path: ledger.Number(fmt.Sprintf("LK7-%07d", i*7)).Path(), Blob: ledger.BlobID(hexID('b', blob)), Olds: []ledger.BlobID{ledger.BlobID(hexID('b', i))}}}
			}
			if err := x.Add(c); err != nil {
				b.Fatal(err)
			}
		}
		start := time.Now()
		saved := x.Segment(Mark{})
		b.ReportMetric(float64(time.Since(start).Milliseconds()), "save-ms")
		start = time.Now()
		y, err := Load(saved)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(time.Since(start).Milliseconds()), "load-ms")
		b.ReportMetric(float64(len(saved))/1e6, "MB-saved")
		start = time.Now()
		v := view(b, y, hexID('c', commits-1))
		v.Of("LK7-0007000")
		b.ReportMetric(float64(time.Since(start).Milliseconds()), "view-ms")
		x, saved = nil, nil
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		b.ReportMetric(float64(m.HeapAlloc)/1e6, "MB-live")
		runtime.KeepAlive(v)
	}
}
