package gitrepo

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// bundled is the bundle of the repository in dir, as the program or go-git
// writes it.
func bundled(t testing.TB, dir string, environ []string) ([]byte, []BundleRef, error) {
	t.Helper()
	r, err := Open(dir, environ)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	ctx := context.Background()
	refs, err := r.BundleRefs(ctx)
	if err != nil {
		return nil, nil, err
	}
	var out bytes.Buffer
	if err := r.WriteBundle(ctx, &out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), refs, nil
}

func readBundle(text []byte) (*Bundle, error) {
	b, err := OpenBundle(bytes.NewReader(text), int64(len(text)))
	if err == nil {
		err = b.Verify(context.Background())
	}
	return b, err
}

func withoutGit(environ []string) []string {
	return append(slices.Clone(environ), "PATH=")
}

// TestBundleContract: with git and without, a bundle holds the same refs and
// the same objects; git itself verifies, clones and checks it; and what is
// restored from it, with git and without, is what git calls clean.
func TestBundleContract(t *testing.T) {
	needGit(t)
	for _, tt := range contractCases {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			runScript(t, dir, preamble+tt.script)
			dir = filepath.Join(dir, tt.at)
			environ := testEnviron(t)
			with, refs, errWith := bundled(t, dir, environ)
			without, refsWithout, errWithout := bundled(t, dir, withoutGit(environ))
			if errWith != nil || errWithout != nil {
				if tt.name != "empty" || !errors.Is(errWith, ErrNoCommits) || !errors.Is(errWithout, ErrNoCommits) {
					t.Fatalf("%v, %v", errWith, errWithout)
				}
				return
			}
			if diff := cmp.Diff(refs, refsWithout); diff != "" {
				t.Errorf("refs (-git +go-git)\n%s", diff)
			}
			if tt.name == "shallow" {
				for _, text := range [][]byte{with, without} {
					if _, err := readBundle(text); !errors.Is(err, ErrPartOfHistory) {
						t.Errorf("a cut history: %v", err)
					}
				}
				return
			}
			var ids [][]anyID
			for name, text := range map[string][]byte{"git": with, "go-git": without} {
				b, err := readBundle(text)
				if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
				if diff := cmp.Diff(refs, b.Refs); diff != "" {
					t.Errorf("%s: refs in the file (-want +got)\n%s", name, diff)
				}
				var all []anyID
				for i := range b.rows {
					all = append(all, b.rows[i].id)
				}
				slices.SortFunc(all, func(x, y anyID) int { return bytes.Compare(x[:], y[:]) })
				ids = append(ids, all)
				gitTakes(t, text, refs)
				for _, e := range [][]string{environ, withoutGit(environ)} {
					restored(t, b, e, refs)
				}
			}
			if !slices.Equal(ids[0], ids[1]) {
				t.Errorf("git packs %d objects, go-git %d, or others", len(ids[0]), len(ids[1]))
			}
			again, _, _ := bundled(t, dir, withoutGit(environ))
			if !bytes.Equal(without, again) {
				t.Error("without git, the same objects gave other bytes")
			}
		})
	}
}

// gitTakes lets git verify, clone and look through a bundle.
func gitTakes(t *testing.T, text []byte, refs []BundleRef) {
	t.Helper()
	dir := t.TempDir()
	file := filepath.Join(dir, "x.bundle")
	if err := os.WriteFile(file, text, 0o666); err != nil {
		t.Fatal(err)
	}
	mustGit(t, dir, "init", "-q", "empty")
	mustGit(t, filepath.Join(dir, "empty"), "bundle", "verify", "-q", file)
	mustGit(t, dir, "clone", "-q", "--mirror", file, "copy")
	copied := filepath.Join(dir, "copy")
	mustGit(t, copied, "fsck", "--full")
	for _, r := range refs[1:] {
		if got := mustGit(t, copied, "rev-parse", r.Name); got != r.ID {
			t.Errorf("clone: %s leads to %s, want %s", r.Name, got, r.ID)
		}
	}
}

// restored makes a folder of a bundle and lets git look at it.
func restored(t *testing.T, b *Bundle, environ []string, refs []BundleRef) {
	t.Helper()
	dir := t.TempDir()
	r, err := b.Restore(context.Background(), dir, environ)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if out := mustGit(t, dir, "fsck", "--full"); strings.Contains(out, "error") {
		t.Errorf("fsck: %s", out)
	}
	if out := mustGit(t, dir, "status", "--porcelain", "--ignored"); out != "" {
		t.Errorf("status of what was restored: %s", out)
	}
	for _, ref := range refs {
		if got := mustGit(t, dir, "rev-parse", ref.Name); got != ref.ID {
			t.Errorf("restored: %s leads to %s, want %s", ref.Name, got, ref.ID)
		}
	}
}

// sampleBundle is a small bundle with differences in it, a tag and a merge.
func sampleBundle(t testing.TB) (dir string, text []byte) {
	needGit(t)
	dir = t.TempDir()
	runScript(t, dir, preamble+`git init -q -b main; first; for i in 1 2 3 4 5; do put $C "$(seq 200; echo $i)"; enter $i; done; tick; git tag -a -m first v1 HEAD~3; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $A main; enter main; tick; git merge -q --no-edit side; git gc -q`)
	text, _, err := bundled(t, dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	return dir, text
}

// TestBundleHarm: a bundle of which any byte is another, or whose end is
// missing, is never taken for whole.
func TestBundleHarm(t *testing.T) {
	_, text := sampleBundle(t)
	whole, err := readBundle(text)
	if err != nil {
		t.Fatal(err)
	}
	for n := 0; n < len(text); n += 1 + n/500 { // every byte of the head, then ever fewer
		if _, err := readBundle(text[:n]); err == nil {
			t.Errorf("cut at byte %d of %d: read as whole", n, len(text))
		}
		harmed := bytes.Clone(text)
		harmed[n] ^= 0x10
		b, err := readBundle(harmed)
		// The names of refs and the number in "# v2" bear no checksum of git's
		// own: that is what the SHA-256 beside the file is for.
		if err == nil && slices.Equal(b.Refs, whole.Refs) {
			t.Errorf("byte %d changed: read as whole, with the same refs", n)
		}
	}
	if _, err := readBundle(append(bytes.Clone(text), 'x')); !errors.Is(err, ErrDamaged) {
		t.Errorf("a byte more: %v", err)
	}
}

// TestBundleLacks: what is no bundle, only part of one, or no ledger.
func TestBundleLacks(t *testing.T) {
	dir, _ := sampleBundle(t)
	for _, tt := range []struct {
		name, script string
		want         error
	}{
		{"a text", "echo hello >x.bundle", ErrNotBundle},
		{"nothing", ": >x.bundle", ErrNotBundle},
		{"incremental", "git bundle create -q x.bundle HEAD~1..main", ErrPartOfHistory},
		{"its first lines removed", "git bundle create -q y HEAD~1..main; sed '2d' y >x.bundle", ErrPartOfHistory},
		{"filtered", "git bundle create -q --version=3 x.bundle --filter=blob:none main", ErrPartOfHistory},
		{"no ledger", "git init -q o; cd o; echo x >x; git add x; git commit -q -m x; git bundle create -q ../x.bundle HEAD", ErrNoLedger},
	} {
		t.Run(tt.name, func(t *testing.T) {
			cmd := exec.Command("sh", "-e", "-c", tt.script)
			cmd.Dir, cmd.Env = dir, testEnviron(t)
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, out)
			}
			text, err := os.ReadFile(filepath.Join(dir, "x.bundle"))
			if err != nil {
				t.Fatal(err)
			}
			b, err := readBundle(text)
			if err == nil {
				_, err = b.Ledger(context.Background())
			}
			if !errors.Is(err, tt.want) {
				t.Errorf("%v, want %v", err, tt.want)
			}
		})
	}
}

// TestBundleLedger: a ledger in a folder of a larger repository is found, its
// records counted.
func TestBundleLedger(t *testing.T) {
	_, text := sampleBundle(t)
	b, err := readBundle(text)
	if err != nil {
		t.Fatal(err)
	}
	in, err := b.Ledger(context.Background())
	if err != nil || in.Folder != "" || in.Records != 4 || in.Last.ID != b.Head() || b.Branch() != "main" {
		t.Errorf("%+v, branch %q, %v", in, b.Branch(), err)
	}
}

// TestBundleStray: names that would write outside the folder.
func TestBundleStray(t *testing.T) {
	for name, want := range map[string]bool{
		"blotter.yaml": false, "LK7-0000001.yaml": false, ".gitattributes": false, ".gitignore": false, "Ås é": false, "..yaml": false,
		".git": true, ".GIT": true, ".git ": true, ".git.": true, "git~1": true, ".g\u200cit": true, "..": true, ".": true, "": true, "a/b": true, ".git::$INDEX_ALLOCATION": true,
	} {
		if got := strayName(name); got != want {
			t.Errorf("strayName(%q) = %v, want %v", name, got, want)
		}
	}
}

// TestBundle256: a repository whose objects are named by SHA-256.
func TestBundle256(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	runScript(t, dir, preamble+"git init -q -b main --object-format=sha256; first")
	text, refs, err := bundled(t, dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	b, err := readBundle(text)
	if err != nil {
		t.Fatal(err)
	}
	restored(t, b, testEnviron(t), refs)
}

func FuzzBundle(f *testing.F) {
	f.Add([]byte("# v2 git bundle\n"))
	f.Add([]byte("# v2 git bundle\n0123456789012345678901234567890123456789 HEAD\n\nPACK\x00\x00\x00\x02\x00\x00\x00\x00"))
	if _, err := exec.LookPath("git"); err == nil {
		_, text := sampleBundle(f)
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := OpenBundle(bytes.NewReader(text), int64(len(text)))
		if err != nil {
			return
		}
		if b.Verify(context.Background()) != nil {
			v := &verifying{Bundle: b, ctx: context.Background(), byID: map[anyID][]int32{}, wanted: map[anyID]struct{}{}}
			v.places = map[anyID]int32{}
			v.rows, v.hash = nil, newHash(b.width)
			for _, step := range []func() error{v.whole, v.differences, v.complete} { // past the checksum, which random bytes do not pass
				if step() != nil {
					return
				}
			}
		}
		b.Ledger(context.Background())
	})
}

// full is a stick without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, syscall.ENOSPC }

// TestBundleSaysWhy: that the stick is full is said, not that git died of it.
func TestBundleSaysWhy(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	mustGit(t, dir, "init", "-q")
	write(t, dir, map[string]string{"a.yaml": "a\n"})
	mustGit(t, dir, "add", "-A")
	mustGit(t, dir, "commit", "-qm", "one")
	r, err := Open(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if err := r.WriteBundle(context.Background(), full{}); !errors.Is(err, syscall.ENOSPC) {
		t.Errorf("%v, want that there is no room", err)
	}
}
