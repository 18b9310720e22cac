package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"blotter/ledger/gitrepo"
)

// Exit codes. They never change; the README and every help text list them.
const (
	exitFine        = 0
	exitFindings    = 1
	exitUsage       = 2
	exitCouldNot    = 3
	exitInterrupted = 130
)

// exitMeanings says in words what each exit code means.
var exitMeanings = []struct {
	code    int
	meaning string
}{
	{exitFine, "fine"},
	{exitFindings, "findings: errors in the ledger, with --strict warnings too"},
	{exitUsage, "the command was typed wrongly, or a question had nobody to answer it"},
	{exitCouldNot, "the work could not be done"},
	{exitInterrupted, "interrupted; nothing half-written"},
}

// errFindings ends a command that has shown its findings: exit 1, no more words.
var errFindings = errors.New("findings")

// errInterrupted ends a command whose person pressed Ctrl-C: exit 130.
var errInterrupted = errors.New("interrupted")

// fault is an error with lines that say what to type, with the words of another
// program where they are its cause, and with the exit code it ends in.
type fault struct {
	err   error
	hints []string
	whose string   // the program that said
	said  []string // its own words: shown as such, since they may be of its trade
	code  int
}

func (f *fault) Error() string { return f.err.Error() }
func (f *fault) Unwrap() error { return f.err }

// misuse is a fault of typing: exit 2.
func misuse(format string, args ...any) *fault {
	return &fault{err: fmt.Errorf(format, args...), code: exitUsage}
}

// stuck is a fault of the work itself: exit 3. Where the git program is its
// cause, its words stand apart.
func stuck(format string, args ...any) *fault {
	f := &fault{code: exitCouldNot}
	for i, arg := range args {
		err, ok := arg.(error)
		var program *gitrepo.ProgramError
		if !ok || !errors.As(err, &program) || errors.Is(err, gitrepo.ErrLocked) {
			continue
		}
		args[i] = toldApart{err, strings.Replace(err.Error(), program.Error(), "the git program could not do it", 1)}
		if strings.Contains(program.Text, "dubious ownership") {
			f.try("The folder belongs to another account of this computer. If it is to be worked in from this one, too, type the line that git names.")
		}
		f.quote("the git program", strings.Split(strings.TrimSpace(program.Text), "\n")...)
	}
	f.err = fmt.Errorf(format, args...)
	if slices.ContainsFunc(args, lacksObject) {
		f.try("blotter doctor --fix", "looks what a power cut or a bad disk has taken, and asks before it mends")
	}
	return f
}

// lacksObject reports whether what is told of is an object of git's that lies
// nowhere.
func lacksObject(arg any) bool {
	err, ok := arg.(error)
	return ok && errors.Is(err, gitrepo.ErrNoObject)
}

// toldApart is an error whose last cause is told elsewhere.
type toldApart struct {
	error
	words string
}

func (e toldApart) Error() string { return e.words }
func (e toldApart) Unwrap() error { return e.error }

// quote adds the words of another program, which stand in a block of their own.
func (f *fault) quote(whose string, words ...string) *fault {
	for _, w := range words {
		w = strings.Map(func(r rune) rune { // nothing in it moves the cursor or sets a colour
			if unicode.IsControl(r) && r != '\t' {
				return -1
			}
			return r
		}, w)
		if w = strings.TrimRight(w, " \t"); w != "" {
			f.whose, f.said = whose, append(f.said, w)
		}
	}
	return f
}

// quoteMark begins a line of another program's own words.
const quoteMark = "  | "

// try adds lines that say what to type.
func (f *fault) try(lines ...string) *fault {
	f.hints = append(f.hints, lines...)
	return f
}
