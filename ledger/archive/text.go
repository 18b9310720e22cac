package archive

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/unicode"
)

// text is a file's text in UTF-8, without a byte order mark, and whether it
// was UTF-8 before: then the bytes stand as they are and may be anything.
// A byte order mark says more than the declaration.
func text(r io.Reader, charset string) (io.Reader, bool, error) {
	b := bufio.NewReaderSize(r, 64<<10)
	head, _ := b.Peek(3)
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		_, _ = b.Discard(3) // was peeked
		return b, true, nil
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		return unicode.UTF16(unicode.BigEndian, unicode.ExpectBOM).NewDecoder().Reader(b), false, nil
	}
	enc, err := encodingOf(charset)
	if err != nil {
		return nil, false, err
	}
	if enc == nil {
		return b, true, nil
	}
	return enc.NewDecoder().Reader(b), false, nil
}

// encodingOf finds a declared encoding; nil is UTF-8. Latin-1 is read as
// Windows-1252, as browsers do: the two differ only where Latin-1 has control
// characters, which no table holds on purpose (WHATWG Encoding Standard).
func encodingOf(charset string) (encoding.Encoding, error) {
	switch strings.ToLower(strings.NewReplacer("-", "", "_", "", " ", "").Replace(charset)) {
	case "", "utf8":
		return nil, nil
	case "utf16":
		return unicode.UTF16(unicode.BigEndian, unicode.UseBOM), nil
	case "utf16be":
		return unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM), nil
	case "utf16le":
		return unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM), nil
	case "cp1252", "windows1252", "ansi", "latin1", "iso88591":
		charset = "windows-1252"
	}
	enc, err := htmlindex.Get(charset)
	if err != nil {
		return nil, fmt.Errorf("encoding %s is not known; say UTF-8, ISO-8859-1, windows-1252 or UTF-16, whichever it is", charset)
	}
	return enc, nil
}
