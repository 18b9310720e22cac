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
	err = r.readLog(ctx, out, yield)
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
func (r *Repo) readLog(ctx context.Context, out io.Reader, yield func(history.Commit) error) error {
	cut, err := r.Missing()
	if err != nil {
		return err
	}
	isCut := map[string]bool{}
	for _, id := range cut {
		isCut[id] = true
	}
	in := logReader{Reader: bufio.NewReaderSize(out, 1<<18)}
	for {
		c, raw, err := in.commit()
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

// logReader reads the stream of diff-tree. Its buffers are used again for
// each commit.
type logReader struct {
	*bufio.Reader
	body  []byte
	raw   []rawChange
	sides []rawSide
}

var errLogShort = errors.New("git diff-tree ended too early")

// commit reads one commit and its raw entries, which hold until the next
// call; io.EOF at the end of the stream.
func (in *logReader) commit() (c history.Commit, raw []rawChange, err error) {
	first, err := in.ReadString('\n')
	if err != nil {
		return c, nil, err
	}
	id, ok := strings.CutPrefix(strings.TrimSuffix(strings.TrimLeft(first, "\x00"), "\n"), "commit ")
	if !ok {
		return c, nil, fmt.Errorf("git diff-tree printed %q where a commit begins", first)
	}
	id, _, _ = strings.Cut(id, " ")
	if err := in.readBody(); err != nil {
		return c, nil, err
	}
	if c, _, err = parseCommit(id, in.body); err != nil {
		return c, nil, err
	}
	if b, err := in.Peek(2); err == nil && b[0] == 0 && b[1] == ':' {
		in.Discard(1) // a merge's message is ended by NUL
	}
	in.raw, in.sides = in.raw[:0], in.sides[:0]
	for {
		if b, err := in.Peek(1); err != nil || b[0] != ':' {
			return c, in.raw, nil
		}
		head, err := in.word()
		if err != nil {
			return c, nil, err
		}
		ch, err := parseRaw(head, &in.sides)
		if err != nil {
			return c, nil, err
		}
		if ch.path, err = in.word(); err != nil {
			return c, nil, err
		}
		in.raw = append(in.raw, ch)
	}
}

// word reads up to a NUL.
func (in *logReader) word() (string, error) {
	b, err := in.ReadSlice(0)
	switch {
	case err == nil:
		return string(b[:len(b)-1]), nil
	case errors.Is(err, bufio.ErrBufferFull):
		start := string(b)
		rest, err := in.ReadString(0)
		return start + strings.TrimSuffix(rest, "\x00"), err
	}
	return "", errLogShort
}

// readBody reads a commit's head and message as diff-tree prints them, up to
// a raw entry, the NUL before the next commit, or the end.
func (in *logReader) readBody() error {
	in.body = in.body[:0]
	message := false
	for {
		if b, err := in.Peek(1); err != nil || b[0] == ':' || b[0] == 0 {
			return nil
		}
		start := len(in.body)
		for {
			piece, err := in.ReadSlice('\n')
			in.body = append(in.body, piece...)
			if err == nil {
				break
			}
			if !errors.Is(err, bufio.ErrBufferFull) {
				return errLogShort
			}
		}
		if line := in.body[start:]; message && bytes.HasPrefix(line, []byte("    ")) {
			in.body = append(in.body[:start], line[4:]...)
		}
		message = message || len(in.body)-start == 1
	}
}
