package gitrepo

import (
	"bytes"
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/go-git/go-git/v5/plumbing"

	"blotter/ledger/disk"
)

// ErrTorn is returned by Head when the file that bears its commit is empty, as
// a power cut may leave it: the ledger is not a new one.
var ErrTorn = errors.New("what git notes of the last entry is empty, as after a power cut")

// Torn says in words which of git's own files a power cut left torn: empty, or
// full of zero bytes; "" when none is. It looks at those that every command
// relies on, in a few steps: where HEAD leads, the index, the last commit.
// Git does not ask the disk to have them unless core.fsync says so.
func (r *Repo) Torn() string {
	if r.Bare() {
		return ""
	}
	id, torn := r.tornTip()
	switch {
	case torn:
		return "what git notes of the last entry is empty"
	case r.index == filepath.Join(r.gitDir, "index") && r.tornIndex(id != ""): // not what GIT_INDEX_FILE names
		return "git's list of files (its index) is missing or damaged"
	case id != "" && r.tornCommit(id):
		return "the last entry is damaged"
	}
	return ""
}

// tornCommit reports whether a commit is empty, or nowhere: where HEAD leads
// may have reached the disk before what it leads to.
func (r *Repo) tornCommit(id string) bool {
	file := filepath.Join(r.common, "objects", id[:2], id[2:])
	if _, err := os.Lstat(file); err == nil {
		return tornObject(file)
	}
	_, _, err := r.pool.read(context.Background(), id, 0)
	return errors.Is(err, ErrNoObject)
}

// tipFile is the file that bears the id of HEAD's commit, and of its log.
func (r *Repo) tipFile() (tip, log string) {
	branch, err := r.Branch()
	if err != nil || branch == "" {
		return filepath.Join(r.gitDir, "HEAD"), filepath.Join(r.gitDir, "logs", "HEAD")
	}
	at := filepath.Join("refs", "heads", filepath.FromSlash(branch))
	return filepath.Join(r.common, at), filepath.Join(r.common, "logs", at)
}

// tornTip is the id that HEAD leads to, "" when that is not known here, and
// whether the file that should bear it is torn.
func (r *Repo) tornTip() (id string, torn bool) {
	if id, ok := r.readHead(); ok {
		return id, false
	}
	tip, _ := r.tipFile()
	b, err := os.ReadFile(tip)
	return "", err == nil && len(bytes.Trim(b, "\x00\r\n ")) == 0
}

// tornIndex reports whether the index cannot be one; where HEAD leads
// anywhere there must be one.
func (r *Repo) tornIndex(entered bool) bool {
	f, err := os.Open(r.index)
	if err != nil {
		return entered && errors.Is(err, fs.ErrNotExist)
	}
	defer f.Close()
	head := make([]byte, 12)
	_, err = io.ReadFull(f, head)
	return err != nil || string(head[:4]) != "DIRC"
}

// wrongIndex is tornIndex by every byte: the checksum at the end of an index
// is of what stands before it (gitformat-index(5)); zeros stand for none.
func (r *Repo) wrongIndex(entered bool) bool {
	if r.tornIndex(entered) {
		return true
	}
	b, err := os.ReadFile(r.index)
	if err != nil || len(b) < 12+r.width {
		return err == nil
	}
	body, sum := b[:len(b)-r.width], b[len(b)-r.width:]
	h := newHash(r.width)
	h.Write(body)
	return !bytes.Equal(sum, h.Sum(nil)) && !bytes.Equal(sum, make([]byte, r.width))
}

// tornObject reports whether the file of an object is there and empty.
func tornObject(file string) bool {
	f, err := os.Open(file)
	if err != nil {
		return false
	}
	defer f.Close()
	first := make([]byte, 1)
	n, _ := f.Read(first)
	return n == 0 || first[0] == 0
}

// Damage says in words what a power cut left of git's files: as Torn, but it
// looks at every byte of the index and at the beginning of each loose object.
func (r *Repo) Damage(ctx context.Context) (string, error) {
	if torn := r.Torn(); torn != "" || r.Bare() {
		return torn, nil
	}
	id, _ := r.tornTip()
	if r.index == filepath.Join(r.gitDir, "index") && r.wrongIndex(id != "") {
		return "git's list of files (its index) is damaged", nil
	}
	w, err := r.listed(ctx)
	if err != nil {
		return "", err
	}
	torn := 0
	for _, file := range w.loose {
		if tornObject(file) {
			torn++
		}
	}
	switch {
	case torn > 0:
		return fmt.Sprintf("%d of the objects that git keeps are empty", torn), nil
	case id != "":
		if whole, err := (&mending{wholing: w, looks: true}).stands(id); !whole {
			return "of the last entry something is missing", err
		}
	}
	return "", nil
}

// listed is a walk over the objects that has only found where they lie.
func (r *Repo) listed(ctx context.Context) (*wholing, error) {
	w := &wholing{r: r, ctx: ctx, lacking: map[anyID]struct{}{}}
	dirs, err := r.objectDirs()
	if err != nil {
		return nil, err
	}
	return w, w.list(dirs)
}

// Mended is what Mend did.
type Mended struct {
	From    string // where HEAD led; "" when that was lost
	To      string // where it leads now
	Written int    // objects written again from the files on disk
	Kept    string // the folder in which what was torn is kept
}

// ErrPastMending is returned by Mend when no commit that HEAD led to of late
// is whole.
var ErrPastMending = errors.New("no whole entry is found here; a backup or another copy has what is lost")

// Mend puts right what a power cut left of git's own files, without touching
// the files on disk: torn objects and a torn index are put aside, objects
// that the files on disk still hold are written again, and HEAD leads to the
// last commit, by git's log of it, that is whole. What was entered after it is
// not entered any more and stays typed. The caller holds the ledger's lock.
func (r *Repo) Mend(ctx context.Context) (Mended, error) {
	defer r.pool.drop()
	w, err := r.listed(ctx)
	if err != nil {
		return Mended{}, fmt.Errorf("mend: %w", err)
	}
	m := &mending{wholing: w}
	if err := m.mend(ctx); err != nil {
		return m.Mended, fmt.Errorf("mend: %w", err)
	}
	return m.Mended, nil
}

func (m *mending) mend(ctx context.Context) error {
	m.r.watch()
	defer m.r.keep()
	if err := m.putAside(); err != nil {
		return err
	}
	m.r.pool.drop() // what was read of torn files
	m.From, _ = m.r.tornTip()
	var broken []string
	for _, id := range m.candidates() {
		whole, err := m.stands(id)
		if err != nil {
			return err
		}
		if whole {
			m.To = id
			return errors.Join(m.lead(ctx), m.forget(broken))
		}
		broken = append(broken, id)
	}
	if m.firstOfAll() {
		return errors.Join(m.unborn(), m.forget(broken))
	}
	return ErrPastMending
}

// forget puts commits that are not whole aside, with the lines of git's logs
// that name them: git refuses to tidy up where a log names what is nowhere.
func (m *mending) forget(broken []string) error {
	if len(broken) == 0 {
		return nil
	}
	for _, id := range broken {
		raw, err := hex.DecodeString(id)
		if err != nil {
			return err
		}
		if file := m.loose[idFrom(raw)]; file != "" {
			if err := m.keep(file, id); err != nil {
				return err
			}
		}
	}
	_, log := m.r.tipFile()
	for _, file := range slices.Compact([]string{filepath.Join(m.r.gitDir, "logs", "HEAD"), log}) {
		text, err := os.ReadFile(file)
		if err != nil {
			continue // git keeps none here
		}
		if err := m.keep(file, "log-of-"+filepath.Base(file)); err != nil {
			return err
		}
		var b bytes.Buffer
		for line := range bytes.Lines(text) {
			if !slices.ContainsFunc(broken, func(id string) bool { return bytes.Contains(line, []byte(id)) }) {
				b.Write(line)
			}
		}
		if err := disk.WriteFile(file, b.Bytes()); err != nil {
			return err
		}
	}
	return nil
}

type mending struct {
	*wholing
	Mended
	looks bool // nothing is written
}

// putAside moves torn objects out of git's way, which takes the name of an
// object that is there for the object.
func (m *mending) putAside() error {
	for id, file := range m.loose {
		if !tornObject(file) {
			continue
		}
		if err := m.keep(file, hex.EncodeToString(id[:m.r.width])); err != nil {
			return err
		}
		delete(m.loose, id)
	}
	return nil
}

func (m *mending) keep(file, name string) (err error) {
	if m.Kept == "" {
		if err := os.MkdirAll(m.r.StateDir(), 0o777); err != nil {
			return err
		}
		if m.Kept, err = os.MkdirTemp(m.r.StateDir(), "torn-"); err != nil {
			return err
		}
	}
	return os.Rename(file, filepath.Join(m.Kept, name))
}

// candidates are the commits that HEAD leads to and led to, the last first.
func (m *mending) candidates() (ids []string) {
	add := func(id string) {
		if len(id) == 2*m.r.width && fullID().MatchString(id) && strings.Trim(id, "0") != "" && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	add(m.From)
	_, file := m.r.tipFile()
	log, _ := os.ReadFile(file)
	lines := slices.Collect(bytes.Lines(log))
	for _, line := range slices.Backward(lines) {
		if f := strings.Fields(strings.Trim(string(line), "\x00")); len(f) > 1 {
			add(f[1])
			add(f[0])
		}
	}
	return ids
}

var errLacks = errors.New("an object is nowhere")

// stands reports whether a commit, its parents and all its files are there;
// of a file that is lost, what lies on disk is taken when it is the same.
func (m *mending) stands(id string) (bool, error) {
	c, err := m.r.Revision(m.ctx, id)
	if err != nil {
		return false, m.ctx.Err()
	}
	for _, parent := range c.Parents {
		if m.r.cutAt(id) { // of a shallow copy
			break
		}
		if raw, err := rawID(parent); err != nil || !m.here(idFrom([]byte(raw))) {
			return false, nil
		}
	}
	tree, err := m.r.rootTree(m.ctx, id)
	if err != nil {
		return false, m.ctx.Err()
	}
	err = treeReader{r: m.r, ctx: m.ctx}.walk(tree, "", func(path string, e entry) error {
		if m.here(idFrom([]byte(e.id))) || m.found.Partial { // left out on purpose, which nobody can tell from lost
			return nil
		}
		return m.writeAgain(path, e)
	})
	return err == nil, m.ctx.Err()
}

// writeAgain writes an object that is lost from the file on disk.
func (m *mending) writeAgain(path string, e entry) error {
	data, err := os.ReadFile(filepath.Join(m.r.top, filepath.FromSlash(path)))
	if m.looks || err != nil || e.mode == modeLink {
		return errLacks
	}
	if id := (&identifier{hash: newHash(m.r.width)}).sum(data); string(id) != e.hex() {
		return errLacks
	}
	if m.r.git != "" {
		_, err = m.r.run(m.ctx, bytes.NewReader(data), "-c", "core.fsync=all", "hash-object", "-w", "--stdin")
	} else {
		store := m.r.storage()
		defer store.ObjectStorage.Close()
		_, err = writeObject(store, plumbing.BlobObject, data)
	}
	if err != nil {
		return err
	}
	m.loose[idFrom([]byte(e.id))] = ""
	m.Written++
	return nil
}
