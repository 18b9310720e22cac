package gitrepo

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestRecent: a body is given back as it was put, or not at all; the last one
// always is.
func TestRecent(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	r := newRecent(400)
	var all [][]byte
	kept := 0
	for i := range 2000 {
		body := make([]byte, rnd.IntN(60))
		for j := range body {
			body[j] = byte(rnd.Uint32())
		}
		if all = append(all, body); rnd.IntN(20) == 0 {
			r.skip()
			all[i] = nil
		} else {
			r.put(body)
		}
		for j := max(0, i-40); j <= i; j++ {
			got := r.get(j)
			if got != nil && (all[j] == nil || !bytes.Equal(got, all[j])) {
				t.Fatalf("body %d after %d reads otherwise than it was put", j, i)
			}
			if got != nil {
				kept++
			}
			if j == i && got == nil && all[j] != nil && len(body) <= r.largest() {
				t.Fatalf("body %d of %d bytes was not kept", j, len(body))
			}
		}
	}
	if kept < 4000 {
		t.Errorf("only %d bodies were kept", kept)
	}
}

// TestRecentRoom: however little room there is for what was read lately, a
// pack of differences upon differences reads the same, and as git says.
func TestRecentRoom(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	mustGit(t, dir, "init", "-q")
	for i := range 24 {
		files := map[string]string{}
		for j := range 30 {
			files[fmt.Sprintf("f/%03d", j)] = strings.Repeat(fmt.Sprintf("sheet %d\n", j), 40) + fmt.Sprint(i*(j%3))
		}
		write(t, dir, files)
		mustGit(t, dir, "add", "-A")
		mustGit(t, dir, "commit", "-q", "-m", fmt.Sprint(i))
	}
	mustGit(t, dir, "repack", "-adfq")
	want := strings.Fields(mustGit(t, dir, "cat-file", "--batch-all-objects", "--batch-check=%(objectname)"))
	packs, err := filepath.Glob(filepath.Join(dir, ".git", "objects", "pack", "*.pack"))
	if err != nil || len(packs) != 1 {
		t.Fatal(packs, err)
	}
	text, err := os.ReadFile(packs[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, room := range []int64{8, 3000, 20_000, recentRoom} {
		v := newVerifying(context.Background(), bytes.NewReader(text), int64(len(text)), 20)
		v.lately = newRecent(room)
		for _, step := range []func() error{v.sum, v.whole, v.differences} {
			if err := step(); err != nil {
				t.Fatalf("room for %d: %v", room, err)
			}
		}
		var got []string
		deltas := 0
		for _, row := range v.rows {
			got = append(got, fmt.Sprintf("%x", row.id[:20]))
			if row.delta {
				deltas++
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("room for %d: %d objects, git has %d, or others", room, len(got), len(want))
		}
		if deltas < 20 {
			t.Errorf("only %d differences: nothing is tried", deltas)
		}
	}
}
