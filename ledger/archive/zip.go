package archive

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"strings"
)

// What a zip file may unpack to: maxRatio times its size, or freeSize if that
// is more. Deflate packs no text of real tables tighter than about a fiftieth
// (common practice, no source); at its utmost it packs a thousandth.
const (
	maxRatio = 200
	freeSize = 64 << 20
)

// Is reports whether a path is an archive by its look: a folder, or a zip
// file. What a program saves spreadsheets in is a zip file too, and is none.
func Is(name string) bool {
	info, err := os.Stat(name)
	if err != nil {
		return false
	}
	if info.IsDir() {
		return true
	}
	f, err := os.Open(name)
	if err != nil {
		return false
	}
	defer f.Close()
	var head [4]byte
	if _, err = io.ReadFull(f, head[:]); err != nil || string(head[:]) != "PK\x03\x04" {
		return false
	}
	z, err := zip.NewReader(f, info.Size())
	if err != nil {
		return true // cut short, as Open says
	}
	for _, e := range z.File {
		if e.Name == "[Content_Types].xml" || e.Name == "content.xml" {
			return false
		}
	}
	return true
}

// openZip opens a zip file whose entries stay within it and do not unpack to
// far more than it is.
func openZip(name string) (*zip.ReadCloser, error) {
	z, err := zip.OpenReader(name)
	if errors.Is(err, zip.ErrFormat) {
		return nil, errors.New("not a whole zip file: it was cut short on its way, or is something else; fetch it again")
	}
	if err != nil {
		return nil, err
	}
	if err := judgeZip(name, &z.Reader); err != nil {
		z.Close()
		return nil, err
	}
	return z, nil
}

func judgeZip(name string, z *zip.Reader) error {
	info, err := os.Stat(name)
	if err != nil {
		return err
	}
	limit := max(uint64(freeSize), uint64(info.Size())*maxRatio)
	names := map[string]bool{}
	total := uint64(0)
	for _, e := range z.File {
		switch clean := path.Clean(strings.TrimSuffix(e.Name, "/")); {
		case !fs.ValidPath(clean) || strings.ContainsAny(e.Name, "\\:"):
			return fmt.Errorf("%q in it leads out of the archive; nothing of it is read", e.Name)
		case names[clean]:
			return fmt.Errorf("%q stands in it twice", e.Name)
		case e.Flags&1 != 0:
			return fmt.Errorf("%q in it is locked with a password; unpack it and read the folder", e.Name)
		case e.UncompressedSize64 > limit-total:
			return fmt.Errorf("it would unpack to more than %d times its size; nothing of it is read. If that is right, unpack it and read the folder", maxRatio)
		default:
			names[clean] = true
			total += e.UncompressedSize64
		}
	}
	return nil
}
