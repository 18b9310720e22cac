package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// asker reads a person's answers line by line; an interruption is seen while
// it waits. It reads only while a question stands: between questions the
// terminal is an editor's.
type asker struct {
	env     *env
	in      *bufio.Reader
	lines   chan string // closed at the end of the input
	waiting bool        // a line was asked for and has not come
}

// typedAhead is within what time an answer comes that was there before its
// question: of a paste of several lines, or of whoever types ahead. The
// terminal showed it above the question, so it is shown once more behind it:
// else nobody sees which line answered which question.
const typedAhead = 20 * time.Millisecond

func (e *env) asker() *asker {
	return &asker{env: e, in: bufio.NewReader(e.In), lines: make(chan string)}
}

// wantLine begins to read one line, if that has not begun yet.
func (a *asker) wantLine() {
	if a.waiting {
		return
	}
	a.waiting = true
	go func() {
		line, err := a.in.ReadString('\n')
		if line == "" && err != nil {
			close(a.lines)
			return
		}
		a.lines <- strings.TrimRight(line, "\r\n")
	}()
}

// ask puts a question and waits for a line of letters; a line with the signs of
// arrow keys, or in another encoding, is asked for again, so that nothing of the
// kind gets into a record. The end of the input is io.EOF, Ctrl-C is
// errInterrupted.
func (a *asker) ask(ctx context.Context, question string) (string, error) {
	for {
		line, err := a.askOnce(ctx, question)
		why := unfit(line)
		if err != nil || why == "" {
			return line, err
		}
		a.env.tell("%s", wrap(why, a.env.Width, ""))
	}
}

// unfit says why a line is no answer; "" when it is one.
func unfit(line string) string {
	switch {
	case !utf8.ValidString(line):
		return "This line has letters in another encoding than UTF-8; blotter doctor says what to set. Nothing of it was taken; once more:"
	case strings.ContainsFunc(line, func(r rune) bool { return r != '\t' && unicode.IsControl(r) }):
		return "Arrow keys do not move in this line; the Backspace key takes letters back. Nothing of it was taken; once more:"
	}
	return ""
}

func (a *asker) askOnce(ctx context.Context, question string) (string, error) {
	fmt.Fprint(a.env.Err, question)
	put := a.env.Now()
	a.wantLine()
	select {
	case <-ctx.Done():
		fmt.Fprintln(a.env.Err)
		return "", errInterrupted
	case line, ok := <-a.lines:
		if !ok {
			fmt.Fprintln(a.env.Err)
			return "", io.EOF
		}
		a.waiting = false
		if line == "\x03" {
			fmt.Fprintln(a.env.Err)
			return "", errInterrupted
		}
		switch {
		case a.env.echo != nil:
			a.env.echo(line)
		case a.env.Now().Sub(put) < typedAhead:
			fmt.Fprintln(a.env.Err, line)
		}
		return strings.TrimSpace(line), nil
	}
}

// yesNo asks until it is answered yes or no; Enter alone, and the end of the
// input, are the answer in capitals.
func (a *asker) yesNo(ctx context.Context, question string, enter bool) (bool, error) {
	choice := "[y/N]"
	if enter {
		choice = "[Y/n]"
	}
	for {
		answer, err := a.ask(ctx, question+" "+choice+" ")
		if err == io.EOF {
			return false, nil
		}
		if err != nil {
			return false, err
		}
		switch strings.ToLower(answer) {
		case "":
			return enter, nil
		case "y", "yes":
			return true, nil
		case "n", "no":
			return false, nil
		}
		a.env.tell("Answer y or n.")
	}
}

// consent asks before something that was not named one by one. With --yes it
// is given; with --dry-run, or when the answer is no, it is not; without a
// person to ask, the rehearsal stands and the command ends in exit 2.
func (c *call) consent(ctx context.Context, question string) (bool, error) {
	switch {
	case c.opts.on("dry-run"):
		c.tell("Nothing was changed: --dry-run.")
		return false, nil
	case c.opts.on("yes"):
		return true, nil
	case !c.Asks:
		return false, misuse("nothing was changed: there was nobody to ask %q", question).
			try("To answer yes beforehand, add --yes")
	}
	ok, err := c.asker().yesNo(ctx, question, false)
	if err == nil && !ok {
		c.tell("Nothing was changed.")
	}
	return ok, err
}
