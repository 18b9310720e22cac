package main

import (
	"cmp"
	"context"
	"encoding/hex"
	"fmt"
	"hash"
	"io"
	"iter"
	"strings"

	"crypto/sha256"

	"blotter/ledger/book"
	"blotter/ledger/darwincore"
	"blotter/ledger/disk"
	"blotter/ledger/reading"
)

// exportArchive writes a Darwin Core archive.
func exportArchive(ctx context.Context, x *exporting) error {
	done, err := x.archive(ctx, x.Out, nil)
	if err != nil {
		return err
	}
	var words []string
	for _, k := range darwincore.Kinds()[1:] {
		if n := done.Rows[k.Name]; n > 0 {
			words = append(words, count(n, k.Noun))
		}
	}
	if len(words) > 0 {
		x.Said = strings.Join(words, ", ") + "."
	}
	return nil
}

// partsBucket keeps the parts of the public archive, by folder.
var partsBucket = disk.Bucket{Name: "archive-parts", Version: darwincore.PartVersion*1000 + reading.Version}

// archive writes the archive of the chosen sheets. look sees every text that
// it does not know.
func (x *exporting) archive(ctx context.Context, w io.Writer, look darwincore.Looker) (darwincore.Written, error) {
	k := &partKeeper{x: x}
	if !x.Full && !x.some { // parts for everybody, of everything
		k.cache, k.stamp = x.desk.cache(), x.partStamp()
	}
	in := darwincore.Input{Dataset: x.Data, Groups: k.groups(ctx), Scratch: x.Scratch, Look: look}
	if k.cache != nil {
		in.Keep = k.keep
	}
	done, err := darwincore.WriteArchive(ctx, w, in)
	if err == nil {
		k.flush()
	}
	return done, err
}

// partKeeper brings the groups of an export, with what the cache has of them,
// and keeps what is made anew.
type partKeeper struct {
	x     *exporting
	cache *disk.Cache // nil: nothing is kept
	stamp string
	fresh []disk.Entry
}

// partAhead is how many groups are looked up in the cache at once.
const partAhead = 32

// groups are the chosen sheets, folder by folder.
func (k *partKeeper) groups(ctx context.Context) iter.Seq[darwincore.Group] {
	return func(yield func(darwincore.Group) bool) {
		rest := k.x.chosen
		for len(rest) > 0 {
			var ahead []darwincore.Group
			for len(rest) > 0 && len(ahead) < partAhead {
				n := 1
				for n < len(rest) && n < darwincore.MaxGroup && rest[n].Number.Folder() == rest[0].Number.Folder() {
					n++
				}
				ahead = append(ahead, k.group(rest[:n]))
				rest = rest[n:]
			}
			if k.cache != nil {
				k.cache.View(partsBucket, func(get func([]byte) []byte) {
					for i := range ahead {
						ahead[i].Kept = keptPart(get([]byte(ahead[i].Name)), ahead[i].Stamp)
					}
				})
			}
			for _, g := range ahead {
				if ctx.Err() != nil || !yield(g) {
					return
				}
			}
		}
	}
}

// group is the sheets of one folder.
func (k *partKeeper) group(es []*book.Entry) darwincore.Group {
	g := darwincore.Group{Name: es[0].Number.Folder(), Sheets: func(ctx context.Context) ([]*darwincore.Sheet, error) {
		return k.x.sheetsOf(ctx, es)
	}}
	if k.cache == nil {
		return g
	}
	h := sha256.New()
	fmt.Fprintf(h, "%s\n", k.stamp)
	for _, e := range es {
		k.x.stampSheet(h, e)
	}
	g.Stamp = hex.EncodeToString(h.Sum(nil))
	return g
}

// keptPart is a part as keep wrote it, when it has the stamp.
func keptPart(value []byte, stamp string) []byte {
	if rest, ok := strings.CutPrefix(string(value), stamp); ok && len(value) > len(stamp) {
		return []byte(rest)
	}
	return nil
}

// keep keeps a part; some are written to the cache together.
func (k *partKeeper) keep(g darwincore.Group, part []byte) {
	k.fresh = append(k.fresh, disk.Entry{Key: []byte(g.Name), Value: append([]byte(g.Stamp), part...)})
	if len(k.fresh) == partAhead {
		k.flush()
	}
}

func (k *partKeeper) flush() {
	if len(k.fresh) > 0 {
		k.cache.Put(partsBucket, k.fresh)
		k.fresh = nil
	}
}

// sheetsOf reads the sheets of a group. It may be called from several
// goroutines.
func (x *exporting) sheetsOf(ctx context.Context, es []*book.Entry) ([]*darwincore.Sheet, error) {
	reader, _ := x.readers.Get().(*reading.Reader)
	reader = cmp.Or(reader, reading.NewReader(x.Data.Museum.Conventions))
	defer x.readers.Put(reader)
	out := make([]*darwincore.Sheet, 0, len(es))
	for _, e := range es {
		s, err := x.sheet(ctx, reader, e)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, ctx.Err()
}

// partStamp names all that the rows of every public sheet depend on besides
// their own record: the museum's files, and which records are withheld, since
// links to those are left out.
func (x *exporting) partStamp() string {
	h := sha256.New()
	fmt.Fprintln(h, x.book.Museum.Stamp())
	for e := range x.book.All() {
		if x.view.Hidden(e.Number) {
			fmt.Fprintf(h, "%s %d\n", e.Number, x.view.Class(e.Number))
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// stampSheet adds what the rows of one sheet depend on: its record, the
// revisions of it, and which of its pictures are in the ledger.
func (x *exporting) stampSheet(h hash.Hash, e *book.Entry) {
	fmt.Fprintf(h, "%s %s", e.Path, e.Blob)
	for _, r := range x.story.OfVersion(e.Number, e.Blob) {
		io.WriteString(h, " "+x.story.Commit(r.Place).ID)
	}
	for _, f := range e.Images {
		fmt.Fprintf(h, " %t", x.book.Has(f))
	}
	io.WriteString(h, "\n")
}
