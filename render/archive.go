package render

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"io"

	"blotter/ledger/disk"
	"blotter/render/page"
)

// Archive is the data set as one file for others to take, made while the site
// is built.
type Archive struct {
	// Key is a text that changes whenever the bytes may: with the same key the
	// file of the last build stands.
	Key string
	// Write writes the file; every text in it is shown to look, nil: nobody
	// looks.
	Write    func(ctx context.Context, w io.Writer, look Looker) error
	Version  string // which version of the ledger it holds, in words
	Citation string // how to cite it
}

// archiveFile is where the archive stands on the site.
const archiveFile = "data/herbarium.zip"

// archived is the archive of this build.
type archived struct {
	size   int64
	sha256 string        // of the whole file, hexadecimal
	key    pageKey       // kept with the file
	file   *disk.NewFile // waits for its place; nil: the file of the last build stands
}

// archive makes the archive, before the pages that tell its checksum. Nothing
// is in its place yet.
func (b *build) archive(ctx context.Context) error {
	a := b.in.Archive
	if a == nil || b.in.Options.HTMLOnly {
		return nil
	}
	words := (&keyer{}).add(a.Key)
	if b.in.Secrets != nil {
		words.add(b.in.Secrets.Key())
	}
	key := words.sum()
	if old, ok := b.before[archiveFile]; ok && old.key == key && b.files.of(archiveFile).present() {
		size, sum, err := b.archiveThere()
		if err == nil && shortOf(sum) == b.files.was(archiveFile) {
			b.download = &archived{size: size, sha256: sum, key: key}
			return nil
		}
	}
	f, err := b.out.Begin(archiveFile)
	if err != nil {
		return err
	}
	b.waiting = f
	h := sha256.New()
	if err := a.Write(ctx, io.MultiWriter(f, h), archiveLooker(b.in.Look)); err != nil {
		return err
	}
	b.download = &archived{size: f.Size(), sha256: hex.EncodeToString(h.Sum(nil)), key: key, file: f}
	return nil
}

// archiveThere is the size and the SHA-256, in hexadecimal, of the archive that
// stands. It may be larger than memory.
func (b *build) archiveThere() (size int64, sum string, err error) {
	h := sha256.New()
	size, err = b.out.CopyTo(archiveFile, h)
	return size, hex.EncodeToString(h.Sum(nil)), err
}

// shortOf is the sumOf of a file that has this SHA-256.
func shortOf(sum string) string { return sum[:2*sumLen] }

// archiveLooker names the members of the archive as files of the site.
func archiveLooker(look Looker) Looker {
	if look == nil {
		return nil
	}
	return memberLooker{look}
}

type memberLooker struct{ Looker }

func (m memberLooker) Known(name, sum string) bool { return m.Looker.Known(archiveFile+"!"+name, sum) }

func (m memberLooker) ScanSum(name, sum string, data []byte) {
	m.Looker.ScanSum(archiveFile+"!"+name, sum, data)
}

// keepArchive counts the archive among the files of the site.
func (b *build) keepArchive() error {
	d := b.download
	if d == nil {
		return nil
	}
	sum := shortOf(d.sha256)
	before := b.files.makes(archiveFile, sum)
	b.keep(archiveFile, saved{key: d.key, gone: true, files: []string{archiveFile}})
	if d.file == nil {
		return nil
	}
	if before.present() && before.was() == sum && !b.broken {
		if _, held, err := b.archiveThere(); err == nil && shortOf(held) == sum {
			return nil
		}
	}
	b.written.Add(1)
	b.replace = true
	return nil
}

// placeArchive puts the archive in its place.
func (b *build) placeArchive() error {
	if !b.replace {
		return nil
	}
	if err := b.mark(); err != nil {
		return err
	}
	return b.waiting.Commit()
}

// archiveLines say where the archive is, how large, and its checksum.
func (s *shelf) archiveLines() [][]page.Part {
	d := s.download
	if d == nil {
		return nil
	}
	return [][]page.Part{
		{page.Link{To: archiveFile, Text: []page.Part{said(s.lang.DataArchive)}}, said(", " + s.in.Archive.Version + ", " + page.Fill(s.lang.DataBytes, page.Number(int(d.size))))},
		{said(page.Fill(s.lang.DataSum, d.sha256))},
		{said(s.lang.DataCite + " "), page.Person(s.in.Archive.Citation)},
	}
}

// archiveJSON is the archive in site.json.
type archiveJSON struct {
	File     string `json:"file"`
	Bytes    int64  `json:"bytes"`
	SHA256   string `json:"sha256"`
	Version  string `json:"version"`
	Citation string `json:"citation"`
}

func (s *shelf) archiveJSON() *archiveJSON {
	if s.download == nil {
		return nil
	}
	return &archiveJSON{archiveFile, s.download.size, s.download.sha256, s.in.Archive.Version, s.in.Archive.Citation}
}
