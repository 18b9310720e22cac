package render

import (
	"bytes"
	"encoding/hex"
	"slices"
	"strings"
	"sync"
)

// sumLen is how many bytes of a hash stand for a file.
const sumLen = 10

// siteFiles is what a build knows of each file of the site: one row with one
// path, however much is known, since a million sheets have three million
// files. It may be used by several goroutines.
type siteFiles struct {
	mu     sync.Mutex
	at     map[string]int32
	rows   []siteFile
	listed bool // a manifest was read
	there  int  // files in the folder
	made   int  // files of this build
}

// siteFile is what is known of one file.
type siteFile struct {
	path     string
	old, now [sumLen]byte // as the manifest has it; as this build makes it
	is       fileFacts
}

type fileFacts uint8

const (
	inManifest fileFacts = 1 << iota
	inFolder
	inBuild
)

// was is the hash that the manifest has; "" for none.
func (f siteFile) was() string {
	if f.is&inManifest == 0 {
		return ""
	}
	return hex.EncodeToString(f.old[:])
}

// present reports whether the file is in the folder.
func (f siteFile) present() bool { return f.is&inFolder != 0 }

// of is what is known of a file.
func (t *siteFiles) of(path string) siteFile {
	t.mu.Lock()
	defer t.mu.Unlock()
	if i, ok := t.at[path]; ok {
		return t.rows[i]
	}
	return siteFile{}
}

// was is the hash that the manifest has of a file; "" for none.
func (t *siteFiles) was(path string) string { return t.of(path).was() }

// row is the row of a file, made if there is none. The caller holds mu. part
// says that path is part of a longer text that is not to be kept for it.
func (t *siteFiles) row(path string, part bool) *siteFile {
	i, ok := t.at[path]
	if !ok {
		if part {
			path = strings.Clone(path)
		}
		if t.at == nil {
			t.at = map[string]int32{}
		}
		i = int32(len(t.rows))
		t.rows = append(t.rows, siteFile{path: path})
		t.at[path] = i
	}
	return &t.rows[i]
}

// found notes that a file is in the folder.
func (t *siteFiles) found(path string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if r := t.row(path, true); r.is&inFolder == 0 {
		r.is |= inFolder
		t.there++
	}
}

// makes notes that this build makes a file with the hash sum, and says what
// was known of it before.
func (t *siteFiles) makes(path, sum string) siteFile {
	t.mu.Lock()
	defer t.mu.Unlock()
	r := t.row(path, false)
	before := *r
	hex.Decode(r.now[:], []byte(sum))
	if r.is&inBuild == 0 {
		r.is |= inBuild
		t.made++
	}
	return before
}

// stays notes that a file stands as the manifest has it; one that it does not
// have stays unknown.
func (t *siteFiles) stays(path string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	r := t.row(path, false)
	if r.now = r.old; r.is&inBuild == 0 {
		r.is |= inBuild
		t.made++
	}
}

// unmade takes back makes or stays.
func (t *siteFiles) unmade(path string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if r := t.row(path, false); r.is&inBuild != 0 {
		r.is &^= inBuild
		t.made--
	}
}

// same reports whether this build makes what the manifest has, to a byte.
func (t *siteFiles) same() bool {
	return !slices.ContainsFunc(t.rows, func(f siteFile) bool {
		listed, made := f.is&inManifest != 0, f.is&inBuild != 0
		return listed != made || made && f.old != f.now
	})
}

// gone lists the files of the manifest, still in the folder, that this build
// does not make.
func (t *siteFiles) gone() []string {
	var out []string
	for _, f := range t.rows {
		if f.is == inManifest|inFolder {
			out = append(out, f.path)
		}
	}
	slices.Sort(out)
	return out
}

// The manifest is a text file: a head line, then one line a file, hash and
// path, in order of path. It lists output bytes and nothing of the ledger.
const manifestHead = "blotter site 1\n"

// manifest lists what this build makes.
func (t *siteFiles) manifest() []byte {
	order := make([]int32, 0, t.made)
	size := len(manifestHead)
	for i := range t.rows {
		if f := &t.rows[i]; f.is&inBuild != 0 {
			order = append(order, int32(i))
			size += 2*sumLen + len(f.path) + 2
		}
	}
	slices.SortFunc(order, func(a, b int32) int { return strings.Compare(t.rows[a].path, t.rows[b].path) })
	b := make([]byte, 0, size)
	b = append(b, manifestHead...)
	for _, i := range order {
		b = hex.AppendEncode(b, t.rows[i].now[:])
		b = append(b, ' ')
		b = append(b, t.rows[i].path...)
		b = append(b, '\n')
	}
	return b
}

// read takes in a manifest. One of another form lists nothing, so that all of
// its files count as foreign.
func (t *siteFiles) read(manifest []byte) {
	text, ok := strings.CutPrefix(string(manifest), manifestHead)
	if !ok {
		return
	}
	t.listed = true
	n := bytes.Count(manifest, []byte{'\n'})
	t.at, t.rows = make(map[string]int32, n), make([]siteFile, 0, n)
	for line := range strings.Lines(text) {
		sum, path, ok := strings.Cut(strings.TrimSuffix(line, "\n"), " ")
		if !ok || len(sum) != 2*sumLen {
			continue
		}
		r := t.row(path, false)
		if _, err := hex.Decode(r.old[:], []byte(sum)); err == nil {
			r.is |= inManifest
		}
	}
}
