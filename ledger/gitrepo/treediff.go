package gitrepo

import (
	"slices"
	"strings"
)

// diff calls yield, in byte order of path, for every file of now that
// differs from its version in each of olds, and for every file that all olds
// have and now has not. With one old tree this is the plain difference; with
// several it is what a merge itself changed; with none, all of now. Trees
// equal to one of olds are not read. olds in yield has one entry for each of
// olds, the zero entry where the file is absent there.
func (t treeReader) diff(now string, olds []string, prefix string, yield func(path string, now entry, olds []entry) error) error {
	if slices.Contains(olds, now) {
		return nil
	}
	lists := make([][]entry, len(olds)+1)
	for i, id := range append([]string{now}, olds...) {
		var err error
		if lists[i], err = t.list(id); err != nil {
			return err
		}
	}
	found := make([]entry, len(lists))
	for {
		name, ok := lowest(lists)
		if !ok {
			return nil
		}
		for i := range lists {
			found[i] = entry{}
			if len(lists[i]) > 0 && lists[i][0].sortName() == name {
				found[i], lists[i] = lists[i][0], lists[i][1:]
			}
		}
		if err := t.compare(prefix, name, found, yield); err != nil {
			return err
		}
	}
}

// lowest is the first name, in git's order, at the head of any list.
func lowest(lists [][]entry) (name string, ok bool) {
	for _, l := range lists {
		if len(l) > 0 {
			if n := l[0].sortName(); !ok || n < name {
				name, ok = n, true
			}
		}
	}
	return name, ok
}

// compare judges one name: found[0] is the entry of the new tree, the others
// those of the old ones.
func (t treeReader) compare(prefix, name string, found []entry, yield func(string, entry, []entry) error) error {
	now, olds := found[0], found[1:]
	for _, o := range olds {
		if o.id == now.id {
			return nil
		}
	}
	if !strings.HasSuffix(name, "/") {
		olds = slices.Clone(olds)
		for i, o := range olds {
			if !o.isFile() {
				olds[i] = entry{}
			}
		}
		if !now.isFile() {
			now = entry{}
		}
		for _, o := range olds {
			if o.id == now.id {
				return nil
			}
		}
		return yield(prefix+name, now, olds)
	}
	ids := make([]string, len(olds))
	for i, o := range olds {
		ids[i] = o.id
	}
	return t.diff(now.id, ids, prefix+name, yield)
}
