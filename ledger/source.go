package ledger

import (
	"context"
	"crypto/sha1"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
)

// Names of the files and folders of a ledger, relative to its root.
const (
	MuseumFile   = "blotter.yaml"
	PeopleFile   = "people.yaml"
	PlacesFile   = "places.yaml"
	PublicFile   = "public.yaml"
	SpecimensDir = "specimens"
	NamesDir     = "names"
	PagesDir     = "pages"
	ImagesDir    = "images"
	WorkDir      = "work"
	SchemaFile   = "record.schema.json"
	WorkSchema   = "work.schema.json"
)

// BlobID is the id of a file's content as git computes it, in hexadecimal;
// two files with the same id have the same bytes.
type BlobID string

// BlobOf computes the id of b (git's SHA-1 blob id).
func BlobOf(b []byte) BlobID {
	h := sha1.New()
	fmt.Fprintf(h, "blob %d\x00", len(b))
	h.Write(b)
	return BlobID(hex.EncodeToString(h.Sum(nil)))
}

// File is one file of one version of a ledger.
type File struct {
	Path string // relative to the ledger's root, forward slashes
	Blob BlobID
	Size int64 // bytes; -1 when not known without reading
	Link bool  // a symbolic link: never followed, never read
}

// Source is one version of a ledger's files: a work tree, an index, a commit,
// a map in a test. Its methods may be called from several goroutines.
type Source interface {
	// Files lists every file below the ledger's root in byte order of path,
	// links included; files that git ignores are left out.
	Files(ctx context.Context) ([]File, error)
	// Read returns the bytes of a file that Files listed. A file larger than
	// LimitOf its path is an error that is ErrLarge, not an allocation.
	Read(ctx context.Context, f File) ([]byte, error)
}

// The largest files that are read, in bytes.
const (
	MaxFile    = 1 << 20   // a record, a file of settings, a page of prose
	MaxPicture = 512 << 20 // a file below images/
)

// LimitOf is the size up to which the file at path is read.
func LimitOf(path string) int64 {
	if strings.HasPrefix(path, ImagesDir+"/") {
		return MaxPicture
	}
	return MaxFile
}

// ErrLarge is what a Source's Read returns, or wraps, for a file larger than
// LimitOf its path: the file is a finding, and all others can still be read.
var ErrLarge = errors.New("the file is larger than a file of the ledger may be (1 MiB, a picture 512 MiB)")

// Change is one file that differs between two versions of a ledger.
type Change struct {
	Path string // relative to the ledger's root, forward slashes
	Old  BlobID // "" when it was not there before
	New  BlobID // "" when it is there no more
	Link bool   // what is there now is a symbolic link
}
