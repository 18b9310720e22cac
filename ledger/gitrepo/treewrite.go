package gitrepo

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/storage/filesystem"
)

// treeUpdate sets one file of a tree; an empty id removes it.
type treeUpdate struct{ path, mode, id string }

// treeStore is where trees are read from and written to.
type treeStore interface {
	list(id string) ([]entry, error)
	// putTree writes a tree that was made of the tree base ("": of none).
	putTree(body []byte, base string) (id string, err error)
}

// storeTrees writes loose trees through go-git.
type storeTrees struct {
	treeReader
	store *filesystem.Storage
}

func (s storeTrees) putTree(body []byte, base string) (string, error) {
	return writeObject(s.store, plumbing.TreeObject, body)
}

// treeWriter writes trees that differ from others in a few files.
type treeWriter struct{ treeStore }

// update writes the tree that differs from the tree with raw id in ups, and
// returns its raw id: "" when nothing is left in it.
func (w treeWriter) update(id string, ups []treeUpdate) (string, error) {
	es, err := w.list(id)
	if err != nil {
		return "", err
	}
	files := map[string]treeUpdate{}
	folders := map[string][]treeUpdate{}
	for _, up := range ups {
		if head, rest, below := strings.Cut(up.path, "/"); below {
			folders[head] = append(folders[head], treeUpdate{rest, up.mode, up.id})
		} else {
			files[up.path] = up
		}
	}
	var out []entry
	for _, e := range es {
		_, file := files[e.name]
		_, folder := folders[e.name]
		if !file && !folder {
			out = append(out, e)
		}
		if !e.isTree() {
			continue
		}
		if folder {
			sub, err := w.update(e.id, folders[e.name])
			if err != nil {
				return "", err
			}
			delete(folders, e.name)
			if sub != "" {
				out = append(out, entry{modeTree, e.name, sub})
			}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(folders)) {
		sub, err := w.update("", folders[name])
		if err != nil {
			return "", err
		}
		if sub != "" {
			out = append(out, entry{modeTree, name, sub})
		}
	}
	for name, up := range files {
		if up.id != "" {
			out = append(out, entry{up.mode, name, up.id})
		}
	}
	return w.write(out, id)
}

// write writes the tree of these entries, made of the tree base, and returns
// its raw id: "" for none.
func (w treeWriter) write(es []entry, base string) (string, error) {
	if len(es) == 0 {
		return "", nil
	}
	slices.SortFunc(es, compareEntries)
	var body []byte
	for i, e := range es {
		if i > 0 && es[i-1].name == e.name {
			return "", fmt.Errorf("%s would be both a file and a folder", e.name)
		}
		body = appendEntry(body, e)
	}
	return w.putTree(body, base)
}
