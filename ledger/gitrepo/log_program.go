package gitrepo

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os/exec"
	"strings"

	"blotter/ledger/history"
)

// logProgram is Log by the git program: rev-list gives the order, diff-tree
// the differences and the commits themselves, in one stream.
func (r *Repo) logProgram(ctx context.Context, tips, known []string, yield func(history.Commit) error) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	list := r.command(ctx, nil, "rev-list", "--topo-order", "--stdin")
	list.Stdin = strings.NewReader(revInput(tips, known))
	args := []string{"diff-tree", "--stdin", "--root", "-r", "-c", "--raw", "-z", "--no-renames", "--no-abbrev", "--always", "--pretty=raw", "--encoding=none"}
	if r.prefix != "" {
		args = append(args, "--", ":(top,literal)"+r.prefix)
	}
	diff := r.command(ctx, nil, args...)
	var listText, diffText bytes.Buffer
	list.Stderr, diff.Stderr = &listText, &diffText
	pipe, err := list.StdoutPipe()
	if err != nil {
		return fmt.Errorf("git rev-list: %w", err)
	}
	diff.Stdin = pipe
	out, err := diff.StdoutPipe()
	if err != nil {
		return fmt.Errorf("git diff-tree: %w", err)
	}
	if err := startBoth(list, diff); err != nil {
		return err
	}
	err = r.readLog(ctx, bufio.NewReaderSize(out, 1<<18), yield)
	if err != nil {
		cancel()
	}
	diffErr, listErr := diff.Wait(), list.Wait()
	if err != nil {
		return err
	}
	if err := failed(ctx, "rev-list", listText.String(), listErr); err != nil {
		return err
	}
	return failed(ctx, "diff-tree", diffText.String(), diffErr)
}

// startBoth starts two commands, the second reading from the first.
func startBoth(first, second *exec.Cmd) error {
	if err := first.Start(); err != nil {
		return fmt.Errorf("git rev-list: %w", err)
	}
	if err := second.Start(); err != nil {
		first.Process.Kill()
		first.Wait()
		return fmt.Errorf("git diff-tree: %w", err)
	}
	return nil
}

// revInput is the standard input of rev-list --stdin.
func revInput(tips, known []string) string {
	var b strings.Builder
	for _, id := range tips {
		b.WriteString(id + "\n")
	}
	for _, id := range known {
		b.WriteString("^" + id + "\n")
	}
	return b.String()
}

// readLog reads what diff-tree prints: for each commit the line "commit ID",
// its head, its message indented by four, then raw entries ended by NUL.
func (r *Repo) readLog(ctx context.Context, in *bufio.Reader, yield func(history.Commit) error) error {
	cut, err := r.Missing()
	if err != nil {
		return err
	}
	isCut := map[string]bool{}
	for _, id := range cut {
		isCut[id] = true
	}
	for {
		c, raw, err := readLogCommit(in)
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		if isCut[c.ID] {
			c.Parents = nil
		}
		if err := r.withTouches(ctx, &c, r.below(raw)); err != nil {
			return err
		}
		if err := yield(c); err != nil {
			return err
		}
	}
}

// readLogCommit reads one commit of the stream; io.EOF at its end.
func readLogCommit(in *bufio.Reader) (c history.Commit, raw []rawChange, err error) {
	first, err := in.ReadString('\n')
	if err != nil {
		return c, nil, err
	}
	id, ok := strings.CutPrefix(strings.TrimSuffix(strings.TrimLeft(first, "\x00"), "\n"), "commit ")
	if !ok {
		return c, nil, fmt.Errorf("git diff-tree printed %q where a commit begins", first)
	}
	id, _, _ = strings.Cut(id, " ")
	body, err := readLogBody(in)
	if err != nil {
		return c, nil, err
	}
	if c, _, err = parseCommit(id, body); err != nil {
		return c, nil, err
	}
	if b, err := in.Peek(2); err == nil && b[0] == 0 && b[1] == ':' {
		in.Discard(1) // a merge's message is ended by NUL
	}
	var arena []rawSide
	for {
		if b, err := in.Peek(1); err != nil || b[0] != ':' {
			return c, raw, nil
		}
		head, err := readWord(in)
		if err != nil {
			return c, nil, err
		}
		ch, err := parseRaw(head, &arena)
		if err != nil {
			return c, nil, err
		}
		if ch.path, err = readWord(in); err != nil {
			return c, nil, err
		}
		raw = append(raw, ch)
	}
}

// readWord reads up to a NUL.
func readWord(in *bufio.Reader) (string, error) {
	if b, err := in.ReadSlice(0); err == nil {
		return string(b[:len(b)-1]), nil
	} else if errors.Is(err, bufio.ErrBufferFull) {
		rest, err := in.ReadString(0)
		return string(b) + strings.TrimSuffix(rest, "\x00"), err
	}
	return "", errors.New("git diff-tree ended too early")
}

// readLogBody reads a commit's head and message as diff-tree prints them, up
// to a raw entry, the NUL before the next commit, or the end.
func readLogBody(in *bufio.Reader) ([]byte, error) {
	var body []byte
	message := false
	for {
		if b, err := in.Peek(1); err != nil || b[0] == ':' || b[0] == 0 {
			return body, nil
		}
		line, err := in.ReadBytes('\n')
		if err != nil {
			return nil, fmt.Errorf("git diff-tree ended too early: %w", err)
		}
		if message {
			line = bytes.TrimPrefix(line, []byte("    "))
		}
		message = message || len(line) == 1
		body = append(body, line...)
	}
}
