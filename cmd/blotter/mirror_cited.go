package main

import (
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger/book"
	"blotter/ledger/mirror"
	"blotter/ledger/public"
)

// cited is the commit of the public mirror that a commit of the ledger became,
// "" when none; nil when there is no mirror, or when its commits may not be
// cited any more because something that it shows is withheld now. Of several
// mirrors the longest counts: those of one ledger have the same commits.
func (d *desk) cited(b *book.Book) func(id string) string {
	var best *mirror.State
	for _, s := range d.mirrorStates() {
		if best == nil || s.Len() > best.Len() {
			best = s
		}
	}
	if best == nil || !best.Cited(b.All(), public.Of(b)) {
		return nil
	}
	return best.Commit
}

// mirrorStates are what is kept of the mirrors that were made from this copy.
func (d *desk) mirrorStates() []*mirror.State {
	list, err := os.ReadDir(d.mirrorFolder())
	if err != nil {
		return nil
	}
	var all []*mirror.State
	for _, f := range list {
		if strings.HasSuffix(f.Name(), nextState) || !strings.HasPrefix(f.Name(), "site-") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(d.mirrorFolder(), f.Name()))
		if err != nil {
			continue
		}
		if s := mirror.DecodeState(text); s != nil {
			all = append(all, s)
		}
	}
	return all
}
