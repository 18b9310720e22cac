package main

import (
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	"golang.org/x/term"
)

// env is everything outside the program that a command may touch. Nothing
// below this package reads any of it by itself.
type env struct {
	In       io.Reader
	Out, Err io.Writer
	Now      func() time.Time
	Environ  []string // KEY=value, as os.Environ gives them
	Program  string   // path of the running program, for hooks to call
	Dir      string   // working folder, absolute
	Asks     bool     // a person sits at In and Err: questions can be put
	Screen   bool     // Out is a terminal: grouped messages, colour, tables to its width
	Width    int      // columns to write in, 40 to 100

	// echo, when set, is told each answer read from In. Only scripted tests
	// set it, so that what they see reads as on a terminal.
	echo func(string)
}

// osEnv is the env of a real run.
func osEnv() *env {
	dir, err := os.Getwd()
	if err != nil {
		dir = "."
	}
	program, err := os.Executable()
	if err != nil {
		program = os.Args[0]
	}
	isTerm := func(f *os.File) bool { return term.IsTerminal(int(f.Fd())) }
	return &env{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
		Now: time.Now, Environ: os.Environ(), Program: program, Dir: dir,
		Asks:   isTerm(os.Stdin) && isTerm(os.Stderr),
		Screen: isTerm(os.Stdout),
		Width:  screenWidth(os.Stdout, os.Getenv("COLUMNS")),
	}
}

// getenv is the value of an environment variable; the last one counts.
func (e *env) getenv(key string) string {
	for i := len(e.Environ) - 1; i >= 0; i-- {
		if v, ok := strings.CutPrefix(e.Environ[i], key+"="); ok {
			return v
		}
	}
	return ""
}

// screenWidth is how many columns to write in: the terminal's, between 40 and
// 100 (longer lines are hard to read), or 100 when out is no terminal.
func screenWidth(out *os.File, columns string) int {
	w, err := strconv.Atoi(columns)
	if err != nil || w <= 0 {
		w, _, err = term.GetSize(int(out.Fd()))
		if err != nil {
			return 100
		}
	}
	return min(max(w, 40), 100)
}
