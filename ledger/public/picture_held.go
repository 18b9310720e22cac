package public

import (
	"context"
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
)

// inside is a list of pictures without the addresses of files outside the
// ledger, which name folders of the staff's computers; one of which there is a
// public copy is that copy.
func inside(all []ledger.Image) []ledger.Image {
	outside := func(im ledger.Image) bool { return book.IsOutside(im.File.Text) || book.IsOutside(im.Public.Text) }
	if !slices.ContainsFunc(all, outside) {
		return all
	}
	var out []ledger.Image
	for _, im := range all {
		if book.IsOutside(im.Public.Text) {
			im.Public = ledger.Leaf{}
		}
		if book.IsOutside(im.File.Text) {
			im.File = im.Public
		}
		if im.File.Set() {
			out = append(out, im)
		}
	}
	return out
}

// HeldPictures are the files that withheld records name as pictures and that
// are not marked safe there: no record may show them, such as the neighbour on
// the same sheet, whose picture shows both labels. load brings the full
// records.
func (v *View) HeldPictures(ctx context.Context, load *book.Loader) (map[string]bool, error) {
	held := map[string]bool{}
	if v.staff {
		return held, nil
	}
	for e := range v.full.All() {
		if len(e.Images) == 0 || !v.Hidden(e.Number) {
			continue
		}
		r, err := load.Record(ctx, e)
		if err != nil {
			return nil, err
		}
		for i := range r.Images {
			if im := &r.Images[i]; im.Safe.Text != "yes" || im.Public.Set() && im.Public.Text != im.File.Text {
				held[im.File.Text] = true // its public copy, if it has one, was made to be shown
			}
		}
	}
	delete(held, "")
	return held, nil
}
