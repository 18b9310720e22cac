package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/rogpeppe/go-internal/txtar"

	"blotter/ledger/disk/disktest"
)

// TestMain lets the test binary stand in for the program in scripts.
func TestMain(m *testing.M) {
	if os.Getenv("BLOTTER_AS_PROGRAM") != "" {
		os.Exit(start(os.Args, scriptEnv()))
	}
	testscript.Main(m, map[string]func(){
		"blotter": func() { os.Exit(start(os.Args, scriptEnv())) },
	})
}

// scriptEnv is the env of the program in a script: as real, but with the
// clock of BLOTTER_NOW, and with a person at a terminal when
// BLOTTER_TERMINAL is its width. In an answer ^C stands for Ctrl-C.
func scriptEnv() *env {
	e := osEnv()
	if err := disktest.FromText(os.Getenv("BLOTTER_FAULT")); err != nil {
		panic(err)
	}
	if now := os.Getenv("BLOTTER_NOW"); now != "" {
		t, err := time.Parse(time.RFC3339, now)
		if err != nil {
			panic(err)
		}
		e.Now = func() time.Time { return t }
	}
	if width, err := strconv.Atoi(os.Getenv("BLOTTER_TERMINAL")); err == nil {
		e.Asks, e.Screen, e.Width = true, true, width
		e.In = ctrlC{bufio.NewScanner(os.Stdin)}
		e.echo = func(line string) { fmt.Fprintln(e.Err, line) }
	}
	return e
}

// TestScripts runs every script of testdata/script. UPDATE_SCRIPTS=1 rewrites
// what they expect; in CI that is refused.
func TestScripts(t *testing.T) {
	update := os.Getenv("UPDATE_SCRIPTS") != ""
	if update && os.Getenv("CI") != "" {
		t.Fatal("scripts are not rewritten in CI")
	}
	if _, err := exec.LookPath("git"); err != nil && os.Getenv("CI") == "true" {
		t.Fatal("git is missing, and CI must run the scripts that need it")
	}
	smallAside = t.TempDir()
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "script"),
		UpdateScripts:       update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup:               setupScript,
		Condition: func(cond string) (bool, error) {
			if cond != "oracles" {
				return false, fmt.Errorf("no condition %q", cond)
			}
			_, err := os.Stat(oraclesFolder())
			return err == nil, nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":    cmdExits,
			"at":       cmdAt,
			"terminal": cmdTerminal,
			"ledger":   cmdLedger,
			"says":     cmdSays,
			"nogit":    cmdNoGit,
			"noids":    cmdNoIDs,
			"unzip":    cmdUnzip,
			"picture":  cmdPicture,
			"harm":     cmdHarm,
			"plain":    cmdPlain,
			"guide":    cmdGuide,
		},
	})
}

// oraclesFolder is where the data lies that no one here wrote.
func oraclesFolder() string {
	if root := os.Getenv("BLOTTER_ORACLES"); root != "" {
		return root
	}
	return filepath.Join("..", "..", "..", "shared", "oracles")
}

// setupScript fixes everything that could differ between two machines.
func setupScript(e *testscript.Env) error {
	home := filepath.Join(e.WorkDir, "home")
	if err := os.MkdirAll(home, 0o755); err != nil {
		return err
	}
	oracles, err := filepath.Abs(oraclesFolder())
	if err != nil {
		return err
	}
	testdata, err := filepath.Abs(filepath.Join("..", "..", "testdata"))
	if err != nil {
		return err
	}
	for _, kv := range [][2]string{
		{"ORACLES", oracles}, {"TESTDATA", testdata},
		{"HOME", home}, {"USERPROFILE", home}, {"XDG_CONFIG_HOME", filepath.Join(home, ".config")},
		{"GIT_CONFIG_NOSYSTEM", "1"}, {"GIT_CONFIG_GLOBAL", filepath.Join(home, ".gitconfig")},
		{"GIT_TERMINAL_PROMPT", "0"}, {"GIT_EDITOR", "true"}, {"EDITOR", "false"}, {"VISUAL", ""},
		{"TZ", "UTC"}, {"LC_ALL", "C.UTF-8"}, {"NO_COLOR", "1"},
		{"BLOTTER_NOW", "2026-11-03T09:40:00Z"},
		{"GIT_AUTHOR_DATE", "2026-11-03T09:40:00Z"}, {"GIT_COMMITTER_DATE", "2026-11-03T09:40:00Z"},
	} {
		e.Setenv(kv[0], kv[1])
	}
	return os.WriteFile(filepath.Join(home, ".gitconfig"),
		[]byte("[user]\n\tname = Tiril Aune\n\temail = tiril@lauvkroken.example\n[init]\n\tdefaultBranch = main\n[gc]\n\tauto = 0\n[maintenance]\n\tauto = false\n"), 0o644)
}

// cmdExits runs a command and holds it to an exit code: exits 2 blotter find --plaec x
func cmdExits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if exit, ok := err.(*exec.ExitError); ok {
		got = exit.ExitCode()
	} else if err != nil {
		ts.Fatalf("%s: %v", args[1], err)
	}
	if got != want {
		ts.Fatalf("%s: exit %d, want %d", strings.Join(args[1:], " "), got, want)
	}
}

// cmdAt sets the clock of everything that follows: at 2026-11-04T10:00:00Z
func cmdAt(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: at TIME")
	}
	for _, name := range []string{"BLOTTER_NOW", "GIT_AUTHOR_DATE", "GIT_COMMITTER_DATE"} {
		ts.Setenv(name, args[0])
	}
}

// cmdTerminal puts a person at a terminal of 80 columns, or takes him away
// again; he types what stdin holds.
func cmdTerminal(ts *testscript.TestScript, neg bool, args []string) {
	width := "80"
	if neg {
		width = ""
	}
	if len(args) == 1 {
		width = args[0]
	}
	ts.Setenv("BLOTTER_TERMINAL", width)
}

// cmdLedger makes the small ledger of testdata/ledgers in the folder
// herbarium and goes there. Its author is Signe Rask, its day 16 July 2025.
func cmdLedger(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) > 0 {
		ts.Fatalf("usage: ledger")
	}
	if _, err := exec.LookPath("git"); err != nil {
		ts.Fatalf("git is missing; the script should have been skipped")
	}
	ts.Check(theSmall.at(ts, ts.MkAbs("herbarium")))
	ts.Setenv("GIT_AUTHOR_NAME", "Tiril Aune")
	ts.Setenv("GIT_AUTHOR_EMAIL", "tiril@lauvkroken.example")
}

// theSmall is the ledger of cmdLedger. The first script that asks for it makes
// it with the program; the others copy that, or the making would be half of what
// many of them do.
var theSmall small

type small struct {
	once sync.Once
	made string // where it lies, "" when it could not be made
}

// at puts the ledger into a folder that is not there yet, and goes there.
func (s *small) at(ts *testscript.TestScript, dir string) error {
	s.once.Do(func() {
		makeSmall(ts, dir)
		aside := filepath.Join(smallAside, "herbarium")
		ts.Check(os.CopyFS(aside, os.DirFS(dir)))
		s.made = aside
	})
	if s.made == "" {
		return errors.New("the small ledger could not be made, see the script that asked for it first")
	}
	if _, err := os.Stat(dir); err == nil {
		return ts.Chdir(dir) // just made here
	}
	if err := os.CopyFS(dir, os.DirFS(s.made)); err != nil {
		return err
	}
	if err := ts.Chdir(dir); err != nil {
		return err
	}
	return ts.Exec("git", "update-index", "-q", "--refresh") // its files are others than those that git looked at
}

// smallAside is a folder for the small ledger, as long as TestScripts runs.
var smallAside string

func makeSmall(ts *testscript.TestScript, dir string) {
	files, err := txtar.ParseFile(filepath.Join(smallLedger, "small.txtar"))
	ts.Check(err)
	was := map[string]string{}
	for key, value := range map[string]string{
		"BLOTTER_NOW": "2025-07-16T08:00:00Z", "GIT_AUTHOR_DATE": "2025-07-16T08:00:00Z", "GIT_COMMITTER_DATE": "2025-07-16T08:00:00Z",
		"GIT_AUTHOR_NAME": "Signe Rask", "GIT_AUTHOR_EMAIL": "signe@lauvkroken.example",
	} {
		was[key] = ts.Getenv(key)
		ts.Setenv(key, value)
	}
	ts.Check(ts.Exec("blotter", "init", filepath.Base(dir), "--code", "LK7", "--name", "Lauvkroken Museum", "--timezone", "Europe/Oslo"))
	for _, f := range files.Files {
		file := filepath.Join(dir, filepath.FromSlash(f.Name))
		ts.Check(os.MkdirAll(filepath.Dir(file), 0o755))
		ts.Check(os.WriteFile(file, f.Data, 0o644))
	}
	ts.Check(ts.Chdir(dir))
	ts.Check(ts.Exec("blotter", "enter"))
	for key, value := range was {
		ts.Setenv(key, value)
	}
}

// smallLedger is where ledgers for scripts lie, seen from this package.
var smallLedger = filepath.Join("..", "..", "testdata", "ledgers")

// cmdNoGit leaves nothing on the path but the program itself.
func cmdNoGit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) > 0 {
		ts.Fatalf("usage: nogit")
	}
	first, _, _ := strings.Cut(ts.Getenv("PATH"), string(os.PathListSeparator))
	ts.Setenv("PATH", first)
}

var anyRevision = regexp.MustCompile(`([ (])[0-9a-f]{7}\b`)

// cmdSays compares what was printed with a file, whatever the revisions are
// called, blanks at the ends of lines aside: says stdout FILE
func cmdSays(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: says stdout|stderr FILE")
	}
	masked := func(name string) string {
		lines := strings.Split(anyRevision.ReplaceAllString(ts.ReadFile(name), "${1}3f2a91c"), "\n")
		for i := range lines {
			lines[i] = strings.TrimRight(lines[i], " ")
		}
		return strings.Join(lines, "\n")
	}
	if got, want := masked(args[0]), masked(args[1]); got != want {
		ts.Fatalf("%s:\n%s\nwant:\n%s", args[0], got, want)
	}
}

// ctrlC gives a line ^C to the program as the key.
type ctrlC struct{ lines *bufio.Scanner }

func (r ctrlC) Read(p []byte) (int, error) {
	if !r.lines.Scan() {
		return 0, io.EOF
	}
	line := r.lines.Text()
	if line == "^C" {
		line = "\x03"
	}
	return copy(p, line+"\n"), nil
}

// lockedBuffer is written by a process and read by a test meanwhile.
type lockedBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (l *lockedBuffer) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.Write(p)
}

func (l *lockedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}
