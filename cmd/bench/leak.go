package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/gitrepo"
	"blotter/ledger/public"
)

// measureLeak looks through the whole site of the ledger, pages, twins and
// data, for the values of as many sheets as a hundredth, beside
// copying the same bytes. again: the files were looked through before and
// no value is new.
func measureLeak(again bool) func(s stage) (ours, peer cost, err error) {
	return func(s stage) (ours, peer cost, err error) {
		if err := s.noOutput(); err != nil {
			return ours, peer, err
		}
		if _, err := s.ours("publish", "--to", s.out, "--quiet").run(); err != nil {
			return ours, peer, err
		}
		state := filepath.Join(s.work, "leak-state")
		os.Remove(state)
		copied := filepath.Join(s.work, "copied")
		defer os.RemoveAll(copied)
		peerWork := s.piece("copy", s.out, copied)
		peerWork.prepare = func() error { return os.RemoveAll(copied) }
		if !again {
			return alternate(s.rounds, s.piece("leak", s.out), peerWork)
		}
		if _, err := s.piece("leak", s.out, state).run(); err != nil {
			return ours, peer, err
		}
		return alternate(s.rounds, s.piece("leak", s.out, state), peerWork)
	}
}

// withheldSource is every hundredth record of a ledger, marked as sensitive and
// grown elsewhere, so that the site tells nothing of them.
type withheldSource struct{ ledger.Source }

func (w withheldSource) Files(ctx context.Context) ([]ledger.File, error) {
	all, err := w.Source.Files(ctx)
	var out []ledger.File
	for _, f := range all {
		n, ok := ledger.NumberOfPath(f.Path)
		if !ok || strings.HasSuffix(string(n), "00") {
			out = append(out, f)
		}
	}
	return out, err
}

var position = regexp.MustCompile(`position: 6([0-9.]+), `)

var elsewhere = regexp.MustCompile(`(?m)^((?:  district|  locality|habitat|    text|remarks): ).*$`)

func (w withheldSource) Read(ctx context.Context, f ledger.File) ([]byte, error) {
	b, err := w.Source.Read(ctx, f)
	if _, ok := ledger.NumberOfPath(f.Path); ok && err == nil {
		b = elsewhere.ReplaceAllFunc(b, func(line []byte) []byte {
			sum := sha256.Sum256(line)
			return append(elsewhere.FindSubmatch(line)[1], fmt.Sprintf(`"%d steps from Trollabotn%d, by Gjuvet%d and the falls"`, sum[0], sum[1], sum[2])...)
		})
		b = position.ReplaceAll(b, []byte("position: 5$1, 3"))
		b = bytes.Replace(b, []byte("coll_no: \""), []byte("coll_no: \"77"), 1)
		b = append(b, "sensitive: {why: measured, category: \"2\"}\n"...)
	}
	return b, err
}

// leakPiece looks through the files below out. With a state file only what is new is looked for, and
// what was looked through is noted there.
func leakPiece(out, state string) error {
	ctx := context.Background()
	src := withheldSource{gitrepo.Folder(".")}
	b, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		return err
	}
	secrets, err := public.Of(b).Secrets(ctx, b.Loader(src, nil))
	if err != nil {
		return err
	}
	var o public.ScanOptions
	if state != "" {
		o.State, _ = os.ReadFile(state)
	}
	scan := secrets.Scanner(o)
	var files []string
	err = filepath.WalkDir(out, func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !strings.Contains(p, "/data/map/") {
			files = append(files, p)
		}
		return err
	})
	if err != nil {
		return err
	}
	faults := make([]error, runtime.GOMAXPROCS(0))
	var wait sync.WaitGroup
	for k := range faults {
		wait.Go(func() {
			for i := k; i < len(files); i += len(faults) {
				data, err := os.ReadFile(files[i])
				if err != nil {
					faults[k] = err
					return
				}
				sum := sha256.Sum256(data)
				scan.ScanSum(files[i][len(out):], hex.EncodeToString(sum[:10]), data)
			}
		})
	}
	wait.Wait()
	report, err := scan.Report(ctx)
	if err != nil {
		return err
	}
	if state != "" {
		faults = append(faults, os.WriteFile(state, scan.State(), 0o666))
	}
	if n := len(report.Leaks); n > 0 {
		return fmt.Errorf("%d values are found in a site that has none, the first in %s: %s", n, report.Leaks[0].File, report.Leaks[0].Field)
	}
	return errors.Join(faults...)
}

// copyAll copies every file below from: the peer of the leak test.
func copyAll(from, to string) error {
	return filepath.WalkDir(from, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		target := filepath.Join(to, p[len(from):])
		if d.IsDir() {
			return os.MkdirAll(target, 0o777)
		}
		data, err := os.ReadFile(p)
		if err != nil {
			return err
		}
		return os.WriteFile(target, data, 0o666)
	})
}
