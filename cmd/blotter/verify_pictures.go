package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
	"blotter/ledger/disk"
)

// pictureProof is what was found of the pictures whose checksums records keep.
type pictureProof struct {
	looked  int              // pictures read
	absent  int              // neither in the ledger nor in this folder
	changed []ledger.Finding // another picture than when the checksum was written
}

// pictureSums keeps the checksums of pictures by the id of what is stored,
// which says what they hold.
var pictureSums = disk.Bucket{Name: "picture-sums", Version: 1}

// lookAtPictures holds the pictures of the ledger as entered last to the
// checksums in its records; one that git leaves alone is read from the folder.
func (v *verification) lookAtPictures(ctx context.Context) error {
	if v.tip == "" {
		return nil
	}
	src, err := v.repo.At(ctx, v.tip)
	if err != nil {
		return stuck("%v", err)
	}
	if any, err := v.anyPictures(ctx, src); err != nil || !any {
		return err
	}
	b, err := book.Load(ctx, src, v.loadOptions())
	if err != nil {
		return stuck("read the ledger: %v", err)
	}
	kept := pictureReader{verification: v, ctx: ctx, blob: v.repo.BlobsAt(ctx, v.tip), sums: map[string]string{}}
	v.pictures.changed = check.Pictures(b, kept.sum)
	v.cache().Put(pictureSums, kept.anew)
	if kept.err != nil {
		return stuck("%v", kept.err)
	}
	return ctx.Err()
}

// anyPictures reports whether there is any picture at all, in the ledger or
// beside it; mostly there is none, and no record need be read.
func (v *verification) anyPictures(ctx context.Context, src ledger.Source) (bool, error) {
	if v.root != "" {
		if _, err := os.Stat(v.file(ledger.ImagesDir)); err == nil {
			return true, nil
		}
	}
	files, err := src.Files(ctx)
	if err != nil {
		return false, stuck("%v", err)
	}
	return slices.ContainsFunc(files, func(f ledger.File) bool { return strings.HasPrefix(f.Path, ledger.ImagesDir+"/") }), nil
}

// pictureReader works out the checksums of pictures, each once.
type pictureReader struct {
	verification *verification
	ctx          context.Context
	blob         func(path string) (ledger.BlobID, error)
	sums         map[string]string // by path
	anew         []disk.Entry
	err          error
}

func (p *pictureReader) sum(path string) string {
	if s, ok := p.sums[path]; ok {
		return s
	}
	s := p.read(path)
	p.sums[path] = s
	if s == "" {
		p.verification.pictures.absent++
	} else {
		p.verification.pictures.looked++
	}
	return s
}

func (p *pictureReader) read(path string) string {
	if p.err != nil || p.ctx.Err() != nil {
		return ""
	}
	blob, err := p.blob(path)
	if err != nil {
		p.err = err
		return ""
	}
	if blob == "" {
		if p.verification.root == "" || !strings.HasPrefix(path, ledger.ImagesDir+"/") {
			return ""
		}
		return p.verification.sumOf(path)
	}
	key, _ := hex.DecodeString(string(blob))
	if kept := p.verification.cache().Get(pictureSums, key); len(kept) == sha256.Size {
		return "sha256:" + hex.EncodeToString(kept)
	}
	data, err := p.verification.repo.Stored().Read(p.ctx, ledger.File{Path: path, Blob: blob, Size: -1})
	if err != nil {
		return "" // damaged: what is stored says so
	}
	h := sha256.Sum256(data)
	p.anew = append(p.anew, disk.Entry{Key: key, Value: h[:]})
	return "sha256:" + hex.EncodeToString(h[:])
}
