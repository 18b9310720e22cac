package gitrepo

import (
	"crypto"
	"crypto/sha1"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"github.com/go-git/go-billy/v5"
	"github.com/go-git/go-billy/v5/osfs"
	git "github.com/go-git/go-git/v5"
	"github.com/go-git/go-git/v5/plumbing"
	"github.com/go-git/go-git/v5/plumbing/cache"
	"github.com/go-git/go-git/v5/plumbing/hash"
	"github.com/go-git/go-git/v5/storage/filesystem"
	"github.com/go-git/go-git/v5/storage/filesystem/dotgit"

	"blotter/ledger"
	"blotter/ledger/disk"
)

// nativeCache is how many bytes of objects one go-git reader keeps: enough
// for the bases of deltas, small enough for a reader a worker.
const nativeCache = 48 * cache.MiByte

// go-git names every object that it puts in its cache by hashing it again.
// Its own SHA-1, which looks for collision attacks, is a third as fast as the
// standard one and made a quarter of the history pass. Nothing is fetched
// through go-git, so nothing relies on the looking.
var _ = hash.RegisterHash(crypto.SHA1, sha1.New)

// native reads objects through go-git.
type native struct{ store *filesystem.Storage }

// storage opens go-git's view of the repository afresh.
func (r *Repo) storage() *filesystem.Storage {
	var fs billy.Filesystem = lasting{osfs.New(r.gitDir)}
	if r.common != r.gitDir {
		fs = dotgit.NewRepositoryFilesystem(fs, lasting{osfs.New(r.common)})
	}
	return filesystem.NewStorageWithOptions(fs, cache.NewObjectLRU(nativeCache), filesystem.Options{
		KeepDescriptors: true, LargeObjectThreshold: ledger.MaxFile, AlternatesFS: osfs.New("/"),
	})
}

// tryNative reports why go-git does not open the repository, nil if it does.
func (r *Repo) tryNative() error {
	_, err := git.Open(r.storage(), nil)
	return err
}

func (r *Repo) openNative() (objects, error) { return &native{r.storage()}, nil }

func (n *native) close() { n.store.ObjectStorage.Close() }

func (n *native) read(id string, limit int64) (string, []byte, error) {
	o, err := n.store.EncodedObject(plumbing.AnyObject, plumbing.NewHash(id))
	if errors.Is(err, plumbing.ErrObjectNotFound) {
		return "", nil, errNoObject
	}
	if err != nil {
		return "", nil, fmt.Errorf("%v", err)
	}
	if limit > 0 && o.Size() > limit {
		return "", nil, errTooLarge
	}
	rd, err := o.Reader()
	if err != nil {
		return "", nil, fmt.Errorf("%v", err)
	}
	defer rd.Close()
	body := make([]byte, o.Size())
	if _, err := io.ReadFull(rd, body); err != nil {
		return "", nil, fmt.Errorf("%v", err)
	}
	return o.Type().String(), body, nil
}

// lasting is a file system on which what is written beside its place, as
// go-git writes objects, is on the disk before it is put in place: after a
// power cut it would otherwise be there and empty.
type lasting struct{ billy.Filesystem }

func (l lasting) TempFile(dir, prefix string) (billy.File, error) {
	f, err := l.Filesystem.TempFile(dir, prefix)
	return lastingFile{f, l.Root()}, err
}

type lastingFile struct {
	billy.File
	root string
}

// Close asks for the file by its name: what go-git hands out does not know how
// to wait for the disk.
func (f lastingFile) Close() error {
	err := f.File.Close()
	if err == nil {
		err = disk.Keep(filepath.Join(f.root, f.Name()))
	}
	return err
}
