package gitrepo

import (
	"cmp"
	"encoding/hex"
	"slices"
	"strings"
)

// cursor reads the entries of one tree body in order. A cursor at its end,
// or of no tree, has the zero entry at its head.
type cursor struct {
	rest string // what follows head
	head entry
}

// next moves to the following entry.
func (c *cursor) next(width int) (err error) {
	c.head = entry{}
	if c.rest != "" {
		c.head, c.rest, err = cutEntry(c.rest, width)
	}
	return err
}

// diff calls yield, in byte order of path, for every file of now that
// differs from its version in each of olds, and for every file that all olds
// have and now has not. With one old tree this is the plain difference; with
// several it is what a merge itself changed; with none, all of now. Trees
// equal to one of olds are not read. olds in yield has one entry for each of
// olds, the zero entry where the file is absent there; it holds only until
// yield returns.
func (t treeReader) diff(now string, olds []string, prefix string, yield func(path string, now entry, olds []entry) error) error {
	if slices.Contains(olds, now) {
		return nil
	}
	cs := make([]cursor, len(olds)+1)
	for i := range cs {
		id := now
		if i > 0 {
			id = olds[i-1]
		}
		body, err := t.body(id)
		if err != nil {
			return err
		}
		cs[i].rest = body
	}
	if len(cs) == 2 {
		n := equalEntries(cs[0].rest, cs[1].rest, t.r.width)
		cs[0].rest, cs[1].rest = cs[0].rest[n:], cs[1].rest[n:]
	}
	for i := range cs {
		if err := cs[i].next(t.r.width); err != nil {
			return err
		}
	}
	found := make([]entry, len(cs))
	for {
		if len(cs) == 2 && cs[0] == cs[1] {
			return nil // all that is left is equal
		}
		first := lowest(cs)
		if first.id == "" {
			return nil
		}
		for i := range cs {
			found[i] = entry{}
			if cs[i].head.id != "" && compareEntries(cs[i].head, first) == 0 {
				found[i] = cs[i].head
				if err := cs[i].next(t.r.width); err != nil {
					return err
				}
			}
		}
		if err := t.compare(prefix, first, found, yield); err != nil {
			return err
		}
	}
}

// equalEntries is the length of the entries that two trees begin with alike.
func equalEntries(a, b string, width int) (length int) {
	same := 0
	for same < len(a) && same < len(b) && a[same] == b[same] {
		same++
	}
	for {
		nul := strings.IndexByte(a[length:], 0)
		if nul < 0 || length+nul+1+width > same {
			return length
		}
		length += nul + 1 + width
	}
}

// lowest is the first entry, in git's order, at the head of any cursor; the
// zero entry when all are at their end.
func lowest(cs []cursor) (first entry) {
	for i := range cs {
		if h := cs[i].head; h.id != "" && (first.id == "" || compareEntries(h, first) < 0) {
			first = h
		}
	}
	return first
}

// compareEntries is git's order of entries: by name, folders as if a slash
// followed.
func compareEntries(a, b entry) int {
	n := min(len(a.name), len(b.name))
	if c := strings.Compare(a.name[:n], b.name[:n]); c != 0 {
		return c
	}
	return cmp.Compare(a.after(n), b.after(n))
}

// after is the byte after the first n of the name as git sorts it.
func (e entry) after(n int) byte {
	switch {
	case n < len(e.name):
		return e.name[n]
	case e.isTree():
		return '/'
	}
	return 0
}

// compare judges one name: found[0] is the entry of the new tree, the others
// those of the old ones.
func (t treeReader) compare(prefix string, first entry, found []entry, yield func(string, entry, []entry) error) error {
	now, olds := found[0], found[1:]
	for i := range olds {
		if olds[i].id == now.id {
			return nil
		}
	}
	if first.isTree() {
		ids := make([]string, len(olds))
		for i, o := range olds {
			ids[i] = o.id
		}
		return t.diff(now.id, ids, prefix+first.name+"/", yield)
	}
	if now.mode == modeModule {
		now = entry{}
	}
	for i := range olds {
		if olds[i].mode == modeModule {
			olds[i] = entry{}
		}
		if olds[i].id == now.id {
			return nil
		}
	}
	return yield(prefix+first.name, now, olds)
}

// bodies keeps the tree bodies read lately, for a pass in which the trees of
// one commit are those of the next. At most about twice its limit is held.
type bodies struct {
	young, old map[string]string
	size       int // of young
}

const bodiesLimit = 32 << 20

func newBodies() *bodies { return &bodies{young: map[string]string{}} }

func (b *bodies) get(id string) (string, bool) {
	body, ok := b.young[id]
	if !ok {
		if body, ok = b.old[id]; ok {
			b.put(id, body)
		}
	}
	return body, ok
}

func (b *bodies) put(id, body string) {
	if b.size += len(body); b.size > bodiesLimit {
		b.old, b.young, b.size = b.young, map[string]string{}, len(body)
	}
	b.young[id] = body
}

// body is the body of the tree with raw id; "" for the id "".
func (t treeReader) body(id string) (string, error) {
	if id == "" {
		return "", nil
	}
	if t.kept != nil {
		if body, ok := t.kept.get(id); ok {
			return body, nil
		}
	}
	b, err := t.r.readAs(t.ctx, "tree", hex.EncodeToString([]byte(id)))
	if err != nil {
		return "", err
	}
	body := string(b)
	if t.kept != nil {
		t.kept.put(id, body)
	}
	return body, nil
}
