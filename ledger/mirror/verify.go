package mirror

import (
	"context"
	"fmt"
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
	x := &inspector{scan: secrets.Scanner(), names: map[string]bool{}}
	if err := w.pack.Each(ctx, x.object); err != nil {
		return err
	}
	if all {
		if err := w.target.Each(ctx, x.object); err != nil {
			return err
		}
	}
	return x.end(ctx, w.state)
}

// inspector looks through the objects of a mirror.
type inspector struct {
	scan    *public.Scanner
	names   map[string]bool // of files and folders
	objects int
	foreign string
	led     map[gitrepo.ObjectID]bool // objects that others lead to; nil: not asked
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
	case "blob", "commit":
		x.scan.ScanBytes(kind+" "+id.Hex(), body)
	default:
		x.foreign = "a " + kind + ", " + id.Hex()
	}
	return nil
}

// end is a *Leaked when withheld words were found, a *Foreign when anything
// was that no mirror has.
func (x *inspector) end(ctx context.Context, s *State) error {
	names := slices.Sorted(maps.Keys(x.names))
	x.scan.ScanBytes("the names of files", []byte(strings.Join(names, "\n")+"\n"))
	leaks, err := x.scan.Finish(ctx)
	if err != nil {
		return err
	}
	if len(leaks) > 0 {
		if s != nil {
			s.place(leaks)
		}
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

// place says of leaks in which file, or commit of the ledger, they are.
func (s *State) place(leaks []public.Leak) {
	where := map[string]string{}
	for v, f := range s.versions {
		path := strings.TrimPrefix(v.name, "/")
		if v.name[0] != '/' {
			path = ledger.Number(v.name).Path()
		}
		where["blob "+f.id.Hex()] = fmt.Sprintf("%s, as it was in %.10s", path, v.blob)
	}
	for id, m := range s.commits {
		where["commit "+m.commit.Hex()] = "what would be the message of commit " + id[:10]
	}
	for i := range leaks {
		if w, ok := where[leaks[i].File]; ok {
			leaks[i].File = w
		}
	}
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
