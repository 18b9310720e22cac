package render

import (
	"context"
	"fmt"
	"path"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/public"
)

// imagePath is the path of a picture below images/ in the ledger and on the
// site; false for anything else, an address above all: nothing outside the
// site is ever asked for.
func imagePath(file string) (string, bool) {
	p := strings.TrimPrefix(file, ledger.ImagesDir+"/")
	for _, bad := range []string{"..", "\\", ":", "//", "?", "#", "%"} {
		if strings.Contains(p, bad) {
			return "", false
		}
	}
	switch ending(p) {
	case "jpg", "jpeg", "png", "gif", "webp", "avif":
		return ledger.ImagesDir + "/" + p, p != "" && p[0] != '/'
	}
	return "", false
}

func ending(p string) string { return strings.ToLower(strings.TrimPrefix(path.Ext(p), ".")) }

// strippable reports whether a picture of this name may be shown of a withheld
// record.
func strippable(p string) bool {
	switch ending(p) {
	case "jpg", "jpeg", "png":
		return true
	}
	return false
}

// pictureFile is the file of a record's picture that the site may have: its
// public copy, or else itself.
func (x *sheet) pictureFile(im *ledger.Image) (string, bool) {
	file := im.Public.Text
	if file == "" {
		file = im.File.Text
	}
	p, ok := imagePath(file)
	return p, ok && x.in.Image != nil && x.in.Book.Has(p) && !x.refused[p]
}

// pictureCopy is one picture of the site on its way.
type pictureCopy struct {
	once  sync.Once
	shown bool
	err   error
}

// picture copies one picture into the site, once, however many pages show it.
// shown is false when it may not be: it is no JPEG, PNG, GIF or WebP, so that
// nobody knows what it says beside what it shows.
func (b *build) picture(ctx context.Context, file string) (shown bool, err error) {
	b.mu.Lock()
	c := b.pictures[file]
	if c == nil {
		c = &pictureCopy{}
		b.pictures[file] = c
	}
	b.mu.Unlock()
	c.once.Do(func() {
		data, err := b.in.Image(ctx, file)
		if err != nil {
			c.err = fmt.Errorf("publish %s: %w", file, err)
			return
		}
		if data, c.shown = public.StripPicture(data); c.shown {
			c.err = b.put(file, data)
		}
	})
	return c.shown, c.err
}

// refusedPictures are the files among a record's pictures that may not be
// shown; all others are in the site then.
func (b *build) refusedPictures(ctx context.Context, x *sheet) (map[string]bool, error) {
	var out map[string]bool
	for i := range x.r.Images {
		file, ok := x.pictureFile(&x.r.Images[i])
		if !ok || x.holds(file) {
			continue
		}
		shown, err := b.picture(ctx, file)
		if err != nil {
			return nil, err
		}
		if !shown {
			if out == nil {
				out = map[string]bool{}
			}
			out[file] = true
		}
	}
	return out, nil
}

// holds reports whether a picture that ledger/public lets pass is withheld with
// its record all the same: its file may say where it was taken.
func (x *sheet) holds(file string) bool { return x.held && file != "" && !strippable(file) }

// picturesStand copies the pictures of a page that stands as it was; false
// when one may not be shown any more, so that the page is to be made anew.
func (b *build) picturesStand(ctx context.Context, files []string) (bool, error) {
	for _, f := range files {
		if b.in.Image == nil {
			return false, nil
		}
		if !strings.HasPrefix(f, ledger.ImagesDir+"/") {
			continue
		}
		if shown, err := b.picture(ctx, f); err != nil || !shown {
			return false, err
		}
	}
	return true, nil
}

// refuse notes pictures that may not be shown for the report.
func (b *build) refuse(files map[string]bool) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for f := range files {
		b.report.Refused = append(b.report.Refused, f)
	}
}
