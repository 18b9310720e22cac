package exchange

import (
	"bufio"
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// look is what one pass over the bytes of a text file finds out: what it is
// written in, and the first place where it is not well formed.
type look struct {
	sum    string
	wide   string // utf-16le, utf-16be; "" when a letter is a byte or a few
	comma  byte
	sep    bool // the first line only names the separator: sep=;
	macEnd bool // lines end at CR alone

	letters  int       // beyond ASCII, in UTF-8
	foreign  int       // lines with bytes that are not UTF-8
	firstBad spot      // the first such byte
	badLine  string    // its line, read as Windows-1252
	outside  spot      // the first byte that is not in Windows-1252 either
	zero     spot      // the first zero byte
	quoted   bool      // some cell stands in quote marks
	odd      spot      // the first quote mark that neither opens nor closes a cell
	open     spot      // where a quote mark was opened and not closed within maxRow
	long     int       // the first line longer than maxRow; nothing behind it was looked at
	sample   [5]string // the first words with letters beyond ASCII, read as Windows-1252
}

// spot is a place in a file, both from 1; the zero spot is nowhere.
type spot struct {
	line, col int
	b         byte
}

func (s spot) is() bool { return s.line > 0 }

func (s spot) String() string { return fmt.Sprintf("line %d, column %d", s.line, s.col) }

// headOf is how much of a file is looked at to guess how it is written.
const headOf = 64 << 10

// lookAt reads a file through once.
func lookAt(f io.Reader, comma byte) (*look, error) {
	l := &look{comma: comma}
	h := sha256.New()
	b := bufio.NewReaderSize(io.TeeReader(f, h), headOf)
	head, err := b.Peek(headOf)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	l.wide = widthOf(head)
	text := bufio.NewReaderSize(l.narrow(b), headOf)
	if head, err = text.Peek(headOf); err != nil && !errors.Is(err, io.EOF) {
		return nil, err
	}
	l.guess(head)
	s := &scan{look: l, line: 1, col: 1, start: true}
	if err := s.all(text); err != nil {
		return nil, err
	}
	l.sum = digest(h, b)
	return l, nil
}

// digest finishes a checksum: what the decoder left unread belongs to it.
func digest(h hash.Hash, rest io.Reader) string {
	io.Copy(io.Discard, rest)
	return hex.EncodeToString(h.Sum(nil))
}

// widthOf finds UTF-16 by its byte order mark, or by every second byte of an
// ASCII text being zero.
func widthOf(head []byte) string {
	switch {
	case bytes.HasPrefix(head, []byte{0xff, 0xfe}):
		return "utf-16le"
	case bytes.HasPrefix(head, []byte{0xfe, 0xff}):
		return "utf-16be"
	}
	var zeros [2]int
	for i, c := range head {
		if c == 0 {
			zeros[i%2]++
		}
	}
	switch half := len(head) / 2; {
	case half > 1 && zeros[1]*10 > half*6 && zeros[0]*10 < half:
		return "utf-16le"
	case half > 1 && zeros[0]*10 > half*6 && zeros[1]*10 < half:
		return "utf-16be"
	}
	return ""
}

// narrow is the text one byte or a few a letter, without a byte order mark.
func (l *look) narrow(r io.Reader) io.Reader {
	switch l.wide {
	case "utf-16le":
		return transform.NewReader(r, unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder())
	case "utf-16be":
		return transform.NewReader(r, unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewDecoder())
	}
	b := bufio.NewReaderSize(r, headOf)
	if mark, _ := b.Peek(3); string(mark) == "\ufeff" {
		b.Discard(3)
	}
	return b
}

// guess finds how lines end and what stands between cells: the sign that is
// most frequent in the first line that is not blank, outside quote marks. A
// first line sep=; as spreadsheets write it says so itself.
func (l *look) guess(head []byte) {
	l.macEnd = bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(head, '\r') >= 0
	first := head
	for {
		line := first
		if i := bytes.IndexAny(first, "\r\n"); i >= 0 {
			line, first = first[:i], first[i+1:]
		} else {
			first = nil
		}
		if rest, ok := bytes.CutPrefix(bytes.ToLower(line), []byte("sep=")); ok && len(rest) == 1 {
			l.sep = true
			if l.comma == 0 {
				l.comma = rest[0]
			}
		}
		if len(bytes.TrimSpace(line)) > 0 || first == nil {
			if l.comma == 0 {
				l.comma = separatorOf(append(append(bytes.Clone(line), '\n'), first...))
			}
			return
		}
	}
}

func commaOf(line []byte) byte {
	best, most, within := byte(','), 0, false
	counts := map[byte]int{}
	for _, c := range line {
		switch {
		case c == '"':
			within = !within
		case !within:
			counts[c]++
		}
	}
	for _, c := range []byte(",;\t|") {
		if counts[c] > most {
			best, most = c, counts[c]
		}
	}
	return best
}

// scan walks over the bytes and keeps the line, the column and where it stands
// between quote marks.
type scan struct {
	*look
	line, col int
	start     bool // at the beginning of a cell
	within    bool // between quote marks
	closed    bool // after a quote mark that may have closed the cell
	opened    spot
	now       []byte // the bytes of the line at hand, as far as they matter
	flagged   int    // the last line counted as foreign
	words     int
	last      byte
	bytes     int // of the line at hand
	cell      int // since a quote mark was opened
}

func (s *scan) all(r *bufio.Reader) error {
	for {
		chunk, err := r.Peek(utf8.UTFMax)
		if len(chunk) == 0 {
			if errors.Is(err, io.EOF) {
				break
			}
			return err
		}
		if n := r.Buffered(); n > len(chunk) {
			chunk, _ = r.Peek(n)
		} else if err != nil && !errors.Is(err, io.EOF) {
			return err
		}
		used := s.chunk(chunk, errors.Is(err, io.EOF))
		r.Discard(used)
		if s.bytes += used; s.bytes > maxRow+headOf {
			s.long = s.line
			return nil
		}
		if s.cell += used; s.within && s.cell > maxRow+headOf {
			if !s.open.is() {
				s.open = s.opened
			}
			s.within, s.closed = false, false
		}
	}
	if s.within && !s.closed && !s.open.is() {
		s.open = s.opened
	}
	if len(s.now) > 0 {
		s.endLine()
	}
	return nil
}

// chunk takes whole letters; what may be the first bytes of one more is left,
// unless the file ends.
func (s *scan) chunk(p []byte, end bool) int {
	i := 0
	for i < len(p) {
		c := p[i]
		if c < utf8.RuneSelf {
			s.ascii(c)
			i++
			continue
		}
		if !end && !utf8.FullRune(p[i:]) {
			break
		}
		r, size := utf8.DecodeRune(p[i:])
		if r == utf8.RuneError && size == 1 {
			s.notUTF8(c)
		} else {
			s.letters++
		}
		for _, b := range p[i : i+size] {
			s.keep(b)
		}
		if s.start {
			s.start = false
		}
		s.afterClose(c)
		s.col++
		i += size
	}
	if i == 0 && len(p) > 0 {
		return 1
	}
	return i
}

// keep remembers the line at hand, for the word in which a foreign byte stands.
func (s *scan) keep(b byte) {
	if len(s.now) < 4096 {
		s.now = append(s.now, b)
	}
}

func (s *scan) notUTF8(c byte) {
	if !s.firstBad.is() {
		s.firstBad = spot{s.line, s.col, c}
	}
	if s.flagged != s.line {
		s.flagged = s.line
		s.foreign++
	}
	switch c {
	case 0x81, 0x8d, 0x8f, 0x90, 0x9d:
		if !s.outside.is() {
			s.outside = spot{s.line, s.col, c}
		}
	}
}

// afterClose holds that a separator or the line's end follows a closing mark.
func (s *scan) afterClose(c byte) {
	if s.closed {
		if !s.odd.is() {
			s.odd = spot{s.line, s.col, c}
		}
		s.closed, s.within = false, false
	}
}

func (s *scan) ascii(c byte) {
	switch {
	case c == 0:
		if !s.zero.is() {
			s.zero = spot{s.line, s.col, 0}
		}
	case c == '"':
		s.quote()
		s.col++
		s.keep(c)
		s.last = c
		return
	case c == s.comma || c == '\n' || c == '\r':
		if s.closed || !s.within {
			s.closed, s.within, s.start = false, false, true
		}
	default:
		s.start = false
		s.afterClose(c)
	}
	s.col++
	s.keep(c)
	if c == '\n' && s.last != '\r' || c == '\r' {
		s.endLine()
	}
	if c == '\n' {
		s.col = 1
		s.now = s.now[:0]
	}
	s.last = c
}

func (s *scan) quote() {
	switch {
	case s.closed: // doubled: a quote mark within the cell
		s.closed = false
	case s.within:
		s.closed = true
	case s.start:
		s.within, s.start, s.quoted, s.opened, s.cell = true, false, true, spot{s.line, s.col, '"'}, 0
	case !s.odd.is():
		s.odd = spot{s.line, s.col, '"'}
	}
}

func (s *scan) endLine() {
	if s.flagged == s.line {
		if s.badLine == "" {
			s.badLine = strings.TrimSpace(fromWindows(string(s.now)))
		}
		s.gather()
	}
	s.line++
	s.col, s.bytes = 1, 0
	s.now = s.now[:0]
}

// gather keeps a few words that are not ASCII.
func (s *scan) gather() {
	for _, w := range strings.FieldsFunc(string(s.now), func(r rune) bool { return strings.ContainsRune(" ,;:\t\"|/()[]\r\n", r) }) {
		if s.words == len(s.sample) {
			return
		}
		if !utf8.ValidString(w) {
			s.sample[s.words] = fromWindows(w)
			s.words++
		}
	}
}
