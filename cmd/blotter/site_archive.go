package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"

	"blotter/ledger/darwincore"
	"blotter/ledger/public"
	"blotter/ledger/reading"
	"blotter/render"
)

// siteArchive is how the archive of the catalogue is made: the same bytes that
// `export dwca` gives for the revision tip.
func (d *desk) siteArchive(ctx context.Context, tip string, s render.Sources) (func(*public.View, render.Revision) *render.Archive, error) {
	commit, err := d.repo.Revision(ctx, tip)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return func(v *public.View, rv render.Revision) *render.Archive {
		x := &exporting{desk: d, tip: tip, book: s.Book, view: v, load: s.Loader, story: s.History}
		x.chooseFrom(nil)
		if len(x.chosen) == 0 {
			return nil
		}
		x.Data = darwincore.NewDataset(v.Book.Museum, rv.ID, commit.Committer.When, d.zone, "")
		return &render.Archive{Key: x.archiveKey(), Version: x.Data.Version(), Citation: x.Data.Citation(),
			Write: func(ctx context.Context, w io.Writer, look render.Looker) error {
				var through darwincore.Looker
				if look != nil {
					through = look
				}
				_, err := x.archive(ctx, w, through)
				return err
			}}
	}, nil
}

// archiveKey is a text that changes whenever the bytes of the archive may.
func (x *exporting) archiveKey() string {
	h := sha256.New()
	fmt.Fprintf(h, "%d %d %s %s %s\n", darwincore.PartVersion, reading.Version, x.Data.Revision, x.Data.Date.UTC(), x.partStamp())
	for _, e := range x.chosen {
		x.stampSheet(h, e)
	}
	return hex.EncodeToString(h.Sum(nil)[:16])
}
