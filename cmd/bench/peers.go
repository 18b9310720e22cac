package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"

	"blotter/ledger"
)

// pagesOf lists the pages that publishing wrote, and the mean size of a
// specimen's page.
func pagesOf(out string) (paths []string, mean int, err error) {
	total := 0
	err = filepath.WalkDir(filepath.Join(out, ledger.SpecimensDir), func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(p, ".html") {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		paths, total = append(paths, p), total+int(info.Size())
		return nil
	})
	if err == nil && len(paths) == 0 {
		err = errors.New("publishing wrote no specimen pages")
	}
	if err != nil {
		return nil, 0, err
	}
	return paths, total / len(paths), nil
}

// hugoLayout lays out one record as a page; filler brings it to the size of
// ours.
const hugoLayout = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{{ .Title }}</title></head><body><main>
<h1>{{ .Title }}</h1><dl>{{ range $k, $v := .Params.fields }}<dt>{{ $k }}</dt><dd>{{ $v }}</dd>{{ end }}</dl>
<ol>{{ range .Params.names }}<li><i>{{ .name }}</i> {{ .by }}, {{ .date }}. {{ .why }}</li>{{ end }}</ol>
{{ .Content }}<p>%s</p></main></body></html>
`

// hugo makes a site of the same records with Debian's hugo: Markdown with
// front matter, one layout, no lists, no taxonomies, no sitemap.
func hugo(s stage) (work, error) {
	if err := has("hugo"); err != nil {
		return work{}, err
	}
	_, mean, err := pagesOf(s.out)
	if err != nil {
		return work{}, err
	}
	site := filepath.Join(s.work, fmt.Sprintf("hugo-%d", s.n))
	public := filepath.Join(site, "public")
	w := work{name: "hugo", dir: site, argv: []string{"hugo", "--quiet", "--disableKinds", "taxonomy,term,sitemap,RSS,home,section,404"},
		prepare: func() error { return os.RemoveAll(public) }}
	if _, err := os.Stat(site); err == nil {
		return w, nil
	}
	files := map[string]string{
		"config.toml":                  "baseURL = \"https://example.org/\"\ntitle = \"Synthetic Museum\"\n",
		"layouts/_default/single.html": fmt.Sprintf(hugoLayout, strings.Repeat("pressed and dried ", max(0, mean-1500)/18)),
	}
	for i := 1; i <= s.n; i++ {
		files["content/specimens/"+synNumber(i).Folder()+"/"+strings.ToLower(string(synNumber(i)))+".md"] = hugoPage(i)
	}
	for path, content := range files {
		full := filepath.Join(site, path)
		if err := os.MkdirAll(filepath.Dir(full), 0o777); err != nil {
			return w, err
		}
		if err := os.WriteFile(full, []byte(content), 0o666); err != nil {
			return w, err
		}
	}
	return w, nil
}

// hugoPage is the record of serial i as Markdown with front matter.
func hugoPage(i int) string {
	r, _ := ledger.Decode("", []byte(synRecord(i, 1)))
	var b strings.Builder
	fmt.Fprintf(&b, "---\ntitle: %q\nfields:\n", synNumber(i))
	for _, kv := range ledger.Flatten(r) {
		if !strings.HasPrefix(kv.Key, "determinations.") {
			fmt.Fprintf(&b, "  %s: %q\n", kv.Key, kv.Value)
		}
	}
	b.WriteString("names:\n")
	for _, d := range r.Determinations {
		fmt.Fprintf(&b, "  - {name: %q, by: %q, date: %q, why: %q}\n", d.Name.Text, d.By.Text, d.Date.Text, d.Why.Text)
	}
	b.WriteString("---\n\n" + r.Description.Text + "\n")
	return b.String()
}

// floor writes files of the same number and size, and does nothing else.
func floor(s stage) (work, error) {
	return s.piece("floor", s.out, filepath.Join(s.work, "floor")), nil
}

// runChild does one piece of work in this process.
func runChild(name string, args []string) error {
	switch name {
	case "decode":
		return decodeAll(".")
	case "floor":
		return writeFloor(args[0], args[1])
	case "read":
		n, err := strconv.Atoi(args[1])
		if err != nil {
			return err
		}
		return readPiece(args[0], n)
	case "archive-in", "archive-in-other":
		return archivePiece(args[0], name == "archive-in-other")
	case "archive-copy":
		return archiveCopy(args[0], args[1])
	case "plain-pdf":
		return plainPDF(args[0], args[1], args[2])
	case "copy":
		return copyAll(args[0], args[1])
	case "leak":
		args = append(args, "")
		return leakPiece(args[0], args[1])
	case "history", "history-gogit":
		return historyPiece(name == "history")
	}
	return fmt.Errorf("no piece of work named %q", name)
}

// decodeAll reads every record of the ledger into yaml.v3's nodes with two
// workers: the peer of check.
func decodeAll(dir string) error {
	work := make(chan string, 256)
	faults := make(chan error, 2)
	var wait sync.WaitGroup
	for range 2 {
		wait.Go(func() {
			for path := range work {
				content, err := os.ReadFile(path)
				if err == nil {
					var n yaml.Node
					err = yaml.Unmarshal(content, &n)
				}
				if err != nil {
					select {
					case faults <- err:
					default:
					}
				}
			}
		})
	}
	err := filepath.WalkDir(filepath.Join(dir, ledger.SpecimensDir), func(p string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			work <- p
		}
		return err
	})
	close(work)
	wait.Wait()
	close(faults)
	return errors.Join(err, <-faults)
}

// writeFloor writes, below to, files of the sizes found below like.
func writeFloor(like, to string) error {
	if err := os.RemoveAll(to); err != nil {
		return err
	}
	return filepath.WalkDir(like, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(like, p)
		if err != nil {
			return err
		}
		if d.IsDir() {
			return os.MkdirAll(filepath.Join(to, rel), 0o777)
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(to, rel), make([]byte, info.Size()), 0o666)
	})
}
