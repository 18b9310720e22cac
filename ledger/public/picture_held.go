package public

import (
	"context"

	"blotter/ledger/book"
)

// HeldPictures are the files that withheld records name as pictures and that
// are not marked safe there: no record may show them, such as the neighbour on
// the same sheet, whose picture shows both labels. load brings the full
// records.
func (v *View) HeldPictures(ctx context.Context, load *book.Loader) (map[string]bool, error) {
	held := map[string]bool{}
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
