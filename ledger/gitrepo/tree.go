package gitrepo

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"

	"blotter/ledger"
)

// The kinds of tree entries, as git writes their modes.
const (
	modeTree   = "40000"
	modeFile   = "100644"
	modeExec   = "100755"
	modeLink   = "120000"
	modeModule = "160000" // another repository: none of our files
)

// entry is one line of a git tree. id is raw, not hexadecimal.
type entry struct {
	mode, name string
	id         string
}

func (e entry) isTree() bool { return e.mode == modeTree }

// isFile reports whether e is a file or a symbolic link.
func (e entry) isFile() bool { return !e.isTree() && e.mode != modeModule }

func (e entry) hex() string { return hex.EncodeToString([]byte(e.id)) }

// parseTree reads the body of a tree object whose ids are width bytes long.
// The entries are pieces of body.
func parseTree(body string, width int) (es []entry, err error) {
	es = make([]entry, 0, len(body)/(width+28)+1)
	for body != "" {
		var e entry
		if e, body, err = cutEntry(body, width); err != nil {
			return nil, err
		}
		es = append(es, e)
	}
	return es, nil
}

var errTree = errors.New("tree object is damaged")

// cutEntry reads the first entry of a tree's body.
func cutEntry(body string, width int) (e entry, rest string, err error) {
	sp := strings.IndexByte(body, ' ')
	nul := strings.IndexByte(body, 0)
	if sp < 0 || nul < sp || len(body) < nul+1+width {
		return e, "", errTree
	}
	end := nul + 1 + width
	return entry{body[:sp], body[sp+1 : nul], body[nul+1 : end]}, body[end:], nil
}

// appendEntry is the inverse of parseTree for one entry.
func appendEntry(b []byte, e entry) []byte {
	b = append(append(append(b, e.mode...), ' '), e.name...)
	return append(append(b, 0), e.id...)
}

// treeReader reads trees through one object reader.
type treeReader struct {
	r    *Repo
	ctx  context.Context
	kept *bodies // nil: nothing is kept
}

// list is the entries of the tree with raw id; none for "".
func (t treeReader) list(id string) ([]entry, error) {
	body, err := t.body(id)
	if err != nil {
		return nil, err
	}
	return parseTree(body, t.r.width)
}

// walk calls yield for every file and link below the tree, in byte order of
// path.
func (t treeReader) walk(id, prefix string, yield func(path string, e entry) error) error {
	es, err := t.list(id)
	if err != nil {
		return err
	}
	for _, e := range es {
		switch {
		case e.isTree():
			err = t.walk(e.id, prefix+e.name+"/", yield)
		case e.isFile():
			err = yield(prefix+e.name, e)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// descend is the entry at path below the tree; false when there is none.
func (t treeReader) descend(id, path string) (entry, bool, error) {
	e := entry{mode: modeTree, id: id}
	for name := range strings.SplitSeq(path, "/") {
		if !e.isTree() || e.id == "" {
			return entry{}, false, nil
		}
		es, err := t.list(e.id)
		if err != nil {
			return entry{}, false, err
		}
		found := false
		for _, c := range es {
			if c.name == name {
				e, found = c, true
				break
			}
		}
		if !found {
			return entry{}, false, nil
		}
	}
	return e, true, nil
}

// ledgerTree is the raw id of the ledger's own tree in a commit or tree; ""
// when it has none.
func (r *Repo) ledgerTree(ctx context.Context, id string) (string, error) {
	return treeReader{r: r, ctx: ctx}.ledgerTree(id)
}

func (t treeReader) ledgerTree(id string) (string, error) {
	raw, err := t.r.rootTree(t.ctx, id)
	if err != nil {
		return "", err
	}
	return t.below(raw)
}

// below is the raw id of the ledger's own tree in the whole tree raw.
func (t treeReader) below(raw string) (string, error) {
	if t.r.prefix == "" || raw == "" {
		return raw, nil
	}
	e, ok, err := t.descend(raw, strings.TrimSuffix(t.r.prefix, "/"))
	if err != nil || !ok || !e.isTree() {
		return "", err
	}
	return e.id, nil
}

// rootTree is the raw id of the whole tree of a commit, tag or tree; "" for
// "".
func (r *Repo) rootTree(ctx context.Context, id string) (string, error) {
	for range 8 {
		if id == "" {
			return "", nil
		}
		kind, body, err := r.pool.read(ctx, id, 0)
		if err != nil {
			return "", fmt.Errorf("read %s: %w", id, err)
		}
		switch kind {
		case "tree":
			raw, err := hex.DecodeString(id)
			return string(raw), err
		case "commit":
			raw, err := hex.DecodeString(headerValue(body, "tree"))
			return string(raw), err
		case "tag":
			id = headerValue(body, "object")
		default:
			return "", fmt.Errorf("read %s: it is a %s", id, kind)
		}
	}
	return "", fmt.Errorf("read %s: too many tags of tags", id)
}

// headerValue is the value of the first header line key of a commit or tag.
func headerValue(body []byte, key string) string {
	for line := range bytes.Lines(body) {
		if len(line) == 1 {
			return ""
		}
		if v, ok := bytes.CutPrefix(line, []byte(key+" ")); ok {
			return string(bytes.TrimSuffix(v, []byte("\n")))
		}
	}
	return ""
}

// Change says how one file differs between two versions of the ledger.
type Change struct {
	Path     string        // relative to the ledger
	Old, New ledger.BlobID // "" where the file is absent
	Link     bool          // the new version is a symbolic link
}

// Changed lists the files of the ledger whose content differs between two
// commits (or trees), in byte order of path. Folders that are equal are not
// looked into, so the cost is that of the difference. "" stands for nothing.
func (r *Repo) Changed(ctx context.Context, from, to string) ([]Change, error) {
	a, err := r.ledgerTree(ctx, from)
	if err != nil {
		return nil, err
	}
	b, err := r.ledgerTree(ctx, to)
	if err != nil {
		return nil, err
	}
	var cs []Change
	err = treeReader{r: r, ctx: ctx}.diff(b, []string{a}, "", func(path string, now entry, olds []entry) error {
		c := Change{Path: path, Old: blobOf(olds[0]), New: blobOf(now), Link: now.mode == modeLink}
		cs = append(cs, c)
		return nil
	})
	return cs, err
}

// blobOf is the id of an entry's content, "" for none or for a folder.
func blobOf(e entry) ledger.BlobID {
	if e.id == "" || !e.isFile() {
		return ""
	}
	return ledger.BlobID(e.hex())
}
