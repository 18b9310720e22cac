package gitrepo

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing"

	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/internal/fault"
)

// Bare is a bare repository that the program alone fills: one branch, no tags,
// no other objects than those that the program put there.
type Bare struct {
	repo *Repo
	dir  string
}

// ErrForeign is the error about a folder or repository that holds what the
// program did not put there.
var ErrForeign = errors.New("not made by Blotter")

// bareMark is the file by which a Bare is known. A second line names a pack
// that is being put in place.
const (
	bareMark  = "blotter-mirror"
	bareFirst = "A repository that Blotter makes from a ledger. Nothing else may be put into it.\n"
	bareRef   = plumbing.ReferenceName("refs/heads/main")
)

// OpenBare opens the Bare in dir, or makes it when there is no such folder, or
// an empty one. One that was being made when the program was broken off is
// completed. The error is ErrForeign for anything else.
func OpenBare(dir string, environ []string) (*Bare, error) {
	b := &Bare{dir: dir}
	list, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("open %s: %w", dir, err)
	}
	list = slices.DeleteFunc(list, func(e fs.DirEntry) bool { return disk.IsTemp(e.Name()) }) // of a mark that was being written
	mark, err := os.ReadFile(b.file(bareMark))
	switch {
	case err == nil && !bytes.HasPrefix(mark, []byte(bareFirst)) || err != nil && len(list) > 0:
		return nil, fmt.Errorf("open %s: %w", dir, ErrForeign)
	case !isGitDir(dir):
		if err := b.make(); err != nil {
			return nil, fmt.Errorf("make %s: %w", dir, err)
		}
	}
	if b.repo, err = Open(dir, environ); err != nil {
		return nil, err
	}
	if b.repo.width != len(objectID{}) || b.repo.gitDir != b.repo.common {
		return nil, fmt.Errorf("open %s: %w", dir, ErrForeign)
	}
	return b, b.settle()
}

// Made reports whether dir holds a Bare.
func Made(dir string) bool {
	_, err := os.Stat(filepath.Join(dir, bareMark))
	return err == nil && isGitDir(dir)
}

func (b *Bare) file(path ...string) string { return filepath.Join(append([]string{b.dir}, path...)...) }

// make makes an empty repository: the mark first, by which one that was broken
// off is known, HEAD last, since it makes it one.
func (b *Bare) make() error {
	if err := os.MkdirAll(b.dir, 0o777); err != nil {
		return err
	}
	if err := disk.WriteFile(b.file(bareMark), []byte(bareFirst)); err != nil {
		return err
	}
	for _, folder := range []string{"objects/pack", "objects/info", "refs/heads", "refs/tags"} {
		if err := os.MkdirAll(b.file(filepath.FromSlash(folder)), 0o777); err != nil {
			return err
		}
	}
	for _, f := range [][2]string{
		{"config", "[core]\n\trepositoryformatversion = 0\n\tfilemode = true\n\tbare = true\n"},
		{"description", "Public mirror of a specimen ledger\n"},
	} {
		if err := disk.WriteFile(b.file(f[0]), []byte(f[1])); err != nil {
			return err
		}
	}
	if err := disk.KeepBelow(b.dir); err != nil { // the folders, before the file that makes them a repository
		return err
	}
	return disk.WriteFile(b.file("HEAD"), []byte("ref: "+string(bareRef)+"\n"))
}

// Close lets go of what the repository holds open.
func (b *Bare) Close() { b.repo.Close() }

// Repo is the repository, to be read.
func (b *Bare) Repo() *Repo { return b.repo }

// settle ends what Take began and was broken off in: a pack that the branch
// does not lead into yet goes away.
func (b *Bare) settle() error {
	for _, f := range b.packs(tempPack + "*") {
		os.Remove(f)
	}
	mark, err := os.ReadFile(b.file(bareMark))
	if err != nil {
		return err
	}
	f := strings.Fields(strings.TrimPrefix(string(mark), bareFirst))
	if len(f) != 3 {
		return nil
	}
	pack, tip, alone := f[0], f[1], f[2] == "alone"
	now, err := b.Tip(context.Background())
	if err != nil {
		return err
	}
	switch {
	case now != tip:
		for _, f := range append(b.packs(pack+".pack"), b.packs(pack+".idx")...) {
			if err := os.Remove(f); err != nil {
				return err
			}
		}
	case alone:
		if err := b.sweep(pack); err != nil {
			return err
		}
	}
	b.repo.pool.drop()
	return disk.WriteFile(b.file(bareMark), []byte(bareFirst))
}

func (b *Bare) packs(pattern string) []string {
	files, _ := filepath.Glob(filepath.Join(globEscape(b.file("objects", "pack")), pattern))
	return files
}

// globEscape lets a folder's own name stand in a pattern.
func globEscape(s string) string {
	if filepath.Separator == '\\' {
		return s
	}
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(s)
}

// Tip is the commit that the branch leads to; "" before the first. It is read
// without looking for the commit, since packs may be half put in place.
func (b *Bare) Tip(ctx context.Context) (string, error) {
	store := b.repo.storage()
	defer store.ObjectStorage.Close()
	ref, err := store.Reference(bareRef)
	if errors.Is(err, plumbing.ErrReferenceNotFound) {
		return "", ctx.Err()
	}
	if err != nil {
		return "", fmt.Errorf("read %s: %v", bareRef, err)
	}
	return ref.Hash().String(), ctx.Err()
}

// Foreign names what stands in the repository beside its branch and its
// objects, "" for nothing: tags, other branches, objects kept elsewhere. What
// git notes of a push (refs/remotes/) does no harm.
func (b *Bare) Foreign() (string, error) {
	for _, f := range []string{"objects/info/alternates", "objects/info/http-alternates", "shallow", "info/grafts"} {
		if _, err := os.Lstat(b.file(filepath.FromSlash(f))); err == nil {
			return f, nil
		}
	}
	head, err := os.ReadFile(b.file("HEAD"))
	if err != nil {
		return "", err
	}
	if strings.TrimSpace(string(head)) != "ref: "+string(bareRef) {
		return "HEAD, which is not on " + bareRef.Short(), nil
	}
	store := b.repo.storage()
	defer store.ObjectStorage.Close()
	refs, err := store.IterReferences()
	if err != nil {
		return "", fmt.Errorf("list references: %v", err)
	}
	what := ""
	err = refs.ForEach(func(r *plumbing.Reference) error {
		if n := r.Name(); n != plumbing.HEAD && n != bareRef && !n.IsRemote() && (what == "" || string(n) < what) {
			what = string(n)
		}
		return nil
	})
	return what, err
}

// IDs are the ids of all objects, each once, in order.
func (b *Bare) IDs() ([]ObjectID, error) {
	var ids []objectID
	for _, f := range b.packs("*.idx") {
		text, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		const fan = 8 + 256*4
		if len(text) < fan || string(text[:8]) != "\xfftOc\x00\x00\x00\x02" {
			return nil, fmt.Errorf("read %s: not an index that is known", filepath.Base(f))
		}
		n := int(text[fan-4])<<24 | int(text[fan-3])<<16 | int(text[fan-2])<<8 | int(text[fan-1])
		for i := range n {
			at := fan + i*len(objectID{})
			if at+len(objectID{}) > len(text) {
				return nil, fmt.Errorf("read %s: it is cut short", filepath.Base(f))
			}
			ids = append(ids, objectID(text[at:at+len(objectID{})]))
		}
	}
	folders, _ := filepath.Glob(filepath.Join(globEscape(b.file("objects")), "[0-9a-f][0-9a-f]", "*"))
	for _, f := range folders {
		raw, err := hex.DecodeString(filepath.Base(filepath.Dir(f)) + filepath.Base(f))
		if err == nil && len(raw) == len(objectID{}) {
			ids = append(ids, objectID(raw))
		}
	}
	slices.SortFunc(ids, func(x, y objectID) int { return bytes.Compare(x[:], y[:]) })
	return slices.Compact(ids), nil
}

// NewPack begins a pack for the repository.
func (b *Bare) NewPack() (*Pack, error) { return newPack(b.file("objects", "pack")) }

// Take puts a pack in place and makes the branch lead from commit old ("": it
// is new) to tip. alone: whatever else is in the repository goes away after.
// Broken off, it leaves the branch where it was or where it is to be, and
// OpenBare does the rest.
func (b *Bare) Take(ctx context.Context, p *Pack, old, tip string, alone bool) error {
	if err := p.finish(); err != nil {
		return err
	}
	b.repo.pool.drop()
	name, word := filepath.Base(p.base()), "beside"
	if alone {
		word = "alone"
	}
	if err := disk.WriteFile(b.file(bareMark), []byte(bareFirst+name+" "+tip+" "+word+"\n")); err != nil {
		return err
	}
	for _, end := range []string{".idx", ""} { // an index without its pack is passed over by every reader
		to := p.base() + map[string]string{"": ".pack", ".idx": ".idx"}[end]
		if _, err := fault.Step("rename", filepath.Base(to)); err != nil {
			return err
		}
		if err := os.Chmod(p.f.Name()+end, 0o444); err != nil {
			return err
		}
		if err := os.Rename(p.f.Name()+end, to); err != nil {
			return fmt.Errorf("put pack in place: %w", err)
		}
	}
	if err := disk.Keep(b.file("objects", "pack")); err != nil { // the names, before the branch leads into them
		return fmt.Errorf("put pack in place: %w", err)
	}
	if old != tip {
		if err := b.repo.moveRef(bareRef, old, tip); err != nil {
			return err
		}
		if err := disk.Keep(b.file("refs", "heads")); err != nil { // before anybody says where it leads
			return err
		}
	}
	return b.settle()
}

// sweep takes away everything but one pack.
func (b *Bare) sweep(keep string) error {
	for _, f := range append(b.packs("*.pack"), b.packs("*")...) { // the index after its pack
		if _, err := os.Lstat(f); err != nil || strings.HasPrefix(filepath.Base(f), keep+".") {
			continue
		}
		if _, err := fault.Step("remove", filepath.Base(f)); err != nil {
			return err
		}
		if err := os.Remove(f); err != nil {
			return fmt.Errorf("remove old objects: %w", err)
		}
	}
	loose, _ := filepath.Glob(filepath.Join(globEscape(b.file("objects")), "[0-9a-f][0-9a-f]"))
	for _, f := range append(loose, b.file("refs", "remotes"), b.file("logs"), b.file("objects", "info", "commit-graph"), b.file("objects", "info", "commit-graphs"), b.file("packed-refs.old")) {
		if err := os.RemoveAll(f); err != nil {
			return fmt.Errorf("remove old objects: %w", err)
		}
	}
	return nil
}

// packTrees writes trees into a pack. Those that are not in it are read from
// the repository.
type packTrees struct {
	p *Pack
	t treeReader
}

func (s packTrees) list(id string) ([]entry, error) {
	if id == "" {
		return nil, nil
	}
	if body, ok := s.p.kept.get(id); ok {
		return parseTree(body, len(objectID{}))
	}
	body, err := s.body(id)
	if err != nil {
		return nil, err
	}
	s.p.kept.put(id, body)
	return parseTree(body, len(objectID{}))
}

func (s packTrees) body(id string) (string, error) {
	i, ok := s.p.at[objectID([]byte(id))]
	if !ok {
		return s.t.body(id)
	}
	if err := s.p.w.Flush(); err != nil {
		return "", err
	}
	b, err := s.p.read(&s.p.rows[i], s.p.kept)
	return string(b), err
}

func (s packTrees) putTree(body []byte, base string) (string, error) {
	id, err := s.p.put(packTree, body, base)
	return string(id[:]), err
}

// BareFile sets one file of a commit's tree; the zero ID removes it.
type BareFile struct {
	Path string
	ID   ObjectID
}

// Tree writes the tree that differs from the tree base (the zero ID: the empty
// one) in some files.
func (b *Bare) Tree(ctx context.Context, p *Pack, base ObjectID, files []BareFile) (ObjectID, error) {
	from := string(base[:])
	if base == (objectID{}) || base == idOf("tree", nil) {
		from = ""
	}
	ups := make([]treeUpdate, len(files))
	for i, f := range files {
		ups[i] = treeUpdate{path: f.Path, mode: modeFile}
		if f.ID != (objectID{}) {
			ups[i].id = string(f.ID[:])
		}
	}
	if len(ups) == 0 && from != "" {
		return base, nil
	}
	raw, err := treeWriter{packTrees{p, treeReader{r: b.repo, ctx: ctx}}}.update(from, ups)
	if err != nil {
		return objectID{}, fmt.Errorf("write tree: %w", err)
	}
	if raw == "" {
		return p.put(packTree, nil, "")
	}
	return objectID([]byte(raw)), nil
}

// Commit writes a commit.
func (p *Pack) Commit(tree ObjectID, parents []ObjectID, author, committer history.Person, message string) (ObjectID, error) {
	ids := make([]string, len(parents))
	for i, x := range parents {
		ids[i] = x.Hex()
	}
	for _, x := range []*history.Person{&author, &committer} {
		x.Name, x.Email = cleanIdentity(x.Name), cleanIdentity(x.Email)
	}
	return p.put(packCommit, commitBody(string(tree[:]), ids, author, committer, strings.TrimRight(message, "\n")+"\n"), "")
}
