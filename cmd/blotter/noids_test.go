package main

import (
	"bytes"
	"encoding/hex"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// cmdNoIDs looks for the id of every object of the ledger in the current
// folder, whole or as its first ten digits, in every file of a folder and,
// when that is a bare repository, in every object of it: noids DIR
func cmdNoIDs(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: noids DIR")
	}
	dir := ts.MkAbs(args[0])
	private, public := objectIDs(ts, ts.MkAbs(".")), map[string]bool{}
	var texts [][]byte
	if _, err := os.Stat(filepath.Join(dir, "HEAD")); err == nil {
		public = objectIDs(ts, dir)
		texts = append(texts, gitOutput(ts, dir, "cat-file", "--batch", "--batch-all-objects"))
	} else {
		ts.Check(filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
			if err != nil || e.IsDir() {
				return err
			}
			b, err := os.ReadFile(p)
			texts = append(texts, b, []byte(p))
			return err
		}))
	}
	begins := map[string]bool{}
	for id := range private {
		if !public[id] { // a file that may be public as it is has one id in both
			raw, err := hex.DecodeString(id)
			ts.Check(err)
			begins[id[:10]], begins[string(raw[:10])] = true, true
		}
	}
	if len(begins) == 0 || len(texts) == 0 {
		ts.Fatalf("noids: nothing to look for, or nowhere to look")
	}
	for _, text := range texts {
		for i := range len(text) - 9 {
			if begins[string(text[i:i+10])] {
				ts.Fatalf("noids: an id of the ledger stands in %s: %q", dir, bytes.TrimSpace(text[max(0, i-40):min(len(text), i+50)]))
			}
		}
	}
}

// objectIDs are the ids of every object of a repository.
func objectIDs(ts *testscript.TestScript, dir string) map[string]bool {
	ids := map[string]bool{}
	for line := range strings.Lines(string(gitOutput(ts, dir, "cat-file", "--batch-check", "--batch-all-objects"))) {
		ids[strings.Fields(line)[0]] = true
	}
	return ids
}

func gitOutput(ts *testscript.TestScript, dir string, args ...string) []byte {
	out, err := exec.Command("git", append([]string{"-C", dir}, args...)...).Output()
	ts.Check(err)
	return out
}
