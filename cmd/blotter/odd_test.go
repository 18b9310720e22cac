package main

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// oddAnswers are what commands say in an odd repository: the exit code, and a
// pattern that stands somewhere in what is said; "" is not typed. They are typed
// in this order, in one copy.
type oddAnswers struct{ status, check, publish, enter, undo, share string }

// fine are the answers of a repository in which nothing is odd; alike those of
// one in which all commands say the same.
var fine = oddAnswers{"0 1 entry not yet shared", "0 no errors", "", "0 Entered", "0 Taken back", "0 ."}

func alike(all string) oddAnswers { return oddAnswers{all, all, all, all, all, all} }

// but are these answers, with others for what is entered, taken back, shared.
func (a oddAnswers) but(enter, undo, share string) oddAnswers {
	a.enter, a.undo, a.share = enter, undo, share
	return a
}

// asks are these answers, with others of commands that only look.
func (a oddAnswers) asks(status, check, publish string) oddAnswers {
	a.status, a.check, a.publish = status, check, publish
	return a
}

// begun are the answers in the midst of something that was begun with git.
func begun(doing string) oddAnswers {
	word := "3 git " + doing + " was begun in this ledger and is not ended"
	return oddAnswers{"0 not yet entered", "1 nobody has decided yet", "", word, word, word}
}

const (
	atWork = "3 another git program is at work in this ledger, or was broken off; if none runs, blotter doctor"
	joined = "0 Shared: all that is entered here and in the other copy"
	diverg = "git checkout -q -b side HEAD~1; $B set 2 substrate=Gravel; git checkout -q main; $B set 2 substrate=Moraine; "
)

// oddRepositories are states in which a repository may be found, how each is
// made in the ledger L beside the shared copy other.git, and what is said.
// Where a command refuses, nothing may be written.
var oddRepositories = []struct {
	name    string
	made    string // by sh, in the ledger
	at      string // where the ledger is then, from the folder of all
	environ []string
	says    oddAnswers
}{
	{name: "nothing odd", made: "true", says: fine.asks("0 1 entry not yet shared", "0 no errors", "0 3 sheets")},
	{name: "index.lock of now", made: ": > .git/index.lock", says: fine.but(atWork, atWork, "0 .")},
	{name: "index.lock of long ago", made: "touch -t 202001010000 .git/index.lock", says: fine.but(atWork, atWork, "0 .")},
	{name: "HEAD.lock", made: ": > .git/HEAD.lock", says: fine.but(atWork, atWork, "0 .")},
	{name: "lock of the branch", made: ": > .git/refs/heads/main.lock", says: fine.but(atWork, atWork, "0 .")},
	{name: "detached", made: "git checkout -q --detach", says: fine.but("0 turned to a revision with another git program", "0 Taken back", "3 turned to an older revision")},
	{name: "mid-merge", made: diverg + "git merge -q side || true; test -f .git/MERGE_HEAD", says: begun("merge")},
	{name: "mid-rebase", made: diverg + "git checkout -q side; git rebase -q main || true; test -d .git/rebase-merge", says: begun("rebase")},
	{name: "mid-am", made: "mkdir .git/rebase-apply; : > .git/rebase-apply/applying", says: begun("rebase").asks("0 .", "0 no errors", "0 3 sheets")},
	{name: "mid-cherry-pick", made: diverg + "git cherry-pick side >/dev/null || true; test -f .git/CHERRY_PICK_HEAD", says: begun("cherry-pick")},
	{name: "mid-revert", made: "$B set 2 substrate=Gravel; $B set 2 substrate=Moraine --why seen; git revert --no-edit HEAD~1 >/dev/null || true; test -f .git/REVERT_HEAD", says: begun("revert")},
	{name: "mid-bisect", made: "git bisect start -q HEAD HEAD~3", says: begun("bisect").asks("0 .", "0 no errors", "0 sheet")},
	{name: "sparse", made: "git sparse-checkout set names", says: alike("3 shows only some of its files")},
	{name: "linked work tree", made: "git worktree add -q ../linked -b other", at: "linked", says: fine.but("0 Entered", "0 Taken back", "3 side line of this ledger")},
	{name: "the ledger is a submodule", made: "cd ..; git init -q museum; cd museum; git -c protocol.file.allow=always submodule --quiet add ../other.git plants", at: "museum/plants", says: fine.asks(joined, "0 no errors", "0 3 sheets")},
	{name: "a submodule in the ledger", made: "git init -q ../letters; git -C ../letters commit -q --allow-empty -m one; git -c protocol.file.allow=always submodule --quiet add $PWD/../letters letters; git commit -qm letters", says: fine.asks("0 2 entries not yet shared", "0 no errors", "0 3 sheets")},
	{name: "SHA-256", made: "cd ..; git init -q --object-format=sha256 long; cd long; $B init . --code LK7 --name 'Lauvkroken Museum'; cp -r ../L/specimens .; $B enter; $B set 1 habitat=Meadow", at: "long", says: fine.asks("0 Nothing is waiting", "0 no errors", "0 3 sheets").but("0 Entered", "0 Taken back", "2 no other copy of this ledger is known here")},
	{name: "shallow", made: "git clone -q --depth 1 file://$PWD ../shallow", at: "shallow", says: fine.asks(joined, "0 no errors", "3 git fetch --unshallow").but("0 Entered", "0 Taken back", "3 does not hold the whole history")},
	{name: "partial", made: "git config uploadpack.allowFilter true; git clone -q --filter=blob:none file://$PWD ../part", at: "part", says: fine.asks(joined, "0 no errors", "0 3 sheets")},
	{name: "bare", made: "git clone -q --bare . ../bare", at: "bare", says: alike("3 nobody works(.|\n)*blotter join")},
	{name: "unborn branch", made: "git checkout -q --orphan fresh", says: oddAnswers{"0 not yet entered", "0 no errors", "3 nothing has been entered yet", "3 edits not yet entered", "3 nothing has been entered yet", "3 side line of this ledger"}},
	{name: "split index", made: "git update-index --split-index", says: fine},
	{name: "untracked cache", made: "git update-index --force-untracked-cache", says: fine},
	{name: "index of version 4", made: "git update-index --index-version 4", says: fine},
	{name: "assume unchanged", made: "git update-index --assume-unchanged specimens/000/00/LK7-0000001.yaml", says: fine},
	{name: "skip worktree", made: "git update-index --skip-worktree specimens/000/00/LK7-0000001.yaml", says: fine.but("3 git was told not to look at", "0 Taken back", "0 .")},
	{name: "autocrlf", made: "git config core.autocrlf true; git config core.eol crlf", says: fine},
	{name: "no file modes", made: "git config core.fileMode false; chmod +x specimens/000/00/LK7-0000001.yaml", says: fine},
	{name: "GIT_DIR in the environment", made: "git init -q ../elsewhere", environ: []string{"GIT_DIR=$W/elsewhere/.git", "GIT_WORK_TREE=$W/elsewhere"}, says: fine},
	{name: "GIT_INDEX_FILE in the environment", made: "true", environ: []string{"GIT_INDEX_FILE=$W/no-index"}, says: fine.asks("0 .", "0 no errors", "0 3 sheets").but("3 GIT_INDEX_FILE is set here", "3 GIT_INDEX_FILE is set here", "3 GIT_INDEX_FILE is set here")},
	{name: "branch in UTF-8", made: "git branch -m vår/épinette", says: fine},
	{name: "borrowed objects", made: "git clone -q --shared . ../borrowed", at: "borrowed", says: fine.asks(joined, "0 no errors", "0 3 sheets")},
	{name: "settings of the work tree", made: "git config extensions.worktreeConfig true", says: fine},
	{name: "an extension that git does not know", made: "git config core.repositoryFormatVersion 1; git config extensions.unheardOf true", says: alike("3 unknown repository extension")},
	{name: "git's folder elsewhere", made: "cd ..; mv L/.git away.git; echo 'gitdir: ../away.git' > L/.git", says: fine},
	{name: "git's folder gone", made: "cd ..; mv L/.git away.git; echo 'gitdir: ../gone.git' > L/.git", says: alike("3 not a git repository")},
	{name: "packed", made: "git gc -q", says: fine},
	{name: "another's", made: "chown -R 4242:4242 .", says: alike("3 belongs to another account").asks("3 belongs to another account", "0 no errors", "3 belongs to another account")},
}

// TestOddRepositories: in whatever state a repository is, each command works, or
// says plainly why not and writes nothing.
func TestOddRepositories(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing, and CI must run this")
		}
		t.Skip("git is missing")
	}
	stock := oddStock(t)
	for _, row := range oddRepositories {
		t.Run(row.name, func(t *testing.T) {
			t.Parallel()
			if row.name == "another's" && os.Getuid() != 0 {
				t.Skip("only root gives files to others")
			}
			o := &odd{T: t, dir: t.TempDir()}
			if err := os.CopyFS(o.dir, os.DirFS(stock)); err != nil {
				t.Fatal(err)
			}
			o.sh("L", "git remote set-url origin $PWD/../other.git; "+row.made)
			at := "L"
			if row.at != "" {
				at = row.at
			}
			for _, e := range row.environ {
				o.extra = append(o.extra, strings.ReplaceAll(e, "$W", o.dir))
			}
			o.before = o.state(at)
			for _, c := range []struct {
				args []string
				want string
			}{
				{[]string{"status"}, row.says.status}, {[]string{"check"}, row.says.check}, {[]string{"publish"}, row.says.publish},
				{[]string{"set", "1", "substrate=Moraine"}, row.says.enter}, {[]string{"undo", "--yes"}, row.says.undo}, {[]string{"share", "--yes"}, row.says.share},
			} {
				if c.want != "" {
					o.says(at, c.args, c.want)
				}
			}
			if amiss := o.git(at, "fsck", "--no-dangling"); regexp.MustCompile(`missing|broken|corrupt`).MatchString(amiss) {
				t.Errorf("in the end git fsck says %s", amiss)
			}
		})
	}
}

// odd is one odd repository under test.
type odd struct {
	*testing.T
	dir    string
	extra  []string // of the environment
	before map[string]string
}

func oddEnv(home string, extra ...string) []string {
	return append([]string{"PATH=" + os.Getenv("PATH"), "HOME=" + home, "GIT_CONFIG_NOSYSTEM=1", "GIT_TERMINAL_PROMPT=0", "TZ=UTC", "LC_ALL=C.UTF-8", "BLOTTER_AS_PROGRAM=1",
		"BLOTTER_NOW=2026-11-03T09:40:00Z", "GIT_AUTHOR_DATE=2026-11-03T09:40:00Z", "GIT_COMMITTER_DATE=2026-11-03T09:40:00Z",
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example",
		"B=" + os.Args[0]}, extra...)
}

// sh makes a state.
func (o *odd) sh(at, text string) {
	o.Helper()
	cmd := exec.Command("sh", "-euc", text)
	cmd.Dir, cmd.Env = filepath.Join(o.dir, at), oddEnv(o.dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		o.Fatalf("%s: %v\n%s", text, err, out)
	}
}

// says types a command, and holds that one that refuses, or only looks, has
// written nothing.
func (o *odd) says(at string, args []string, want string) {
	o.Helper()
	cmd := exec.Command(os.Args[0], args...)
	cmd.Dir, cmd.Env = filepath.Join(o.dir, at), oddEnv(o.dir, o.extra...)
	out, _ := cmd.CombinedOutput()
	got := fmt.Sprintf("%d %s", cmd.ProcessState.ExitCode(), out)
	code, pattern, _ := strings.Cut(want, " ")
	if ok, err := regexp.MatchString(pattern, string(out)); err != nil || !ok || !strings.HasPrefix(got, code+" ") {
		o.Errorf("blotter %s: %s\nwant %s", strings.Join(args, " "), got, want)
	}
	if strings.Contains(got, "panic:") || strings.Contains(got, "goroutine ") {
		o.Errorf("blotter %s panics", args[0])
	}
	if args[0] != "set" && args[0] != "undo" && args[0] != "share" {
		return // what it left is seen after the next that enters
	}
	before := o.before
	o.before = o.state(at)
	if cmd.ProcessState.Success() {
		return
	}
	for p := range o.before {
		if _, was := before[p]; !was {
			o.Errorf("blotter %s, which said %s\nleaves %s", args[0], got, p)
		}
	}
	for p, was := range before {
		if o.before[p] != was {
			o.Errorf("blotter %s, which said %s\nmakes of %s\n%s\nit was\n%s", args[0], got, p, o.before[p], was)
		}
	}
}

// git runs git, to look.
func (o *odd) git(at string, args ...string) string {
	cmd := exec.Command("git", append([]string{"-c", "safe.directory=*"}, args...)...)
	cmd.Dir, cmd.Env = filepath.Join(o.dir, at), oddEnv(o.dir, "GIT_OPTIONAL_LOCKS=0")
	out, _ := cmd.CombinedOutput()
	return string(out)
}

// state is all that counts of a ledger: its files, refs and index.
func (o *odd) state(at string) map[string]string {
	o.Helper()
	s := map[string]string{}
	top := filepath.Join(o.dir, at)
	err := filepath.WalkDir(top, func(p string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(top, p)
		switch {
		case e.IsDir() && (rel == ".git" || rel == "site" || rel == "objects" && at == "bare"):
			return fs.SkipDir
		case e.IsDir():
			return nil
		}
		b, err := os.ReadFile(p)
		s[rel] = string(b)
		return err
	})
	if err != nil {
		o.Fatal(err)
	}
	s["git refs"], s["git index"] = o.git(at, "show-ref", "--head"), o.git(at, "ls-files", "-s")
	return s
}

// oddStock is a ledger that is shared, with an entry that is not yet.
func oddStock(t *testing.T) string {
	o := &odd{T: t, dir: t.TempDir()}
	o.sh(".", `mkdir L; cd L; $B init . --code LK7 --name 'Lauvkroken Museum'
for day in 1 2 3; do $B new collector='Signe Rask' date=$day.vii.2025 country=Norway locality='by the track' coll_no=s.n. name='Ranunculus acris L.'; done
$B share --with ../other.git --new --yes
$B set 2 habitat=Meadow`)
	return o.dir
}
