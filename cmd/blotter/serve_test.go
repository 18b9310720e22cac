package main

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
)

// smallDesk is the small ledger of testdata, entered, in a folder of its own.
func smallDesk(t *testing.T) *desk {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing and CI=true")
		}
		t.Skip("git is missing: the ledger would have no history")
	}
	dir := filepath.Join(t.TempDir(), "herbarium")
	e := &env{In: strings.NewReader(""), Out: &strings.Builder{}, Err: &strings.Builder{}, Dir: filepath.Dir(dir), Width: 100, Program: os.Args[0],
		Now:     func() time.Time { return time.Date(2026, 11, 3, 9, 40, 0, 0, time.UTC) },
		Environ: append(demoEnviron(os.Environ()), "HOME="+t.TempDir())}
	do := func(args ...string) {
		t.Helper()
		if code := run(context.Background(), append([]string{"blotter"}, args...), e); code != exitFine {
			t.Fatalf("blotter %s: exit %d: %s%s", strings.Join(args, " "), code, e.Out, e.Err)
		}
	}
	do("init", dir, "--code", "LK7", "--name", "Lauvkroken Museum", "--no-hooks")
	files, err := txtar.ParseFile(filepath.Join(smallLedger, "small.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files.Files {
		file := filepath.Join(dir, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	e.Dir = dir
	do("enter", "--yes")
	p, err := parse(serveCommand(), nil)
	if err != nil {
		t.Fatal(err)
	}
	d, err := (&call{env: e, cmd: serveCommand(), opts: p.opts}).desk()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// TestServeFollowsTheFolder asks for a page, changes its file, asks again, and
// asks as a page of another site would.
func TestServeFollowsTheFolder(t *testing.T) {
	d := smallDesk(t)
	ctx := t.Context()
	s := &showing{desk: d, dir: filepath.Join(d.repo.StateDir(), "serve")}
	if err := s.build(ctx); err != nil {
		t.Fatal(err)
	}
	stop, err := s.watch(ctx)
	if err != nil {
		t.Fatal(err)
	}
	defer stop()
	handler := s.handler(ctx)
	ask := func(host, path string) (int, string) {
		r := httptest.NewRequest(http.MethodGet, path, nil)
		r.Host = host
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		return w.Code, w.Body.String()
	}
	const page = "/specimens/000/04/LK7-0000482.html"
	if code, body := ask("127.0.0.1:4180", page); code != http.StatusOK || !strings.Contains(body, "Unfertilised hay meadow") {
		t.Fatalf("code %d, page:\n%s", code, body)
	}
	if code, body := ask("localhost:4180", "/nowhere.html"); code != http.StatusNotFound || !strings.Contains(body, "<main") {
		t.Errorf("a page that is not there: code %d\n%s", code, body)
	}
	if code, body := ask("herbarium.example:4180", page); code != http.StatusForbidden || strings.Contains(body, "hay meadow") {
		t.Errorf("asked under a foreign name: code %d\n%s", code, body)
	}
	if code, _ := ask("127.0.0.1:4180", "/../../HEAD"); code == http.StatusOK {
		t.Error("a file outside the site is given")
	}
	file := filepath.Join(d.root, "specimens", "000", "04", "LK7-0000482.yaml")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(text), "Unfertilised hay", "Fertilised hay", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	for until := time.Now().Add(20 * time.Second); ; time.Sleep(50 * time.Millisecond) {
		_, body := ask("127.0.0.1:4180", page)
		if strings.Contains(body, "Fertilised hay") {
			break
		}
		if time.Now().After(until) {
			t.Fatal("the page does not follow its file")
		}
	}
}
