package hooks

import (
	"fmt"
	"strings"

	"blotter/ledger/gitrepo"
)

// kind is one git hook: its name, whether git gives it lines on standard
// input, and whether it may stop what git is doing.
type kind struct {
	name  string
	stdin bool
	stops bool
}

// kinds of a ledger that people work in. A bare repository, the server end,
// has pre-receive alone.
var (
	workKinds = []kind{
		{"pre-commit", false, true},
		{"pre-merge-commit", false, true},
		{"prepare-commit-msg", false, true},
		{"commit-msg", false, true},
		{"pre-push", true, true},
		{"post-merge", false, false},
		{"post-rewrite", true, false},
	}
	serverKinds = []kind{{"pre-receive", true, true}}
)

// mark stands in every hook file of ours, so that it is known again.
const mark = "# written by blotter hooks install"

// keptSuffix names the user's own earlier hook, kept beside ours.
const keptSuffix = ".before-blotter"

// script is the hook file of k. It runs the user's kept hook first, finds the
// program by git's setting blotter.program, then PATH, and hands over. In a hooks
// folder that several repositories share it does nothing where no ledger is.
func script(k kind) string {
	var b strings.Builder
	w := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	w("#!/bin/sh")
	w("%s; blotter hooks remove takes it away", mark)
	w("# A hook that stood here before is kept as %s%s and runs first.", k.name, keptSuffix)
	w(`own="$0%s"`, keptSuffix)
	if k.stdin {
		w(`lines=$(cat)`)
		w(`give() { [ -z "$lines" ] || printf '%%s\n' "$lines"; }`)
		w(`if [ -x "$own" ]; then give | "$own" "$@" || exit $?; fi`)
	} else {
		w(`if [ -x "$own" ]; then "$own" "$@" || exit $?; fi`)
	}
	for _, line := range k.needless() {
		w("%s", line)
	}
	w(`settings=$(git config --get-regexp '^blotter\.(ledger|program)$')`)
	w(`ledger= program=`)
	w(`while read -r key value; do`)
	w(`  case $key in blotter.ledger) ledger=$value ;; blotter.program) program=$value ;; esac`)
	w(`done <<end`)
	w(`$settings`)
	w(`end`)
	w(`[ -n "$ledger" ] || exit 0`)
	w(`[ -x "$program" ] || program=$(command -v blotter)`)
	w(`if [ ! -x "$program" ]; then`)
	for _, line := range missing(k) {
		w(`  echo %s >&2`, shellQuote(line))
	}
	if k.stops {
		w(`  exit 1`)
	} else {
		w(`  exit 0`)
	}
	w(`fi`)
	if k.stdin {
		w(`give | "$program" hooks run %s "$@"`, k.name)
	} else {
		w(`exec "$program" hooks run %s "$@"`, k.name)
	}
	return b.String()
}

// needless are lines that end a hook where the program, which takes longer to
// start than all of this, would have nothing to say: the message is there
// already; the program itself is entering, and judged this message with the
// files (gitrepo.EnteringVariable).
func (k kind) needless() []string {
	switch k.name {
	case "prepare-commit-msg":
		return []string{`[ -z "$2" ] || exit 0`}
	case "commit-msg":
		return []string{`if [ -f "$` + gitrepo.EnteringVariable + `" ] && cmp -s "$` + gitrepo.EnteringVariable + `" "$1"; then exit 0; fi`}
	}
	return nil
}

// missing is what a hook says when the program is not found.
func missing(k kind) []string {
	what := map[string]string{
		"pre-push":     "Not sent",
		"pre-receive":  "Not taken",
		"post-merge":   "Not checked",
		"post-rewrite": "Not checked",
	}[k.name]
	if what == "" {
		what = "Commit stopped"
	}
	return []string{
		what + ": the checks could not run.",
		"  This folder's hooks look for the program blotter where it was installed from, and on the PATH; it is not there.",
		"  If it moved: run  blotter hooks install  here, then do this again. Your edits are safe; nothing was entered.",
	}
}

func shellQuote(s string) string { return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'" }
