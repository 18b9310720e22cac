package gitrepo

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger/disk"
)

// wantWhole wants a repository of the contract whole, from scratch and with
// what was kept, and tells what was found.
func wantWhole(t *testing.T, r *Repo) Wholeness {
	t.Helper()
	ctx := context.Background()
	scratch, err := r.Whole(ctx, nil, nil)
	if err != nil || len(scratch.Faults) > 0 {
		t.Errorf("%v, %v", scratch.Faults, err)
	}
	for range 2 {
		again, err := r.Whole(ctx, r.Cache(), nil)
		again.Anew = scratch.Anew
		if d := cmp.Diff(scratch, again); err != nil || d != "" {
			t.Errorf("%v, from the cache:\n%s", err, d)
		}
	}
	return scratch
}

// TestWholeFinds harms a repository in every way that matters.
func TestWholeFinds(t *testing.T) {
	needGit(t)
	const packed = `git init -q -b main; first; for i in 1 2 3 4 5 6; do put $C "$(seq 400; echo $i)"; enter $i; done; git gc -q; put $B later; enter loose`
	flip := func(file string, at int) func(t *testing.T, dir string) {
		return func(t *testing.T, dir string) {
			found, _ := filepath.Glob(filepath.Join(dir, ".git", "objects", file))
			if len(found) == 0 {
				t.Fatalf("no %s", file)
			}
			b, err := os.ReadFile(found[0])
			if err != nil {
				t.Fatal(err)
			}
			if at < 0 {
				at += len(b)
			}
			b[at] ^= 0x20
			os.Chmod(found[0], 0o644)
			if err := os.WriteFile(found[0], b, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
	object := func(t *testing.T, dir, rev string) string {
		id := mustGit(t, dir, "rev-parse", rev)
		return filepath.Join(dir, ".git", "objects", id[:2], id[2:])
	}
	master := t.TempDir()
	runScript(t, master, preamble+packed)
	for _, tt := range []struct {
		name string
		harm func(t *testing.T, dir string)
		want string // in some fault
	}{
		{"nothing", func(*testing.T, string) {}, ""},
		{"a byte within the pack", flip("pack/*.pack", 300), "the checksum at its end is of other bytes"},
		{"the last byte of the pack", flip("pack/*.pack", -1), "the checksum at its end is of other bytes"},
		{"a byte of the index", flip("pack/*.idx", 1100), "the checksum at its end is of other bytes"},
		{"the index is gone", func(t *testing.T, dir string) {
			found, _ := filepath.Glob(filepath.Join(dir, ".git", "objects", "pack", "*.idx"))
			os.Remove(found[0])
		}, "no such file"},
		{"a loose object is gone", func(t *testing.T, dir string) { os.Remove(object(t, dir, "HEAD:specimens/000/00/LK7-0000002.yaml")) }, "is nowhere"},
		{"a loose object is cut", func(t *testing.T, dir string) {
			f := object(t, dir, "HEAD:specimens/000/00/LK7-0000002.yaml")
			os.Chmod(f, 0o644)
			os.Truncate(f, 10)
		}, "is damaged after 0 bytes of 6"},
		{"a loose object is another", func(t *testing.T, dir string) {
			b, _ := os.ReadFile(object(t, dir, "HEAD^{tree}"))
			f := object(t, dir, "HEAD:specimens/000/00/LK7-0000002.yaml")
			os.Chmod(f, 0o644)
			os.WriteFile(f, b, 0o644)
		}, "holds other bytes than its name says"},
		{"the last entry is gone", func(t *testing.T, dir string) { os.Remove(object(t, dir, "HEAD")) }, "is nowhere"},
		{"something left over lost what it leads to", func(t *testing.T, dir string) {
			write(t, dir, map[string]string{"specimens/000/09/LK7-0000900.yaml": "stray"})
			mustGit(t, dir, "add", "-A")
			tree := mustGit(t, dir, "write-tree")
			os.Remove(object(t, dir, ":specimens/000/09/LK7-0000900.yaml"))
			mustGit(t, dir, "reset", "-q")
			_ = tree
		}, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "copy")
			if err := os.CopyFS(dir, os.DirFS(master)); err != nil {
				t.Fatal(err)
			}
			r, err := Open(dir, testEnviron(t))
			if err != nil {
				t.Fatal(err)
			}
			defer r.Close()
			if _, err := r.Whole(context.Background(), r.Cache(), nil); err != nil { // what was kept before the harm must not hide it
				t.Fatal(err)
			}
			tt.harm(t, dir)
			r.Close()
			var all [2]Wholeness
			for i, cache := range []*disk.Cache{r.Cache(), nil} {
				got, err := r.Whole(context.Background(), cache, nil)
				if err != nil {
					t.Fatal(err)
				}
				said := false
				for _, f := range got.Faults {
					said = said || strings.Contains(f.What, tt.want)
				}
				if tt.want == "" && len(got.Faults) > 0 || tt.want != "" && !said {
					t.Errorf("faults %v, want %q", got.Faults, tt.want)
				}
				got.Anew = 0
				all[i] = got
			}
			if d := cmp.Diff(all[1], all[0]); d != "" {
				t.Errorf("what was kept gives another answer (-scratch +kept):\n%s", d)
			}
		})
	}
}
