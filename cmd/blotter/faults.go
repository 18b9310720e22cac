package main

import (
	"errors"
	"fmt"
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

// fault is an error with lines that say what to type, and with the exit code
// it ends in.
type fault struct {
	err   error
	hints []string
	code  int
}

func (f *fault) Error() string { return f.err.Error() }
func (f *fault) Unwrap() error { return f.err }

// misuse is a fault of typing: exit 2.
func misuse(format string, args ...any) *fault {
	return &fault{err: fmt.Errorf(format, args...), code: exitUsage}
}

// stuck is a fault of the work itself: exit 3.
func stuck(format string, args ...any) *fault {
	return &fault{err: fmt.Errorf(format, args...), code: exitCouldNot}
}

// try adds lines that say what to type.
func (f *fault) try(lines ...string) *fault {
	f.hints = append(f.hints, lines...)
	return f
}
