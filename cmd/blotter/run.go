package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
)

// start runs the program until it is done or interrupted, and returns its
// exit code. A second Ctrl-C ends the process at once. A terminal that is
// closed, and a computer that is shut down, interrupt it too: what was typed is
// kept. They may say so twice, the system and the shell, so the second counts
// for nothing.
func start(args []string, e *env) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	context.AfterFunc(ctx, stop)
	signals := []os.Signal{syscall.SIGTERM}
	if !signal.Ignored(syscall.SIGHUP) { // by nohup
		signals = append(signals, syscall.SIGHUP)
	}
	ctx, end := signal.NotifyContext(ctx, signals...)
	defer end()
	return run(ctx, args, e)
}

// run is the program: args as the system gives them, the result an exit code.
func run(ctx context.Context, args []string, e *env) int {
	if e.Screen {
		e.Out = cleanWriter{e.Out}
	}
	if e.Asks {
		e.Err = cleanWriter{e.Err}
	}
	cmd, rest, err := choose(args[1:])
	if err != nil {
		return e.end(nil, err)
	}
	p, err := parse(cmd, rest)
	switch {
	case p.opts.bools["help"] && err == nil:
		cmd, p.args = helpCommand(), []string{cmd.Name}
	case p.opts.bools["version"] && err == nil:
		cmd, p.args = versionCommand(), nil
	}
	if err != nil {
		return e.end(cmd, err)
	}
	if p.opts.bools["quiet"] && cmd.Family == famEnter {
		e.Out = io.Discard
	}
	if dir := p.opts.texts["ledger"]; len(dir) > 0 {
		e.Dir = inDir(e.Dir, dir[0])
	}
	c := &call{env: e, cmd: cmd, args: p.args, opts: p.opts}
	defer c.close()
	err = cmd.Run(ctx, c)
	if ctx.Err() != nil && err != nil {
		err = errInterrupted
	}
	return e.end(cmd, err)
}

// inDir is path as seen from dir.
func inDir(dir, path string) string {
	if filepath.IsAbs(path) {
		return filepath.Clean(path)
	}
	return filepath.Join(dir, path)
}

// choose finds the command among the arguments; common flags may stand before it.
func choose(args []string) (*command, []string, error) {
	var before []string
	for i := 0; i < len(args); i++ {
		arg := args[i]
		switch {
		case arg == "--help" || arg == "-h":
			return helpCommand(), append(before, args[i+1:]...), nil
		case arg == "--version":
			return versionCommand(), nil, nil
		case arg == "--ledger" && i+1 < len(args):
			before = append(before, arg, args[i+1])
			i++
		case strings.HasPrefix(arg, "--ledger="), arg == "-q", arg == "--quiet":
			before = append(before, arg)
		case strings.HasPrefix(arg, "-"):
			_, err := lookFlag("all", commonFlags, arg)
			if err == nil {
				err = misuse("%s stands before a command that is missing", arg)
			}
			return nil, nil, err
		default:
			cmd := findCommand(arg)
			if cmd == nil {
				return nil, nil, unknownCommand(arg)
			}
			return cmd, append(before, args[i+1:]...), nil
		}
	}
	return frontCommand(), before, nil
}

// unknownCommand answers a word that is no command with the nearest that is.
func unknownCommand(word string) error {
	var names []string
	for _, c := range commands() {
		if !c.Hidden {
			names = append(names, c.Name)
		}
	}
	f := misuse("no command %q", word)
	if near := nearest(word, names); near != "" {
		f = misuse("no command %q; did you mean %s?", word, near)
	}
	return f.try("All commands: blotter help all")
}

// end says what went wrong, if anything, and gives the exit code.
func (e *env) end(cmd *command, err error) int {
	switch {
	case err == nil:
		return exitFine
	case errors.Is(err, errFindings):
		return exitFindings
	case errors.Is(err, errInterrupted), errors.Is(err, context.Canceled):
		fmt.Fprintln(e.Err, "interrupted")
		return exitInterrupted
	}
	name := "blotter"
	if cmd != nil && cmd.Name != "" {
		name += " " + cmd.Name
	}
	fmt.Fprintf(e.Err, "%s: %v\n", name, err)
	var f *fault
	isFault := errors.As(err, &f)
	writes := cmd != nil && (cmd.Family == famEnter || cmd.Family == famMake)
	if writes && (!isFault || f.code == exitCouldNot) && !strings.Contains(err.Error(), "no room left") && e.diskIsFull(err) {
		fmt.Fprintln(e.Err, "  The disk is full. Make room on it, then type the command again.")
	}
	if !isFault {
		return exitCouldNot
	}
	for _, line := range f.hints {
		fmt.Fprintf(e.Err, "  %s\n", line)
	}
	if len(f.said) > 0 {
		fmt.Fprintf(e.Err, "  In the words of %s:\n", f.whose)
	}
	for _, line := range f.said {
		fmt.Fprintf(e.Err, "%s%s\n", quoteMark, line)
	}
	return f.code
}
