package gitrepo

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger"
)

// TestPackedEqualsProgram reads every object of repositories that git has
// packed in several ways as the git program reads it.
func TestPackedEqualsProgram(t *testing.T) {
	needGit(t)
	for _, tt := range []struct {
		name, script string
		asks         bool // something lies in no pack
		reason       string
	}{
		{"places", "git -c pack.depth=4000 repack -adfq --depth=4000", false, "differences by place, long chains"},
		{"ids", "git -c repack.useDeltaBaseOffset=false repack -adfq", false, "differences by id"},
		{"several", "git repack -adq; git commit -q --allow-empty -m x; git repack -q; git commit -q --allow-empty -m y; git repack -q", false, "each pack has its own places"},
		{"loose", "git repack -adq; echo more > more; git add more; git commit -qm z", true, "what is in no pack is read by what reads loose objects"},
		{"borrowed", "git repack -adq; cp -r .git/objects ../other; rm -r .git/objects/pack; (cd ../other && pwd) > .git/objects/info/alternates", false, "a repository that borrows its objects"},
		{"tag", "git tag -a -m t v1; git repack -adq", false, "a tag that is an object"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			dir := filepath.Join(t.TempDir(), "l")
			if err := os.Mkdir(dir, 0o777); err != nil {
				t.Fatal(err)
			}
			synthesize(t, dir, 300)
			runScript(t, dir, preamble0+tt.script)
			r, err := Open(dir, testEnviron(t))
			if err != nil {
				t.Fatal(err)
			}
			defer r.Close()
			ids := strings.Fields(mustGit(t, dir, "cat-file", "--batch-all-objects", "--batch-check=%(objectname)"))
			if len(ids) < 480 {
				t.Fatalf("only %d objects", len(ids))
			}
			o, err := r.openPacked()
			if err != nil {
				t.Fatal(err)
			}
			p := o.(*packed)
			defer p.close()
			asked := &asking{objects: p.rest}
			p.rest = asked
			program, err := r.openBatch()
			if err != nil {
				t.Fatal(err)
			}
			defer program.close()
			for _, id := range ids {
				kind, body, err := p.read(id, 0)
				wantKind, want, wantErr := program.read(id, 0)
				if err != nil || wantErr != nil || kind != wantKind || !bytes.Equal(body, want) {
					t.Fatalf("%s: %s, %d bytes, %v; the program: %s, %d bytes, %v", id, kind, len(body), err, wantKind, len(want), wantErr)
				}
			}
			if (asked.n > 0) != tt.asks {
				t.Errorf("%d of %d objects were not read out of packs: %s", asked.n, len(ids), tt.reason)
			}
		})
	}
}

// preamble0 says who commits.
const preamble0 = "set -e\nexport GIT_AUTHOR_NAME=A GIT_AUTHOR_EMAIL=a@b.example GIT_COMMITTER_NAME=A GIT_COMMITTER_EMAIL=a@b.example\n"

// asking counts what is asked of a reader.
type asking struct {
	objects
	n int
}

func (a *asking) read(id string, limit int64) (string, []byte, error) {
	a.n++
	return a.objects.read(id, limit)
}

func TestPackedLimit(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	long := strings.Repeat("words that differ from each other very little\n", 3000)
	write(t, dir, map[string]string{"a": long, "b": long + "more\n"})
	mustGit(t, dir, "init", "-q")
	mustGit(t, dir, "add", ".")
	mustGit(t, dir, "-c", "user.name=A", "-c", "user.email=a@b.example", "commit", "-qm", "x")
	mustGit(t, dir, "repack", "-adfq")
	r, err := Open(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	p, err := r.openPacked()
	if err != nil {
		t.Fatal(err)
	}
	defer p.close()
	for _, name := range []string{"a", "b"} {
		id := strings.TrimSpace(mustGit(t, dir, "rev-parse", "HEAD:"+name))
		if _, _, err := p.read(id, int64(len(long))-1); !errors.Is(err, errTooLarge) {
			t.Errorf("%s, longer than the limit: %v", name, err)
		}
		if _, body, err := p.read(id, ledger.MaxFile); err != nil || !strings.HasPrefix(string(body), long) {
			t.Errorf("%s: %d bytes, %v", name, len(body), err)
		}
	}
	if _, _, err := p.read(strings.Repeat("1", 40), 0); !errors.Is(err, ErrNoObject) {
		t.Errorf("an object that is not there: %v", err)
	}
}

// TestPackedDamaged turns over every byte of a small pack, one at a time: a
// reader gives the object as it was or an error, and never stops the program.
// What it gives is not held to its id here: verify does that.
func TestPackedDamaged(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	write(t, dir, map[string]string{"a": strings.Repeat("one line\n", 40), "b": strings.Repeat("one line\n", 40) + "two\n"})
	mustGit(t, dir, "init", "-q")
	mustGit(t, dir, "add", ".")
	mustGit(t, dir, "-c", "user.name=A", "-c", "user.email=a@b.example", "commit", "-qm", "x")
	mustGit(t, dir, "repack", "-adfq")
	packs, err := filepath.Glob(filepath.Join(dir, ".git/objects/pack/*.pack"))
	if err != nil || len(packs) != 1 {
		t.Fatal(packs, err)
	}
	whole, err := os.ReadFile(packs[0])
	if err != nil {
		t.Fatal(err)
	}
	r, err := Open(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	ids := strings.Fields(mustGit(t, dir, "cat-file", "--batch-all-objects", "--batch-check=%(objectname)"))
	if err := os.Chmod(packs[0], 0o666); err != nil {
		t.Fatal(err)
	}
	_, first, err := r.pool.read(context.Background(), ids[0], 0)
	if err != nil || len(first) == 0 {
		t.Fatal(err)
	}
	refused := 0
	for at := range whole {
		damaged := bytes.Clone(whole)
		damaged[at] ^= 0xff
		if err := os.WriteFile(packs[0], damaged, 0o666); err != nil {
			t.Fatal(err)
		}
		o, err := r.openPacked()
		if err != nil {
			t.Fatal(err)
		}
		p := o.(*packed)
		p.rest.close()
		p.rest = nothing{}
		for _, id := range ids {
			if _, _, err := p.read(id, 0); err != nil {
				refused++
			}
		}
		p.close()
	}
	if refused < len(whole) {
		t.Errorf("%d readings of %d were refused; each byte is in an object, in its head or in what tells the pack", refused, len(whole)*len(ids))
	}
}

// nothing is a store without objects.
type nothing struct{}

func (nothing) read(string, int64) (string, []byte, error) { return "", nil, errNoObject }
func (nothing) close()                                     {}
