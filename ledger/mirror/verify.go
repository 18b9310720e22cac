package mirror

import (
	"context"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/public"
)

// verify reads back every object that was written (all: and those that were
// there) and looks through it.
func (w *writer) verify(ctx context.Context, secrets *public.Secrets, all bool) error {
	x := newInspector(secrets, w.state)
	if err := w.pack.Each(ctx, x.object); err != nil {
		return err
	}
	if all {
		if err := w.target.Each(ctx, x.object); err != nil {
			return err
		}
	}
	return x.end(ctx)
}

// newInspector looks for secrets; what somebody let stand (public.yaml, by the
// path of the file in the mirror) is passed over. s says what object is which
// file, as far as it is known.
func newInspector(secrets *public.Secrets, s *State) *inspector {
	x := &inspector{scan: secrets.Scanner(public.ScanOptions{Reviewed: secrets.Reviewed()}), names: map[string]bool{}, file: map[gitrepo.ObjectID]string{}}
	if s == nil {
		return x
	}
	for v, f := range s.versions {
		x.file[f.id] = v.name
	}
	return x
}

// inspector looks through the objects of a mirror.
type inspector struct {
	scan    *public.Scanner
	names   map[string]bool // of files and folders
	objects int
	foreign string
	file    map[gitrepo.ObjectID]string // the name (see versionOf) of what became this
	led     map[gitrepo.ObjectID]bool   // objects that others lead to; nil: not asked
}

// object looks through one object.
func (x *inspector) object(kind string, id gitrepo.ObjectID, body []byte) error {
	x.objects++
	if x.led != nil {
		if err := gitrepo.Leads(kind, body, func(id gitrepo.ObjectID) { x.led[id] = true }); err != nil {
			return err
		}
	}
	switch kind {
	case "tree":
		return gitrepo.TreeNames(body, func(name string, plain bool) {
			if !x.names[name] {
				x.names[strings.Clone(name)] = true
			}
			if !plain && x.foreign == "" {
				x.foreign = "a tree with something that is neither a plain file nor a folder, " + id.Hex()
			}
		})
	case "blob":
		path := strings.TrimPrefix(x.file[id], "/")
		switch {
		case path == "":
			path = "the file " + id.Hex()
		case x.file[id][0] != '/':
			path = ledger.Number(path).Path()
		}
		x.scan.ScanBytes(path, body)
	case "commit":
		x.scan.ScanBytes("the message of entry "+id.Hex()[:10], body)
	default:
		x.foreign = "a " + kind + ", " + id.Hex()
	}
	return nil
}

// end is a *Leaked when withheld words were found, a *Foreign when anything
// was that no mirror has.
func (x *inspector) end(ctx context.Context) error {
	names := slices.Sorted(maps.Keys(x.names))
	x.scan.ScanBytes("the names of files", []byte(strings.Join(names, "\n")+"\n"))
	leaks, err := x.scan.Finish(ctx)
	if err != nil {
		return err
	}
	if len(leaks) > 0 {
		return &Leaked{leaks}
	}
	for _, name := range names {
		if !plainName(name) {
			return &Foreign{"a file or folder called " + ledger.ShownPath(name)}
		}
	}
	if x.foreign != "" {
		return &Foreign{x.foreign}
	}
	return nil
}

// plainName reports whether a tree of a mirror may have an entry of this name.
func plainName(name string) bool {
	switch {
	case name == ledger.SpecimensDir, name == ledger.NamesDir, name == "other", strings.HasSuffix(name, ".yaml"):
		return true
	}
	return strings.Trim(name, "0123456789") == ""
}

// firstOther is the first of ids that is not among the known; "" when all are.
func firstOther(ids []gitrepo.ObjectID, known func(gitrepo.ObjectID) bool) string {
	for _, id := range ids {
		if !known(id) {
			return id.Hex()
		}
	}
	return ""
}
