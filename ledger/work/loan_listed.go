package work

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Protection is the legal protection of a sheet's taxon by names/, its own or
// that of the species, genus or family that it belongs to; "" for none.
func (w *Works) Protection(e *book.Entry) string {
	words := w.listed(e, func(n *ledger.NameEntry) string { return n.Protection.Text })
	switch strings.ToLower(words) {
	case "none", "no", "not protected", "least concern", "lc":
		return ""
	}
	return words
}

// Treaty is the appendix of the treaty on trade in species that lists a
// sheet's taxon by names/; "" for none.
func (w *Works) Treaty(e *book.Entry) string {
	words := w.listed(e, func(n *ledger.NameEntry) string { return n.Treaty.Text })
	if strings.EqualFold(words, "none") || strings.EqualFold(words, "no") {
		return ""
	}
	return words
}

// listed is what names/ says of a taxon, the nearest name first: what it has
// for itself goes before what it has for its genus.
func (w *Works) listed(e *book.Entry, of func(*ledger.NameEntry) string) string {
	names := &w.book.Museum.Names
	for _, key := range []string{e.NameKey, w.taxon(e)} {
		for key != "" {
			if n := names.Find(key); n != nil {
				if s := of(n.Given); s != "" {
					return s
				}
			}
			key = above(key)
		}
	}
	if f := w.book.Museum.FamilyOf(w.taxon(e), e.Family); f != "" {
		if n := names.Find(f); n != nil {
			return of(n.Given)
		}
	}
	return ""
}

// above is the species of a subspecies, the genus of a species, "" of a genus.
func above(key string) string {
	genus, rest := book.GenusOf(key)
	switch epithet, below, _ := strings.Cut(rest, " "); {
	case rest == "":
		return ""
	case below == "" || epithet == "×":
		return genus
	default:
		return genus + " " + epithet
	}
}

// Withheld reports whether a sheet's place is withheld, by its own mark or
// that of its name.
func (w *Works) Withheld(e *book.Entry) bool { return w.book.Museum.Withheld(e) }
