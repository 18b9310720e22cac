package render

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	xhtml "golang.org/x/net/html"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/renumber"
	"blotter/render/page"
)

// pagesOf are all pages of a site as models.
func pagesOf(t testing.TB, in *Input) (*shelf, []*page.Page) {
	t.Helper()
	s := newShelf(in)
	jobs, err := s.jobs()
	if err != nil {
		t.Fatal(err)
	}
	var out []*page.Page
	for _, j := range jobs {
		if j.data != nil {
			continue
		}
		if j.sheet == nil {
			p, err := j.page()
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, p)
			continue
		}
		d, why, err := in.Reading(context.Background(), j.sheet)
		if err != nil {
			t.Fatal(err)
		}
		st, err := in.Story(context.Background(), j.sheet, d.Record)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, s.sheetOf(j.sheet, d, why, st).page())
	}
	return s, out
}

// TestDemoTwins holds every page of the demo to its twin.
func TestDemoTwins(t *testing.T) {
	s, pages := pagesOf(t, inputOf(t, demoFiles(t)))
	if len(pages) < 100 {
		t.Fatalf("%d pages", len(pages))
	}
	for _, p := range pages {
		if !p.Twinless {
			checkTwin(t, s.site, p)
		}
	}
}

func buildInto(t testing.TB, dir string, in *Input, state []byte) (Report, []byte) {
	t.Helper()
	if err := os.MkdirAll(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	tree := openTree(t, dir)
	rep, next, err := Build(context.Background(), in, tree, state)
	if err != nil {
		t.Fatal(err)
	}
	return rep, next
}

// filesOf reads a folder.
func filesOf(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(p)
		rel, _ := filepath.Rel(dir, p)
		out[filepath.ToSlash(rel)] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func sameFiles(t *testing.T, what string, got, want map[string]string) {
	t.Helper()
	for f := range want {
		if g, ok := got[f]; !ok {
			t.Errorf("%s: %s is missing", what, f)
		} else if g != want[f] {
			t.Errorf("%s: %s differs", what, f)
		}
	}
	for f := range got {
		if _, ok := want[f]; !ok {
			t.Errorf("%s: %s is too much", what, f)
		}
	}
}

// TestLinksResolve follows every link of every page of the demo.
func TestLinksResolve(t *testing.T) {
	dir := t.TempDir()
	buildInto(t, dir, inputOf(t, demoFiles(t)), nil)
	files := filesOf(t, dir)
	ids := map[string]map[string]bool{}
	refs := map[string][]string{}
	for f, text := range files {
		if strings.HasSuffix(f, ".html") {
			ids[f], refs[f] = idsAndLinks(t, text)
		}
	}
	for f, list := range refs {
		for _, ref := range list {
			if strings.HasPrefix(ref, "mailto:") {
				continue
			}
			if strings.HasPrefix(ref, "https://") {
				if !strings.HasPrefix(ref, "https://orcid.org/") && !strings.HasPrefix(ref, "https://herbarium.lauvkroken.example/") {
					t.Errorf("%s leads out to %s", f, ref)
				}
				continue
			}
			to, frag, _ := strings.Cut(ref, "#")
			target := f
			if to != "" {
				target = path.Join(path.Dir(f), to)
			}
			if _, ok := files[target]; !ok {
				t.Errorf("%s leads to %s, which is not there", f, ref)
			} else if frag != "" && strings.HasSuffix(target, ".html") && !ids[target][frag] {
				t.Errorf("%s leads to %s, which has no such place", f, ref)
			}
		}
	}
}

func idsAndLinks(t *testing.T, text string) (map[string]bool, []string) {
	doc, err := xhtml.Parse(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	ids := map[string]bool{}
	var links []string
	var walk func(*xhtml.Node)
	walk = func(n *xhtml.Node) {
		for _, a := range n.Attr {
			switch a.Key {
			case "id":
				if ids[a.Val] {
					t.Errorf("id %s stands twice", a.Val)
				}
				ids[a.Val] = true
			case "href", "src", "action":
				links = append(links, a.Val)
			}
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c)
		}
	}
	walk(doc)
	return ids, links
}

// TestIncrementalEqualsScratch is the law of engineering.md section 4: after
// each of a row of edits, a build over the last site gives the bytes of a
// build from nothing.
func TestIncrementalEqualsScratch(t *testing.T) {
	files := demoFiles(t)
	one := "specimens/000/04/LK7-0000415.yaml"
	if files[one] == "" {
		t.Fatal("the demo has no LK7-0000415")
	}
	dir := filepath.Join(t.TempDir(), "site")
	_, state := buildInto(t, dir, inputOf(t, files), nil)
	edits := []struct {
		name string
		do   func(map[string]string)
		most int // files written
	}{
		{"nothing", func(map[string]string) {}, 0},
		{"one elevation", func(f map[string]string) { f[one] = strings.Replace(f[one], "elevation: 120 m", "elevation: 125 m", 1) }, 8},
		{"one name", func(f map[string]string) {
			f[one] = strings.Replace(f[one], "name: Anemone nemorosa L.", "name: Ranunculus repens L.", 1)
		}, 40},
		{"two exchanged", func(f map[string]string) { swap(t, f, "LK7-0000415", "LK7-0000416") }, 60},
		{"one renumbered", func(f map[string]string) {
			moves := renumber.Of(history.Move{From: "LK7-0000415", To: "LK7-0009901"})
			now, err := moves.Record([]byte(f[one]), "LK7-0009901")
			if err != nil {
				t.Fatal(err)
			}
			f["specimens/000/99/LK7-0009901.yaml"] = string(now)
			f[one] = string(renumber.Stub("LK7-0000415", "LK7-0009901", "Ove Bannister", "2026-11-03", "stuck on another sheet"))
		}, 60},
		{"a sheet gone", func(f map[string]string) { delete(f, one) }, 40},
		{"a name renamed in names/", func(f map[string]string) {
			f["names/Asteraceae.yaml"] = strings.Replace(f["names/Asteraceae.yaml"], "    of: Cicerbita alpina (L.) Wallr.\n", "", 1)
			f["names/Ranunculaceae.yaml"] = strings.Replace(f["names/Ranunculaceae.yaml"], "  - name: Ranunculus repens L.\n", "  - name: Ranunculus repens L.\n    of: Ranunculus acris L.\n    date: 2020-01-01\n", 1)
		}, 5000},
		{"a title", func(f map[string]string) {
			f["blotter.yaml"] = strings.Replace(f["blotter.yaml"], "title: The herbarium", "title: Herbarium", 1)
		}, 5000},
		{"all of a year gone", func(f map[string]string) {
			for p := range maps.Clone(f) {
				if strings.HasPrefix(p, "specimens/000/00/") {
					delete(f, p)
				}
			}
		}, 5000},
	}
	for _, e := range edits {
		e.do(files)
		in := inputOf(t, files)
		var rep Report
		rep, state = buildInto(t, dir, in, state)
		if rep.Written > e.most {
			t.Errorf("%s: %d files written, at most %d need it", e.name, rep.Written, e.most)
		}
		fresh := t.TempDir()
		buildInto(t, fresh, in, nil)
		sameFiles(t, e.name, filesOf(t, dir), filesOf(t, fresh))
	}
}

// swap lets two sheets exchange their numbers.
func swap(t *testing.T, files map[string]string, a, b ledger.Number) {
	t.Helper()
	moves := renumber.Of(history.Move{From: a, To: b}, history.Move{From: b, To: a})
	was := map[ledger.Number]string{a: files[a.Path()], b: files[b.Path()]}
	for from, to := range map[ledger.Number]ledger.Number{a: b, b: a} {
		now, err := moves.Record([]byte(was[from]), to)
		if err != nil {
			t.Fatal(err)
		}
		files[to.Path()] = string(now)
	}
}

// TestUnchangedPagesAreNotMade looks at which pages a build over its own site
// makes again: those without a key, no other.
func TestUnchangedPagesAreNotMade(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	in := inputOf(t, demoFiles(t))
	_, state := buildInto(t, dir, in, nil)
	b := &build{in: in, out: openTree(t, dir), shelf: newShelf(in)}
	if err := b.begin(state); err != nil {
		t.Fatal(err)
	}
	jobs, err := b.shelf.jobs()
	if err != nil {
		t.Fatal(err)
	}
	left, err := b.unchanged(context.Background(), jobs)
	if err != nil {
		t.Fatal(err)
	}
	for _, j := range left {
		if j.key != (pageKey{}) {
			t.Errorf("%s is made again", j.name)
		}
	}
}

// TestForeignFilesStay keeps what no build made, and refuses to write over it.
func TestForeignFilesStay(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "CNAME"), []byte("herbarium.example\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	files := demoFiles(t)
	_, state := buildInto(t, dir, inputOf(t, files), nil)
	buildInto(t, dir, inputOf(t, files), state)
	if got := filesOf(t, dir)["CNAME"]; got != "herbarium.example\n" {
		t.Errorf("CNAME is now %q", got)
	}
	other := t.TempDir()
	if err := os.WriteFile(filepath.Join(other, "index.html"), []byte("mine"), 0o666); err != nil {
		t.Fatal(err)
	}
	_, _, err := Build(context.Background(), inputOf(t, files), openTree(t, other), nil)
	var foreign *Foreign
	if !errors.As(err, &foreign) || foreign.Path != "index.html" {
		t.Errorf("building over a foreign index.html gives %v", err)
	}
	if got := filesOf(t, other); len(got) != 1 || got["index.html"] != "mine" {
		t.Errorf("%d files after a refusal", len(got))
	}
}

// TestBrokenOff finishes a build that stopped on the way: some pages written,
// the mark still there.
func TestBrokenOff(t *testing.T) {
	files := demoFiles(t)
	dir := filepath.Join(t.TempDir(), "site")
	_, state := buildInto(t, dir, inputOf(t, files), nil)
	for _, f := range []string{"specimens/000/04/LK7-0000415.html", "names/anemone.html"} {
		if err := os.WriteFile(filepath.Join(dir, filepath.FromSlash(f)), []byte("half"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, unfinishedFile), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	buildInto(t, dir, inputOf(t, files), state)
	fresh := t.TempDir()
	buildInto(t, fresh, inputOf(t, files), nil)
	sameFiles(t, "finished", filesOf(t, dir), filesOf(t, fresh))

	if err := os.Remove(filepath.Join(dir, "names", "anemone.html")); err != nil {
		t.Fatal(err)
	}
	_, state = buildInto(t, dir, inputOf(t, files), state)
	sameFiles(t, "a page taken away", filesOf(t, dir), filesOf(t, fresh))
	if bytes.Contains(state, []byte(dir)) {
		t.Error("the state holds a path of this machine")
	}
}
