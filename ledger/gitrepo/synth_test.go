package gitrepo

import (
	"bufio"
	"fmt"
	"io"
	"os/exec"
	"testing"

	"blotter/ledger"
)

// synthesize makes a bare-bones ledger repository in dir by git fast-import:
// n records entered 1,000 a commit, then n/10 commits of one changed record
// each. It is packed and has a commit graph. The shape is that of the figures
// in performance.md (layout h).
func synthesize(t testing.TB, dir string, n int) {
	t.Helper()
	mustGit(t, "", "init", "-q", "-b", "main", dir)
	cmd := exec.Command("git", "-C", dir, "fast-import", "--quiet")
	cmd.Env = testEnviron(t)
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	w := bufio.NewWriterSize(in, 1<<20)
	writeSynthetic(w, n)
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	in.Close()
	if err := cmd.Wait(); err != nil {
		t.Fatal(err)
	}
	mustGit(t, dir, "reset", "-q", "--hard")
	mustGit(t, dir, "-c", "gc.reflogExpire=now", "gc", "-q")
	mustGit(t, dir, "commit-graph", "write", "--reachable")
}

func writeSynthetic(w io.Writer, n int) {
	when := 1_700_000_000
	commit := func(message string) {
		when += 60
		fmt.Fprintf(w, "commit refs/heads/main\nauthor Tiril Aune <tiril@lauvkroken.example> %d +0100\ncommitter Tiril Aune <tiril@lauvkroken.example> %d +0100\ndata %d\n%s\n", when, when, len(message), message)
	}
	file := func(i, version int) {
		b := syntheticRecord(i, version)
		fmt.Fprintf(w, "M 100644 inline %s\ndata %d\n%s\n", syntheticNumber(i).Path(), len(b), b)
	}
	for i := 0; i < n; i += 1000 {
		commit(fmt.Sprintf("Enter sheets from %s\n", syntheticNumber(i)))
		for j := i; j < min(i+1000, n); j++ {
			file(j, 0)
		}
	}
	for k := range n / 10 {
		i := k * 7919 % n
		commit(fmt.Sprintf("%s: det. M. Ostrander\n\nDetermination: %s\n", syntheticNumber(i), syntheticNumber(i)))
		file(i, k+1)
	}
}

func syntheticNumber(i int) ledger.Number {
	return ledger.Number(fmt.Sprintf("LK7-%07d", i))
}

func syntheticRecord(i, version int) []byte {
	var b []byte
	b = fmt.Appendf(b, "specimen: %s\nentry: full\ncollector: Signe Rask\ncoll_no: \"%d\"\ndate: %d.vii.%d\nplace:\n", syntheticNumber(i), i*3, i%28+1, 1950+i%70)
	for f := range 22 {
		b = fmt.Appendf(b, "  field%02d: a few words of %d about the place\n", f, (i*2654435761)>>uint(f%7)&0xffff)
	}
	b = append(b, "determinations:\n- name: Ranunculus acris L.\n  by: Signe Rask\n  date: 1987\n"...)
	if version > 0 {
		b = fmt.Appendf(b, "- name: Ranunculus repens L.\n  by: M. Ostrander\n  date: 2026-01-02\n  why: version %d\n", version)
	}
	return b
}
