package ledger

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// scan is what the pass over the bytes before the parser found out.
type scan struct {
	d        *decoder
	src      []byte
	line     int
	lineFrom int   // offset of the line's first byte
	hash     bool  // a # stands after a blank, so that words may be cut
	fatal    bool  // the parser would read other lines than people do
	content  bool  // a line with content has been passed
	left     []int // lines with markers of two readings
	composed int   // the last line of which a letter with its mark apart was told
}

// scanBytes makes the pass over src, which is small enough.
func scanBytes(d *decoder, src []byte) *scan {
	s := &scan{d: d, src: src, line: 1}
	if bytes.HasPrefix(src, []byte("\xff\xfe")) || bytes.HasPrefix(src, []byte("\xfe\xff")) {
		d.add("text-encoding", 1, 1, "", "the file is UTF-16, which other programs here do not read", "Save it as UTF-8")
		s.fatal = true
		return s
	}
	for i := 0; i < len(src) && !d.full(); {
		i = s.scanLine(i)
	}
	return s
}

// scanLine looks at the line that begins at i and returns where the next begins.
func (s *scan) scanLine(i int) int {
	s.lineFrom = i
	s.marks(i)
	words, tabbed := false, false
	for i < len(s.src) && !s.d.full() {
		c := s.src[i]
		switch {
		case c > ' ' && c < 0x7f:
			if c == '#' && i > s.lineFrom && (s.src[i-1] == ' ' || s.src[i-1] == '\t') {
				s.hash = s.hash || words || i+1 < len(s.src) && s.src[i+1] > ' '
			}
			words = true
			i++
		case c == ' ':
			i++
		case c == '\t':
			if !words && !tabbed && s.d.tabLine == 0 && s.indents(i) {
				s.d.tabLine, s.d.tabCol = s.line, s.col(i)
			}
			tabbed = true
			i++
		case c == '\n':
			return s.next(i+1, words)
		case c == '\r':
			if i+1 < len(s.src) && s.src[i+1] == '\n' {
				i++
			}
			return s.next(i+1, words)
		default:
			i += s.special(i)
			words = true
		}
	}
	return s.next(i, words)
}

func (s *scan) next(i int, words bool) int {
	s.line++
	s.content = s.content || words && s.src[s.lineFrom] != '#' && s.src[s.lineFrom] != '%'
	return i
}

// indents reports whether the tab at i, the first thing but blanks in its
// line, stands before words. Only if the parser stumbles is that a fault, for
// a tab may be words of a block scalar.
func (s *scan) indents(i int) bool {
	rest := bytes.TrimLeft(s.src[i:], " \t")
	return len(rest) > 0 && rest[0] != '\n' && rest[0] != '\r' && rest[0] != '#'
}

// marks looks for the signs that only the beginning of a line can hold.
func (s *scan) marks(i int) {
	line := s.src[i:]
	switch {
	case len(line) > 0 && line[0] == '%' && !s.content:
		s.d.add("yaml-documents", s.line, 1, "", "a line that begins with % is an order to the YAML reader, which no record needs", "Take line "+fmt.Sprint(s.line)+" out")
		s.fatal = true
	case marker(line):
		if line[0] == '<' || !s.fatal { // the second marker of a pair is no second fault
			s.left = append(s.left, s.line)
		}
		s.fatal = true
	case s.content && len(line) >= 3 && (string(line[:3]) == "---" || string(line[:3]) == "...") &&
		(len(line) == 3 || line[3] == ' ' || line[3] == '\n' || line[3] == '\r' || line[3] == '\t'):
		if rest := bytes.TrimSpace(line[3:]); string(line[:3]) == "..." && len(rest) == 0 {
			return
		}
		s.d.add("yaml-documents", s.line, 1, "", "the line ends the record here, and what follows would be lost",
			"Take line "+fmt.Sprint(s.line)+" out; one file is one record")
	}
}

// marker reports whether a line is one that a merge left: seven signs, then a
// blank or the line's end.
func marker(line []byte) bool {
	if len(line) < 7 || line[0] != '<' && line[0] != '>' {
		return false
	}
	return bytes.Count(line[:7], line[:1]) == 7 && (len(line) == 7 || line[7] == ' ' || line[7] == '\n' || line[7] == '\r')
}

// special looks at a byte that is no printing ASCII character and returns how
// many bytes it takes.
func (s *scan) special(i int) int {
	r, n := utf8.DecodeRune(s.src[i:])
	add := func(code, message, hint string) { s.d.add(code, s.line, s.col(i), "", message, hint) }
	switch {
	case r == utf8.RuneError && n == 1:
		if s.d.badUTF8++; s.d.badUTF8 == 1 {
			add("text-encoding", fmt.Sprintf("the byte %02X is not UTF-8; the file was saved in an older character set", s.src[i]), "Save the file as UTF-8, then look at every letter with an accent")
		}
		s.fatal = true
	case r == '\uFEFF' && i == 0:
		add("text-bom", "the file begins with a byte order mark, which hides its first word from some programs", "blotter tidy takes it out")
	case r < ' ' || r >= 0x7f && r < 0x85 || r > 0x85 && r < 0xa0:
		add("text-control", fmt.Sprintf("an invisible control character (U+%04X) stands here", r), "Take it out")
		s.fatal = true
	case separator(r):
		add("text-separator", fmt.Sprintf("an invisible character (U+%04X) stands here that only some readers of YAML take for the end of the line", r), "Put a blank or a new line in its place")
		s.fatal = true
	case turning(r):
		add("text-direction", fmt.Sprintf("an invisible character (U+%04X) stands here that turns the direction of the text, so that it reads otherwise than it is", r), "Take it out")
	case r >= 0x300 && r < 0x370:
		if one, ok := composed(s.src[s.lineFrom:i], r); ok && s.composed != s.line {
			s.composed = s.line
			add("text-composed", "a letter and its mark are two characters here, and one elsewhere: a search finds only one of the two", "Write it as one character: "+string(one))
		}
	case widthless(r):
		add("text-invisible", fmt.Sprintf("a character of no width (U+%04X) stands here; a search would miss the word", r), "Take it out")
	}
	return n
}

func separator(r rune) bool { return r == 0x85 || r == 0x2028 || r == 0x2029 }

// turning reports whether r is one of the bidirectional formatting characters
// (Unicode Standard Annex 9, section 2).
func turning(r rune) bool {
	return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x200e || r == 0x200f || r == 0x61c
}

// composed is the one character that the last letter of before and a mark set
// over it make (Unicode Standard Annex 15, normalization form C).
func composed(before []byte, mark rune) (rune, bool) {
	letter, n := utf8.DecodeLastRune(before)
	if n == 0 {
		return 0, false
	}
	s := norm.NFC.String(string([]rune{letter, mark}))
	one, n := utf8.DecodeRuneInString(s)
	return one, n == len(s)
}

func widthless(r rune) bool { return r == 0x200b || r == 0x2060 || r == 0xfeff || r == 0xad }

// col is the column of offset i in the current line, in code points from 1.
func (s *scan) col(i int) int { return utf8.RuneCount(s.src[s.lineFrom:i]) + 1 }

// lines finds the lines of a file: LF, CRLF and CR each end one.
type lines struct {
	src  []byte
	from []int // offset of each line's first byte
}

func newLines(src []byte) *lines {
	l := &lines{src: src, from: append(make([]int, 0, 64), 0)}
	for i, c := range src {
		if c == '\n' || c == '\r' && (i+1 == len(src) || src[i+1] != '\n') {
			l.from = append(l.from, i+1)
		}
	}
	return l
}

// offset is the place of a line and column (code points from 1; a byte order
// mark at the beginning does not count) in the file.
func (l *lines) offset(line, col int) int {
	if line < 1 || line > len(l.from) {
		return len(l.src)
	}
	i := l.from[line-1]
	if line == 1 && bytes.HasPrefix(l.src, []byte("\uFEFF")) {
		i += len("\uFEFF")
	}
	for ; col > 1 && i < len(l.src); col-- {
		_, n := utf8.DecodeRune(l.src[i:])
		i += n
	}
	return i
}

// text is the words of a line without its end.
func (l *lines) text(line int) string {
	if line < 1 || line > len(l.from) {
		return ""
	}
	end := len(l.src)
	if line < len(l.from) {
		end = l.from[line]
	}
	return strings.TrimRight(string(l.src[l.from[line-1]:end]), "\r\n")
}
