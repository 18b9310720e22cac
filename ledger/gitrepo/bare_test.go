package gitrepo

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"blotter/ledger/history"
)

// fill writes n commits into a pack, each of a few random files upon the one
// before, and returns the last.
func fill(t *testing.T, b *Bare, p *Pack, n int, seed uint64) ObjectID {
	t.Helper()
	random := rand.New(rand.NewPCG(seed, 1))
	who := history.Person{Name: "Signe Rask", Email: "a@withheld.invalid", When: time.Unix(1_700_000_000, 0).UTC()}
	var tree, last ObjectID
	var parents []ObjectID
	for i := range n {
		var files []BareFile
		for range 1 + random.IntN(4) {
			f := BareFile{Path: syntheticNumber(random.IntN(400)).Path()}
			if slices.ContainsFunc(files, func(x BareFile) bool { return x.Path == f.Path }) {
				continue
			}
			if random.IntN(8) > 0 {
				var err error
				if f.ID, err = p.Blob(fmt.Appendf(nil, "version %d of %d\n", i, random.IntN(1000))); err != nil {
					t.Fatal(err)
				}
			}
			files = append(files, f)
		}
		var err error
		if tree, err = b.Tree(context.Background(), p, tree, files); err != nil {
			t.Fatal(err)
		}
		if last, err = p.Commit(tree, parents, who, who, fmt.Sprint("entry ", i)); err != nil {
			t.Fatal(err)
		}
		parents = []ObjectID{last}
	}
	return last
}

// TestBareIsARepository: what is written without git is what git reads.
func TestBareIsARepository(t *testing.T) {
	needGit(t)
	ctx := context.Background()
	dir := filepath.Join(t.TempDir(), "mirror [1]")
	b, err := OpenBare(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	p, err := b.NewPack()
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	tip := fill(t, b, p, 200, 5)
	seen := 0
	if err := p.Each(ctx, func(string, ObjectID, []byte) error { seen++; return nil }); err != nil || seen != p.Len() {
		t.Fatalf("read back %d of %d: %v", seen, p.Len(), err)
	}
	if err := b.Take(ctx, p, "", tip.Hex(), false); err != nil {
		t.Fatal(err)
	}
	if out := mustGit(t, dir, "fsck", "--strict", "--full"); out != "" {
		t.Errorf("fsck: %s", out)
	}
	if got := mustGit(t, dir, "rev-parse", "HEAD"); got != tip.Hex() {
		t.Errorf("HEAD %s, want %s", got, tip.Hex())
	}
	if got := mustGit(t, dir, "rev-list", "--count", "main"); got != "200" {
		t.Errorf("%s commits", got)
	}
	mustGit(t, dir, "verify-pack", filepath.Join("objects", "pack", filepath.Base(p.base())+".idx"))
	ids, err := b.IDs()
	if err != nil || len(ids) != p.Len() {
		t.Errorf("%d ids, want %d: %v", len(ids), p.Len(), err)
	}
	mustGit(t, dir, "gc", "-q")
	again, err := b.IDs()
	if err != nil || !slices.Equal(ids, again) {
		t.Errorf("after gc %d ids, want %d: %v", len(again), len(ids), err)
	}
	if what, err := b.Foreign(); what != "" || err != nil {
		t.Errorf("foreign %q, %v", what, err)
	}
	mustGit(t, dir, "tag", "v1")
	if what, _ := b.Foreign(); what != "refs/tags/v1" {
		t.Errorf("foreign %q, want the tag", what)
	}
}

// TestBareBrokenOff: a pack that was put in place without the branch goes away;
// a rebuilt one stands alone.
func TestBareBrokenOff(t *testing.T) {
	ctx := context.Background()
	dir := filepath.Join(t.TempDir(), "mirror")
	b, err := OpenBare(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	write := func(seed uint64) (*Pack, ObjectID) {
		p, err := b.NewPack()
		if err != nil {
			t.Fatal(err)
		}
		return p, fill(t, b, p, 5, seed)
	}
	p, first := write(1)
	if err := b.Take(ctx, p, "", first.Hex(), false); err != nil {
		t.Fatal(err)
	}
	n := p.Len()
	p, second := write(2)
	if err := b.Take(ctx, p, "0123456789012345678901234567890123456789", second.Hex(), true); !errors.Is(err, ErrMoved) {
		t.Fatalf("moved a branch from where it was not: %v", err)
	}
	if ids, _ := b.IDs(); len(ids) <= n {
		t.Fatalf("%d objects, want those of both", len(ids))
	}
	if b, err = OpenBare(dir, testEnviron(t)); err != nil {
		t.Fatal(err)
	}
	if ids, _ := b.IDs(); len(ids) != n {
		t.Errorf("%d objects are left of %d", len(ids), n)
	}
	if tip, err := b.Tip(ctx); tip != first.Hex() || err != nil {
		t.Errorf("tip %s, %v", tip, err)
	}
	p, second = write(2)
	if err := b.Take(ctx, p, first.Hex(), second.Hex(), true); err != nil {
		t.Fatal(err)
	}
	if ids, _ := b.IDs(); len(ids) != p.Len() {
		t.Errorf("%d objects, want %d: the old ones were to go", len(ids), p.Len())
	}
}

// TestBareRefusesOthers: nothing is put into a folder that holds something
// else.
func TestBareRefusesOthers(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, map[string]string{"letter.txt": "Dear colleague\n"})
	if _, err := OpenBare(dir, testEnviron(t)); !errors.Is(err, ErrForeign) {
		t.Errorf("a folder of letters: %v", err)
	}
	needGit(t)
	other := filepath.Join(t.TempDir(), "other.git")
	mustGit(t, "", "init", "-q", "--bare", other)
	if _, err := OpenBare(other, testEnviron(t)); !errors.Is(err, ErrForeign) {
		t.Errorf("somebody's repository: %v", err)
	}
	if _, err := os.Stat(filepath.Join(other, bareMark)); err == nil {
		t.Error("it was marked all the same")
	}
}

// TestDeltas: a difference leads back to what it was made from.
func TestDeltas(t *testing.T) {
	long := string(slices.Repeat([]byte("abcdefgh"), 20000))
	for _, c := range [][2]string{{"", ""}, {"", "a"}, {"a", ""}, {"abc", "abc"}, {"aaaa", "aa"}, {"aa", "aaaa"}, {long, long[:70000] + "x" + long[70001:]}, {long, "y" + long}, {"x", long[:300]}} {
		got, err := undelta(c[0], deltaOf(c[0], c[1]))
		if err != nil || string(got) != c[1] {
			t.Errorf("%d bytes to %d: %v", len(c[0]), len(c[1]), err)
		}
	}
}

// TestStepsOfBothBackEnds: the same commits with the same changes.
func TestStepsOfBothBackEnds(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	synthesize(t, dir, 300)
	var told [2]string
	for i, environ := range [][]string{testEnviron(t), append(testEnviron(t), "PATH=")} {
		r, err := Open(dir, environ)
		if err != nil {
			t.Fatal(err)
		}
		tip, err := r.Resolve(context.Background(), "main")
		if err != nil {
			t.Fatal(err)
		}
		err = r.Steps(context.Background(), tip, nil, func(s Step) error { told[i] += fmt.Sprintln(s); return nil })
		r.Close()
		if err != nil {
			t.Fatal(err)
		}
	}
	if told[0] != told[1] || len(told[0]) < 1000 {
		t.Errorf("with git %d bytes, without %d", len(told[0]), len(told[1]))
	}
}
