package public

import (
	"blotter/ledger"
	"blotter/ledger/book"
)

// inner is unnameable elsewhere, so that nobody else can make a Book.
type inner = book.Book

// Book is one version of a ledger as everybody may see it. Only this package
// can make one: whatever writes something for the public asks for a Book and
// so cannot be given the full one by mistake.
type Book struct {
	*inner
	view *View
}

// Staff reports whether nothing is withheld in it, since it is for the
// museum's own staff (ForStaff).
func (b *Book) Staff() bool { return b.view.staff }

// Class is how strictly a record is withheld now.
func (b *Book) Class(n ledger.Number) Class { return b.view.Class(n) }

// Square is the square in which an entry of b is shown; nil when it is shown
// as it is or not at all.
func (b *Book) Square(e *book.Entry) *Cell {
	if !e.Positioned {
		return nil
	}
	return CellOf(e.Lat, e.Lon, 0, b.Class(e.Number))
}
