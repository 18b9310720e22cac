package gitrepo

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/history"
)

// TestTouches says what a revision is, worked out by hand from the law in
// engineering.md section 6, for the commits where it is not obvious. A touch
// is written PATH:OLDS>NEW with contents, - for absent.
func TestTouches(t *testing.T) {
	needGit(t)
	const a, b, c, other = "specimens/000/00/LK7-0000001.yaml", "specimens/000/00/LK7-0000002.yaml", "specimens/000/01/LK7-0000103.yaml", "specimens/other/LK7-0000002.yaml"
	tests := []struct {
		name, script string
		want         map[string]string // by subject
	}{
		{"merge", "first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $C main; enter main; tick; git merge -q -m merged side",
			map[string]string{"side": b + ":two>side", "main": c + ":->main", "merged": ""}},
		{"evil merge", "first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $B main; enter main; tick; git merge -q side || true; put $B both; put $C new; git rm -q -f $A; enter merged",
			map[string]string{"merged": a + ":one b,one b>- " + b + ":main,side>both " + c + ":-,->new"}},
		{"one side taken", "first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $B main; enter main; tick; git merge -q -X ours -m merged side",
			map[string]string{"merged": ""}},
		{"decided between two", "first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $B main; enter main; tick; git merge -q -X ours -m merged -m 'Decided: LK7-0000002 place.elevation' side",
			map[string]string{"merged": b + ":main,side>main"}},
		{"said to be decided, and both agree", "first; git checkout -q -b side; put $C side; enter side; git checkout -q main; put $A main; enter main; tick; git merge -q -m merged -m 'Decided: LK7-0000002 habitat' side",
			map[string]string{"merged": ""}},
		{"moved", "first; mkdir specimens/other; git mv $B specimens/other/; enter moved",
			map[string]string{"moved": ""}},
		{"moved and changed", "first; mkdir specimens/other; git mv $B specimens/other/; put specimens/other/LK7-0000002.yaml x; enter moved",
			map[string]string{"moved": other + ":two>x"}},
		{"moved on one side, changed in the merge", "first; git checkout -q -b side; git mv $B specimens/other/; enter side; git checkout -q main; put $C main; enter main; tick; git merge -q --no-commit side; put specimens/other/LK7-0000002.yaml both; enter merged",
			map[string]string{"merged": other + ":two,two>both"}},
		{"a page that moves is two pages", "first; put pages/a.md x; enter page; git mv pages/a.md pages/b.md; enter moved",
			map[string]string{"moved": "pages/a.md:x>- pages/b.md:->x"}},
		{"removed", "first; git rm -q $A; enter gone", map[string]string{"gone": a + ":one b>-"}},
		{"mode only", "first; chmod +x $A; enter mode", map[string]string{"mode": ""}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			runScript(t, dir, preamble+"git init -q -b main; mkdir -p specimens; "+strings.Replace(tt.script, "mkdir specimens", "mkdir -p specimens", 1))
			r, err := Open(dir, testEnviron(t))
			if err != nil {
				t.Fatal(err)
			}
			defer r.Close()
			head, err := r.Head(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			got := map[string]string{}
			for _, c := range logOf(t, r, []string{head}, nil) {
				if _, ok := tt.want[c.Subject()]; ok {
					got[c.Subject()] = touchWords(t, r, c.Touches)
				}
			}
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func touchWords(t *testing.T, r *Repo, touches []history.Touch) string {
	t.Helper()
	var words []string
	for _, touch := range touches {
		var olds []string
		for _, o := range touch.Olds {
			olds = append(olds, word(t, r, o))
		}
		words = append(words, fmt.Sprintf("%s:%s>%s", touch.Path, strings.Join(olds, ","), word(t, r, touch.Blob)))
	}
	return strings.Join(words, " ")
}

// word is the content of a blob without its line feed, - for none.
func word(t *testing.T, r *Repo, id ledger.BlobID) string {
	t.Helper()
	if id == "" {
		return "-"
	}
	b, err := r.Blob(context.Background(), id)
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(b))
}

// TestRefusedByNative runs everything through the git program alone, for
// repositories that go-git does not open.
func TestRefusedByNative(t *testing.T) {
	needGit(t)
	for name, script := range map[string]string{
		"sha256":         "git init -q -b main --object-format=sha256; first",
		"worktreeConfig": "git init -q -b main; first; git config extensions.worktreeConfig true",
		"split index":    "git init -q -b main; first; git update-index --split-index; put $C c; git add $C",
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			dir := t.TempDir()
			runScript(t, dir, preamble+script)
			r, err := Open(dir, testEnviron(t))
			if err != nil {
				t.Fatal(err)
			}
			defer r.Close()
			ctx := context.Background()
			head, err := r.Head(ctx)
			if err != nil {
				t.Fatal(err)
			}
			if got := len(logOf(t, r, []string{head}, nil)); got != 2 {
				t.Errorf("%d commits, want 2", got)
			}
			at, err := r.At(ctx, head)
			if err != nil {
				t.Fatal(err)
			}
			files, err := at.Files(ctx)
			if err != nil || len(files) != 5 {
				t.Errorf("%d files, error %v; want 5", len(files), err)
			}
			for _, f := range files {
				if b, err := at.Read(ctx, f); err != nil || r.blobID(b) != f.Blob {
					t.Errorf("read %s: %q, %v", f.Path, b, err)
				}
			}
			if dirty, err := r.Dirty(ctx, []string{files[0].Path, files[2].Path}); err != nil || len(dirty) != 0 {
				t.Errorf("dirty: %v, %v", dirty, err)
			}
			write(t, dir, map[string]string{"pages/x.md": "x"})
			if _, err := r.Commit(ctx, CommitRequest{Paths: []string{"pages/x.md"}, Message: "m", Author: somebody}); err != nil {
				t.Error(err)
			}
			if name != "split index" { // that only stops go-git at its index
				if _, err := Open(dir, nil); err == nil || !strings.Contains(err.Error(), "needs the git program") {
					t.Errorf("without git: %v", err)
				}
			}
		})
	}
}

// TestHookEnvironment wants what a hook of a linked work tree inherits not to
// lead anywhere else.
func TestHookEnvironment(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	runScript(t, dir, preamble+"git init -q -b main m; cd m; first; git worktree add -q -b other ../w; cd ../w; put $B w; cp \"$(git rev-parse --git-path index)\" ../next; GIT_INDEX_FILE=../next git add $B")
	environ := append(testEnviron(t), "GIT_DIR="+filepath.Join(dir, "m", ".git"), "GIT_WORK_TREE=/", "GIT_PREFIX=x/", "GIT_INDEX_FILE=../next")
	r, err := Open(filepath.Join(dir, "w"), environ)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	staged, err := r.Staged(context.Background())
	if err != nil || len(staged) != 1 || staged[0].Path != "specimens/000/00/LK7-0000002.yaml" {
		t.Errorf("staged %v, %v", staged, err)
	}
	without := append(environ, "PATH=")
	r, err = Open(filepath.Join(dir, "w"), without)
	if err != nil {
		t.Fatal(err)
	}
	native, err := r.Staged(context.Background())
	if diff := cmp.Diff(staged, native); diff != "" || err != nil {
		t.Error(diff, err)
	}
}
