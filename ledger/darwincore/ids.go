package darwincore

import (
	"crypto/sha1"
	"encoding/hex"
	"strconv"
	"strings"

	"blotter/ledger"
)

// idMaker makes the identifiers of one museum's sheets.
type idMaker struct {
	base string // address of the site with a slash behind it; "" when it has none
	code string
}

// namespaceURL is the name space for addresses of RFC 9562, section 6.6.
var namespaceURL = []byte{0x6b, 0xa7, 0xb8, 0x11, 0x9d, 0xad, 0x11, 0xd1, 0x80, 0xb4, 0x00, 0xc0, 0x4f, 0xd4, 0x30, 0xc8}

// occurrence is the identifier of a sheet, which stays what it is whatever
// becomes of the record: the address of its page on the museum's site, which
// follows from its number alone. A museum without an address gets a UUID made
// of its code and the number (RFC 9562, version 5), which stays the same too,
// but changes once when the museum gets an address.
func (m *idMaker) occurrence(n ledger.Number) string {
	if m.base != "" {
		return m.base + strings.TrimSuffix(n.Path(), ".yaml") + ".html"
	}
	return uuid("herbarium:" + m.code + "/" + string(n))
}

// uuid is the name-based UUID of a text.
func uuid(name string) string {
	h := sha1.New() // what version 5 is made with; it hides nothing and guards nothing
	h.Write(namespaceURL)
	h.Write([]byte(name))
	u := h.Sum(nil)[:16]
	u[6], u[8] = u[6]&0x0f|0x50, u[8]&0x3f|0x80
	s := hex.EncodeToString(u)
	return "urn:uuid:" + s[:8] + "-" + s[8:12] + "-" + s[12:16] + "-" + s[16:20] + "-" + s[20:]
}

// OccurrenceID is the identifier of the sheet.
func (s *Sheet) OccurrenceID() string { return s.ids.occurrence(s.Number) }

// identificationID is the identifier of determination i: the sheet's, with the
// name's words and kind in short. It stays when an older slip is put before
// it; equal ones are counted.
func (s *Sheet) identificationID(i int) string {
	key := func(d *ledger.Determination) string { return d.Name.Text + "\n" + d.Kind.Text }
	k, nth := key(&s.Record.Determinations[i]), 1
	for j := range i {
		if key(&s.Record.Determinations[j]) == k {
			nth++
		}
	}
	h := sha1.Sum([]byte(k))
	id := s.OccurrenceID() + "#identification-" + hex.EncodeToString(h[:4])
	if nth > 1 {
		id += "-" + strconv.Itoa(nth)
	}
	return id
}
