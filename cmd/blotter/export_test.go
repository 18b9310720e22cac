package main

import (
	"archive/zip"
	"io"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/testscript"
)

// cmdUnzip puts the members of a zip file into a folder: unzip FILE DIR
func cmdUnzip(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: unzip FILE DIR")
	}
	z, err := zip.OpenReader(ts.MkAbs(args[0]))
	ts.Check(err)
	defer z.Close()
	for _, f := range z.File {
		r, err := f.Open()
		ts.Check(err)
		data, err := io.ReadAll(r)
		ts.Check(err)
		file := filepath.Join(ts.MkAbs(args[1]), filepath.FromSlash(f.Name))
		ts.Check(os.MkdirAll(filepath.Dir(file), 0o755))
		ts.Check(os.WriteFile(file, data, 0o644))
	}
}
