package public

import "blotter/ledger/book"

// inner is unnameable elsewhere, so that nobody else can make a Book.
type inner = book.Book

// Book is one version of a ledger as everybody may see it. Only this package
// can make one: whatever writes something for the public asks for a Book and
// so cannot be given the full one by mistake.
type Book struct {
	*inner
	staff bool
}

// Staff reports whether nothing is withheld in it, since it is for the
// museum's own staff.
func (b *Book) Staff() bool { return b.staff }
