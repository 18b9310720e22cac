package workbook

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// xmlKind is what the reader stands at.
type xmlKind int

const (
	xmlStart xmlKind = iota // <name ...>, or <name .../>, which is followed by an xmlEnd
	xmlEnd
	xmlText
)

// xmlReader reads the XML of a workbook, one piece at a time, in memory that
// does not grow. It knows no document types and no entities but XML's own five,
// leaves comments and instructions out, and drops the prefixes of names: within
// one part no two vocabularies have elements of one name that matter here.
// encoding/xml puts no bound on one piece of text.
type xmlReader struct {
	r     *bufio.Reader
	part  string
	name  []byte // of xmlStart and xmlEnd, without prefix
	text  []byte // of xmlText
	attrs []xmlAttr
	piece []byte // what is read
	open  []byte // the names of open elements, each followed by '<'
	self  bool   // an xmlEnd follows by itself
	begun bool
}

type xmlAttr struct{ name, value []byte }

func newXMLReader(part string, r io.Reader) *xmlReader {
	return &xmlReader{r: bufio.NewReaderSize(r, 1<<16), part: part}
}

func (x *xmlReader) errorf(format string, args ...any) error {
	return fmt.Errorf("part %s: "+format, append([]any{x.part}, args...)...)
}

// next reads on. At the end of a whole document it gives io.EOF.
func (x *xmlReader) next() (xmlKind, error) {
	if !x.begun {
		x.begun = true
		if b, _ := x.r.Peek(3); len(b) == 3 && string(b) == "\xEF\xBB\xBF" {
			_, _ = x.r.Discard(3)
		} else if len(b) > 1 && (b[0] >= 0xFE || b[1] == 0) {
			return 0, x.errorf("is not in UTF-8")
		}
	}
	if x.self {
		x.self = false
		return xmlEnd, x.close()
	}
	for {
		b, err := x.r.Peek(1)
		switch {
		case err == io.EOF && len(x.open) == 0:
			return 0, io.EOF
		case err != nil:
			return 0, x.broken(err)
		}
		if b[0] != '<' {
			if err := x.readText(); err != nil {
				return 0, err
			}
			if len(x.open) > 0 {
				return xmlText, nil
			}
			if len(bytes.TrimSpace(x.text)) > 0 {
				return 0, x.errorf("has words outside its elements")
			}
			continue
		}
		kind, skip, err := x.readMarkup()
		if err != nil {
			return 0, err
		}
		if !skip {
			return kind, nil
		}
	}
}

// broken says that a part ends too early, or why it cannot be read.
func (x *xmlReader) broken(err error) error {
	if err == io.EOF || errors.Is(err, io.ErrUnexpectedEOF) {
		return x.errorf("ends in the middle")
	}
	return err
}

// until reads to the end of a mark, into piece.
func (x *xmlReader) until(mark string) error {
	x.piece = x.piece[:0]
	last := mark[len(mark)-1]
	for {
		b, err := x.r.ReadSlice(last)
		if len(x.piece)+len(b) > MaxCell {
			return x.errorf("has a piece of more than %d bytes", MaxCell)
		}
		x.piece = append(x.piece, b...)
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
		case err != nil:
			return x.broken(err)
		case bytes.HasSuffix(x.piece, []byte(mark)):
			x.piece = x.piece[:len(x.piece)-len(mark)]
			return nil
		}
	}
}

// readText reads the words up to the next mark.
func (x *xmlReader) readText() error {
	x.piece = x.piece[:0]
	for {
		b, err := x.r.ReadSlice('<')
		if len(x.piece)+len(b) > MaxCell {
			return x.errorf("has a cell of more than %d bytes", MaxCell)
		}
		x.piece = append(x.piece, b...)
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		switch {
		case err == nil:
			_ = x.r.UnreadByte()
			x.piece = x.piece[:len(x.piece)-1]
		case err != io.EOF || len(x.open) > 0:
			return x.broken(err)
		}
		x.text, err = x.unescape(x.piece)
		return err
	}
}

// readMarkup reads a tag; skip means that it says nothing of itself.
func (x *xmlReader) readMarkup() (kind xmlKind, skip bool, err error) {
	b, err := x.r.Peek(9)
	if len(b) < 2 {
		return 0, false, x.broken(err)
	}
	switch {
	case bytes.HasPrefix(b, []byte("<?")):
		if err := x.until("?>"); err != nil {
			return 0, false, err
		}
		return 0, true, x.declared()
	case bytes.HasPrefix(b, []byte("<!--")):
		_, _ = x.r.Discard(4)
		return 0, true, x.until("-->")
	case string(b) == "<![CDATA[" && len(x.open) > 0:
		_, _ = x.r.Discard(9)
		if err := x.until("]]>"); err != nil {
			return 0, false, err
		}
		x.text = x.piece
		return xmlText, false, x.sound(x.text)
	case b[1] == '!':
		return 0, false, x.errorf("declares a document type, which no workbook needs and which may reach outside the file")
	}
	_, _ = x.r.Discard(1)
	if err := x.untilTagEnd(); err != nil {
		return 0, false, err
	}
	if x.piece[0] == '/' {
		x.name = local(bytes.TrimSpace(x.piece[1:]))
		i := bytes.LastIndexByte(x.open[:max(0, len(x.open)-1)], '<') + 1
		if len(x.open) == 0 || !bytes.Equal(x.open[i:len(x.open)-1], x.name) {
			return 0, false, x.errorf("closes %q, which is not open", x.name)
		}
		return xmlEnd, false, x.close()
	}
	return xmlStart, false, x.start()
}

// untilTagEnd reads a tag to its ">", which may stand in quotes before.
func (x *xmlReader) untilTagEnd() error {
	x.piece = x.piece[:0]
	for {
		b, err := x.r.ReadSlice('>')
		if len(x.piece)+len(b) > MaxCell {
			return x.errorf("has a tag of more than %d bytes", MaxCell)
		}
		x.piece = append(x.piece, b...)
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		if err != nil {
			return x.broken(err)
		}
		if quotesClosed(x.piece) {
			x.piece = x.piece[:len(x.piece)-1]
			if len(x.piece) == 0 {
				return x.errorf("has an empty tag")
			}
			return nil
		}
	}
}

// quotesClosed reports whether no quote of either kind is open at the end.
func quotesClosed(tag []byte) bool {
	var open byte
	for _, c := range tag {
		switch {
		case open == 0 && (c == '"' || c == '\''):
			open = c
		case c == open:
			open = 0
		}
	}
	return open == 0
}

// declared looks at <?xml encoding="..."?>.
func (x *xmlReader) declared() error {
	p := string(x.piece)
	if !strings.HasPrefix(p, "<?xml ") {
		return nil
	}
	_, rest, ok := strings.Cut(p, "encoding=")
	if !ok || len(rest) < 2 {
		return nil
	}
	switch enc, _, _ := strings.Cut(rest[1:], rest[:1]); strings.ToLower(enc) {
	case "utf-8", "utf8", "us-ascii", "ascii":
		return nil
	default:
		return x.errorf("is in %s, not in UTF-8", enc)
	}
}

// start parts a start tag.
func (x *xmlReader) start() error {
	tag := x.piece
	if tag[len(tag)-1] == '/' {
		x.self, tag = true, tag[:len(tag)-1]
	}
	n := bytes.IndexAny(tag, " \t\r\n")
	if n < 0 {
		n = len(tag)
	}
	x.name, x.attrs = local(tag[:n]), x.attrs[:0]
	if len(x.name) == 0 {
		return x.errorf("has an element without a name")
	}
	x.open = append(append(x.open, x.name...), '<')
	if len(x.open) > 1<<14 {
		return x.errorf("has elements too deep in one another")
	}
	for rest := bytes.TrimLeft(tag[n:], " \t\r\n"); len(rest) > 0; rest = bytes.TrimLeft(rest, " \t\r\n") {
		eq := bytes.IndexByte(rest, '=')
		if eq <= 0 {
			return x.errorf("has a bad tag <%s>", x.name)
		}
		name := local(bytes.TrimSpace(rest[:eq]))
		rest = bytes.TrimLeft(rest[eq+1:], " \t\r\n")
		if len(rest) < 2 || rest[0] != '"' && rest[0] != '\'' {
			return x.errorf("has a bad tag <%s>", x.name)
		}
		end := bytes.IndexByte(rest[1:], rest[0])
		if end < 0 {
			return x.errorf("has a bad tag <%s>", x.name)
		}
		x.attrs = append(x.attrs, xmlAttr{name, rest[1 : 1+end]})
		rest = rest[end+2:]
	}
	return nil
}

// close takes the innermost open element off.
func (x *xmlReader) close() error {
	if len(x.open) == 0 {
		return x.errorf("closes an element that is not open")
	}
	x.open = x.open[:bytes.LastIndexByte(x.open[:len(x.open)-1], '<')+1]
	return nil
}

// attr is the raw value of an attribute; nil for none.
func (x *xmlReader) attr(name string) []byte {
	for i := range x.attrs {
		if string(x.attrs[i].name) == name {
			return x.attrs[i].value
		}
	}
	return nil
}

// attrText is the value of an attribute, its entities resolved.
func (x *xmlReader) attrText(name string) (string, error) {
	v, err := x.unescape(x.attr(name))
	return string(v), err
}

// skip reads to the end of the element that has just begun.
func (x *xmlReader) skip() error {
	for depth := 1; depth > 0; {
		kind, err := x.next()
		if err != nil {
			return x.broken(err)
		}
		switch kind {
		case xmlStart:
			depth++
		case xmlEnd:
			depth--
		}
	}
	return nil
}

// local is a name without its prefix.
func local(name []byte) []byte {
	return name[bytes.IndexByte(name, ':')+1:]
}

// sound refuses bytes that no XML may hold.
func (x *xmlReader) sound(text []byte) error {
	for i, c := range text {
		if c < ' ' && c != '\t' && c != '\n' && c != '\r' {
			return x.errorf("has the control character %#02x after %q", c, tail(text[:i]))
		}
	}
	if !utf8.Valid(text) {
		return x.errorf("has bytes that are not UTF-8")
	}
	return nil
}

func tail(b []byte) []byte { return b[max(0, len(b)-20):] }

// unescape resolves entities, within the same memory.
func (x *xmlReader) unescape(b []byte) ([]byte, error) {
	if err := x.sound(b); err != nil {
		return nil, err
	}
	if bytes.IndexByte(b, '\r') >= 0 { // an XML reader sees LF (XML 1.0, 2.11)
		b = bytes.ReplaceAll(bytes.ReplaceAll(b, []byte("\r\n"), []byte("\n")), []byte("\r"), []byte("\n"))
	}
	first := bytes.IndexByte(b, '&')
	if first < 0 {
		return b, nil
	}
	out := b[:first]
	for rest := b[first:]; len(rest) > 0; {
		at := bytes.IndexByte(rest, '&')
		if at < 0 {
			return append(out, rest...), nil
		}
		out = append(out, rest[:at]...)
		end := bytes.IndexByte(rest[at:], ';')
		if end < 0 {
			return nil, x.errorf("has an & that begins no entity")
		}
		r, err := x.entity(string(rest[at+1 : at+end]))
		if err != nil {
			return nil, err
		}
		out = utf8.AppendRune(out, r) // never longer than what stood there
		rest = rest[at+end+1:]
	}
	return out, nil
}

// entity is the character of an entity's name.
func (x *xmlReader) entity(name string) (rune, error) {
	switch name {
	case "amp":
		return '&', nil
	case "lt":
		return '<', nil
	case "gt":
		return '>', nil
	case "quot":
		return '"', nil
	case "apos":
		return '\'', nil
	}
	if digits, ok := strings.CutPrefix(name, "#"); ok {
		base := 10
		if hex, ok := strings.CutPrefix(digits, "x"); ok {
			digits, base = hex, 16
		}
		n, err := strconv.ParseUint(digits, base, 32)
		if err == nil && (n == '\t' || n == '\n' || n == '\r' || n >= ' ') && utf8.ValidRune(rune(n)) {
			return rune(n), nil
		}
	}
	return 0, x.errorf("has the entity &%.30s;, which is not one of XML's own", name)
}
