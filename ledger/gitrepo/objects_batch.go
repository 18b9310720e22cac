package gitrepo

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"os/exec"
	"strconv"
	"strings"
)

// batch reads objects through one running git cat-file --batch.
type batch struct {
	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader

	words *bytes.Buffer // of git's when it gives up
}

func (r *Repo) openBatch() (objects, error) {
	cmd := r.command(context.Background(), nil, "cat-file", "--batch")
	in, err := cmd.StdinPipe()
	if err != nil {
		return nil, fmt.Errorf("git cat-file: %w", err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, fmt.Errorf("git cat-file: %w", err)
	}
	var words bytes.Buffer
	cmd.Stderr = &words
	if err := cmd.Start(); err != nil {
		return nil, fmt.Errorf("git cat-file: %w", err)
	}
	return &batch{cmd, in, bufio.NewReaderSize(out, 64<<10), &words}, nil
}

func (b *batch) close() {
	b.in.Close()
	b.cmd.Process.Kill()
	b.cmd.Wait()
}

func (b *batch) read(id string, limit int64) (string, []byte, error) {
	if _, err := io.WriteString(b.in, id+"\n"); err != nil && b.out.Buffered() > 0 {
		return "", nil, fmt.Errorf("git cat-file: %w", err)
	}
	line, err := b.out.ReadString('\n')
	if err != nil {
		b.cmd.Wait() // it has given up, and said why
		return "", nil, &ProgramError{Verb: "cat-file", Code: b.cmd.ProcessState.ExitCode(), Text: b.words.String(), err: err}
	}
	f := strings.Fields(line)
	if len(f) != 3 {
		return "", nil, errNoObject // "ID missing"
	}
	size, err := strconv.ParseInt(f[2], 10, 64)
	if err != nil {
		return "", nil, fmt.Errorf("git cat-file: %q", line)
	}
	if limit > 0 && size > limit {
		if _, err := io.CopyN(io.Discard, b.out, size+1); err != nil {
			return "", nil, fmt.Errorf("git cat-file: %w", err)
		}
		return "", nil, errTooLarge
	}
	body := make([]byte, size)
	if _, err := io.ReadFull(b.out, body); err != nil {
		return "", nil, fmt.Errorf("git cat-file: %w", err)
	}
	if _, err := b.out.Discard(1); err != nil {
		return "", nil, fmt.Errorf("git cat-file: %w", err)
	}
	return f[1], body, nil
}
