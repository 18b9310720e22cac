package gitrepo

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/history"
)

// hostile is another user's git settings, none of which may show.
const hostile = `[user]
	name = Ove Bannister
	email = ove@lauvkroken.example
[log]
	showRoot = false
	follow = true
	date = relative
[color]
	ui = always
	diff = always
[core]
	quotePath = true
	autocrlf = true
	abbrev = 5
[diff]
	renames = copies
	noprefix = true
	external = /bin/false
[format]
	pretty = oneline
[i18n]
	logOutputEncoding = ISO-8859-1
[commit]
	verbose = true
	cleanup = scissors
`

// preamble makes the small ledger that every case begins with. enter commits
// everything, a minute after the last time.
const preamble = `
set -e
n=1700000000
tick() { n=$((n+60)); GIT_AUTHOR_DATE="$n +0100"; GIT_COMMITTER_DATE="$n +0100"; export GIT_AUTHOR_DATE GIT_COMMITTER_DATE; }
enter() { tick; git add -A; git commit -q -m "$1"; }
put() { mkdir -p "$(dirname "$1")"; printf '%s\n' "$2" >"$1"; }
A=specimens/000/00/LK7-0000001.yaml
B=specimens/000/00/LK7-0000002.yaml
C=specimens/000/01/LK7-0000103.yaml
first() {
	put .gitattributes '* -text'
	put blotter.yaml 'format: "1"'
	put $A one
	put $B two
	enter 'Enter two sheets'
	put $A 'one b'
	put "specimens/other/Ås é 'x'.yaml" odd
	enter 'LK7-0000001: det. M. Ostrander

Determination: LK7-0000001   

'
}
`

// contractCases are the repositories that both back ends must see alike. The
// script runs in an empty folder; the ledger is in folder at (default ".").
var contractCases = []struct{ name, reason, script, at string }{
	{"empty", "no commit yet, one file staged", "git init -q -b main; put $A x; git add -A; put $B y", ""},
	{"loose", "all objects loose", "git init -q -b main; first", ""},
	{"packed", "packs, packed refs, deltas, annotated tag", "git init -q -b main; first; for i in 1 2 3 4 5 6 7 8 9; do put $C \"$(seq 200; echo $i)\"; enter $i; done; tick; git tag -a -m 'first' v1 HEAD~3; git gc -q; put $B later; enter loose", ""},
	{"merge", "a clean merge touches nothing", "git init -q -b main; first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $C main; enter main; tick; git merge -q --no-edit side", ""},
	{"evil merge", "content made in the merge itself is a revision", "git init -q -b main; first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $B main; enter main; tick; git merge -q side || true; put $B both; put $C new; git rm -q -f $A; enter merged", ""},
	{"octopus", "three parents", "git init -q -b main; first; for s in a b; do git checkout -q -b $s main; put specimens/000/02/LK7-$s.yaml $s; enter $s; done; git checkout -q main; put $C c; enter c; tick; git merge -q --no-edit a b", ""},
	{"criss-cross", "two merges of the same two lines, equal times", "git init -q -b main; first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $C main; enter main; git branch old; git merge -q --no-edit side; git checkout -q side; git merge -q --no-edit old; put $A last; git commit -q -am last; git checkout -q main; git merge -q --no-edit side", ""},
	{"moved", "a record that moves is the same record, alone, changed, and in a merge", "git init -q -b main; first; put $B \"$(seq 100)\"; enter long; mkdir -p specimens/other; git mv $A specimens/other/LK7-0000001.yaml; enter moved; git mv specimens/other/LK7-0000001.yaml $A; put $A again; enter 'moved and changed'; git checkout -q -b side; git mv $B specimens/other/LK7-0000002.yaml; enter 'moved on one side'; git checkout -q main; put $B \"$(seq 99; echo x)\"; enter 'changed on the other'; tick; git merge -q --no-edit side; mkdir -p specimens/000/01; git mv specimens/other/LK7-0000002.yaml $C; enter away", ""},
	{"moved in a merge", "the old version lies elsewhere in one parent", "git init -q -b main; first; git checkout -q -b side; git mv $B specimens/other/LK7-0000002.yaml; enter side; git checkout -q main; put $C main; enter main; tick; git merge -q --no-commit side; put specimens/other/LK7-0000002.yaml both; enter merged", ""},
	{"removed", "a removal, and a folder that becomes a file", "git init -q -b main; first; put pages/a/b.md x; enter pages; git rm -q -r pages; put pages file; enter file; git rm -q $A; git commit -q -m gone; rm pages; put pages/a/b.md y; enter folder", ""},
	{"worktree", "a linked work tree", "git init -q -b main m; cd m; first; git worktree add -q -b other ../w; cd ../w; put $B w; enter w; put $C staged; git add $C", "w"},
	{"bare", "no work tree", "git init -q -b main m; cd m; first; cd ..; git clone -q --bare m b.git", "b.git"},
	{"shallow", "the history is cut", "git init -q -b main m; cd m; first; put $C c; enter c; put $C d; enter d; cd ..; git clone -q --depth 2 \"file://$PWD/m\" s", "s"},
	{"detached", "HEAD on no branch", "git init -q -b main; first; git checkout -q --detach HEAD~1; put $B d; enter d", ""},
	{"subfolder", "the ledger is part of a larger repository", "git init -q -b main; mkdir -p 'deep/my ledger'; put outside x; enter outside; cd 'deep/my ledger'; first; cd ../..; put outside y; enter outside; git rm -q outside; enter gone; cd 'deep/my ledger'; put $C staged; git add $C; put ../../other z; git add ../../other", "deep/my ledger"},
	{"alternates", "objects borrowed from another repository", "git init -q -b main m; cd m; first; cd ..; git clone -q --shared m s; cd s; put $C c; enter c", "s"},
	{"staged", "new, changed, removed, announced, a link, a mode, partly staged", "git init -q -b main; first; put $C new; put $A staged; git add -A; put $A 'on disk'; git rm -q --cached $B; put pages/x.md n; git add -N pages/x.md; ln -s $A link; git add link; chmod +x blotter.yaml; git add blotter.yaml", ""},
	{"ignored", "patterns, an ignored folder, a tracked file that they match", "git init -q -b main; first; put .gitignore '*.bak\n/site/\n!keep.bak\nspecimens/**/tmp*\n\\#x\nfoo[0-9]'; put a.bak x; put keep.bak x; put site/index.html x; put pages/site/x.md x; put specimens/000/00/tmp1 x; put '#x' x; put foo1 x; put foox x; put pages/.gitignore 'y\n'; put pages/y y; put tracked.bak t; git add -f tracked.bak; echo local >.git/info/exclude; put local x; put sub/local x; enter ignore", ""},
	{"encoding", "a message in another character set", "git init -q -b main; first; put $C c; git add -A; tick; printf 'Sorte b\\345r\\n' | git -c i18n.commitEncoding=ISO-8859-1 commit -q -F -; put $C d; git add -A; git commit -q --allow-empty-message -m ''; git commit -q --allow-empty -m empty", ""},
	{"conflict", "a merge under way", "git init -q -b main; first; git checkout -q -b side; put $B side; enter side; git checkout -q main; put $B main; enter main; git merge -q side || true", ""},
	{"clocks", "a child older than its parent", "git init -q -b main; first; n=1600000000; put $C c; enter old; n=1800000000; put $C d; enter new; git checkout -q -b side HEAD~1; n=1500000000; put $B s; enter side; git checkout -q main; git merge -q --no-edit side", ""},
	{"submodule", "another repository inside", "git init -q -b main sub; cd sub; first; cd ..; git init -q -b main m; cd m; first; git -c protocol.file.allow=always submodule --quiet add ../sub inner; enter sub; mkdir nested; git -C nested init -q; put nested/x y", "m"},
}

// seen is everything that a back end says about a repository.
type seen struct {
	Head, Branch, Busy string
	HeadErr, StagedErr error
	Refs               []Ref
	Missing            []string
	Log, Newer         []history.Commit
	Range              []string
	Files, Index, Work []ledger.File
	Text               map[string]string
	Staged, Changed    []Change
	Numbers            []ledger.Number
	User, AsOf         string
	Dirty              []string
	Whole              Wholeness
}

func TestContract(t *testing.T) {
	needGit(t)
	for _, tt := range contractCases {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			home := t.TempDir()
			write(t, home, map[string]string{".gitconfig": hostile})
			dir := t.TempDir()
			runScript(t, dir, preamble+tt.script)
			dir = filepath.Join(dir, tt.at)
			environ := []string{"HOME=" + home, "GIT_CONFIG_NOSYSTEM=1", "EMAIL=x"}
			without := look(t, dir, environ)
			with := look(t, dir, append(environ, "PATH="+os.Getenv("PATH")))
			if diff := cmp.Diff(with, without, cmp.Comparer(func(a, b error) bool { return errors.Is(a, b) || (a == nil) == (b == nil) })); diff != "" {
				t.Errorf("%s: (-git program +go-git)\n%s", tt.reason, diff)
			}
		})
	}
}

func runScript(t testing.TB, dir, script string) {
	t.Helper()
	cmd := exec.Command("sh", "-c", script)
	cmd.Dir, cmd.Env = dir, testEnviron(t)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}

func look(t *testing.T, dir string, environ []string) (s seen) {
	t.Helper()
	ctx := context.Background()
	r, err := Open(dir, environ)
	check := func(err error) {
		t.Helper()
		if err != nil {
			t.Error(err)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	s.Whole = wantWhole(t, r)
	s.Head, s.HeadErr = r.Head(ctx)
	s.Branch, err = r.Branch()
	check(err)
	s.Busy = r.InProgress()
	s.Refs, err = r.Refs(ctx)
	check(err)
	s.Missing, err = r.Missing()
	check(err)
	s.User, err = r.Setting("user.name")
	check(err)
	tips, err := r.Tips(ctx)
	check(err)
	s.Log = logOf(t, r, tips, nil)
	s.Numbers, err = r.NumbersUsed(ctx, nil)
	check(err)
	if len(s.Log) > 1 {
		parent, err := r.Resolve(ctx, "HEAD~1")
		check(err)
		s.Newer = logOf(t, r, tips, []string{parent})
		s.Range, err = r.Commits(ctx, Range{Tips: []string{"HEAD"}, Not: []string{parent}})
		check(err)
		s.Changed, err = r.Changed(ctx, parent, s.Head)
		check(err)
		if s.AsOf, err = r.AsOf(ctx, time.Unix(1_700_000_130, 0)); err != nil {
			s.AsOf = err.Error()
		}
	}
	if s.HeadErr == nil {
		at, err := r.At(ctx, s.Head)
		check(err)
		s.Files, s.Text = contents(t, at)
	}
	if r.Bare() {
		return s
	}
	s.Staged, s.StagedErr = r.Staged(ctx)
	if s.StagedErr == nil {
		s.Index, _ = contents(t, r.Index())
		s.Dirty, err = r.Dirty(ctx, []string{"blotter.yaml", "specimens/000/00/LK7-0000001.yaml", "specimens/000/00/LK7-0000002.yaml"})
		check(err)
	}
	s.Work, _ = contents(t, r.WorkTree(nil))
	return s
}

// contents lists a source and reads all of it, with each file's id checked
// against its bytes.
func contents(t *testing.T, src ledger.Source) ([]ledger.File, map[string]string) {
	t.Helper()
	ctx := context.Background()
	files, err := src.Files(ctx)
	if err != nil {
		t.Error(err)
	}
	if !slices.IsSortedFunc(files, func(a, b ledger.File) int { return strings.Compare(a.Path, b.Path) }) {
		t.Errorf("files are not in order: %v", files)
	}
	text := map[string]string{}
	for _, f := range files {
		if f.Link {
			continue
		}
		b, err := src.Read(ctx, f)
		if err != nil {
			t.Error(err)
		}
		if got := ledger.BlobOf(b); got != f.Blob {
			t.Errorf("%s: content has id %s, listed as %s", f.Path, got, f.Blob)
		}
		text[f.Path] = string(b)
	}
	return files, text
}

func logOf(t *testing.T, r *Repo, tips, known []string) []history.Commit {
	t.Helper()
	var out []history.Commit
	if err := r.Log(context.Background(), tips, known, func(c history.Commit) error {
		out = append(out, c)
		return nil
	}); err != nil {
		t.Error(err)
	}
	return out
}
