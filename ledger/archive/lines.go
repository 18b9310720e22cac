package archive

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/htmlindex"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
)

// format is how a file is written.
type format struct {
	comma   byte
	quoted  bool // cells may stand between quote marks, and lines break within them
	strips  bool // unquoted lines, but whole cells in quote marks lose them
	returns bool // lines end at CR alone
	charset string
	guess   bool // from the first line
}

// lines reads one file line by line.
type lines struct {
	name   string
	file   io.Closer
	format format
	plain  *bufio.Reader
	csv    *csv.Reader
	bound  *bounded
	line   int
}

// maxLine bounds one row, in bytes: a lost quote mark would otherwise swallow
// the rest of the file.
const maxLine = 4 << 20

// newLines prepares a file for reading; it closes it when that cannot be done.
func newLines(name string, f io.ReadCloser, as format) (*lines, error) {
	l := &lines{name: name, file: f, format: as}
	text, err := decoded(f, as.charset)
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	if as.returns {
		text = transform.NewReader(text, returnsToLines{})
	}
	b := bufio.NewReaderSize(text, 64<<10)
	if as.guess {
		l.format = guess(name, b)
	}
	if l.format.quoted {
		l.bound = &bounded{from: b, left: maxLine}
		l.csv = csv.NewReader(l.bound)
		l.csv.Comma, l.csv.FieldsPerRecord, l.csv.LazyQuotes, l.csv.ReuseRecord = rune(l.format.comma), -1, true, true
		return l, nil
	}
	l.plain = b
	return l, nil
}

// guess takes the sign that is most frequent in the first line for the one
// between cells. Tab separated tables are not quoted as a whole.
func guess(name string, b *bufio.Reader) format {
	head, _ := b.Peek(64 << 10)
	first, _, _ := bytes.Cut(head, []byte("\n"))
	tabs, commas, semis := bytes.Count(first, []byte("\t")), bytes.Count(first, []byte(",")), bytes.Count(first, []byte(";"))
	switch {
	case tabs > commas && tabs > semis, tabs == 0 && commas == 0 && semis == 0 && strings.HasSuffix(strings.ToLower(name), ".tsv"):
		return format{comma: '\t', strips: true}
	case semis > commas:
		return format{comma: ';', quoted: true}
	}
	return format{comma: ',', quoted: true}
}

// decoded is the text of a file in UTF-8, without a byte order mark.
func decoded(r io.Reader, charset string) (io.Reader, error) {
	switch strings.ToLower(strings.NewReplacer("-", "", "_", "").Replace(charset)) {
	case "", "utf8":
		// A byte order mark says UTF-8 or UTF-16; without one the bytes stand.
		return transform.NewReader(r, unicode.BOMOverride(transform.Nop)), nil
	}
	enc, err := htmlindex.Get(charset)
	if err != nil {
		return nil, fmt.Errorf("encoding %s is not known", charset)
	}
	return transform.NewReader(r, unicode.BOMOverride(enc.NewDecoder())), nil
}

// read gives the cells of the next line that is not empty, and its number.
func (l *lines) read() (cells []string, line int, err error) {
	if l.csv != nil {
		cells, err = l.csv.Read()
		l.bound.left = maxLine
		if err != nil {
			return nil, 0, l.fault(err)
		}
		line, _ = l.csv.FieldPos(0)
	} else if cells, line, err = l.readPlain(); err != nil {
		return nil, line, l.fault(err)
	}
	for i, c := range cells {
		if !utf8.ValidString(c) {
			if fixed, err := charmap.Windows1252.NewDecoder().String(c); err == nil {
				cells[i] = fixed
			}
		}
	}
	return cells, line, nil
}

func (l *lines) fault(err error) error {
	if errors.Is(err, io.EOF) {
		return io.EOF
	}
	return fmt.Errorf("read %s: %w", l.name, err)
}

// readPlain splits a line at every comma, whatever quote marks there are.
func (l *lines) readPlain() (cells []string, line int, err error) {
	for {
		text, err := l.plainLine()
		if err != nil {
			return nil, l.line, err
		}
		if text == "" {
			continue
		}
		cells = strings.Split(text, string(rune(l.format.comma)))
		if l.format.strips {
			for i, c := range cells {
				cells[i] = stripped(c)
			}
		}
		return cells, l.line, nil
	}
}

func (l *lines) plainLine() (string, error) {
	l.line++
	var long []byte
	for {
		part, err := l.plain.ReadSlice('\n')
		if errors.Is(err, bufio.ErrBufferFull) {
			long = append(long, part...)
			if len(long) > maxLine {
				return "", fmt.Errorf("line %d: longer than %d bytes", l.line, maxLine)
			}
			continue
		}
		if err != nil && (!errors.Is(err, io.EOF) || len(long)+len(part) == 0) {
			return "", err
		}
		text := string(append(long, part...))
		return strings.TrimRight(text, "\r\n"), nil
	}
}

// stripped takes quote marks off a cell that stands in them as a whole, with
// those inside doubled, as spreadsheets save them; another cell stays.
func stripped(c string) string {
	if len(c) < 2 || c[0] != '"' || c[len(c)-1] != '"' {
		return c
	}
	inside := c[1 : len(c)-1]
	if strings.Contains(strings.ReplaceAll(inside, `""`, ""), `"`) {
		return c
	}
	return strings.ReplaceAll(inside, `""`, `"`)
}

// Close closes the file.
func (l *lines) Close() error { return l.file.Close() }

// bounded stops a reader that asks for too much before left is set anew.
type bounded struct {
	from io.Reader
	left int
}

func (b *bounded) Read(p []byte) (int, error) {
	if b.left <= 0 {
		return 0, fmt.Errorf("a row of more than %d bytes: a quote mark is not closed", maxLine)
	}
	n, err := b.from.Read(p[:min(len(p), b.left)])
	b.left -= n
	return n, err
}

// returnsToLines turns CR into LF.
type returnsToLines struct{ transform.NopResetter }

func (returnsToLines) Transform(dst, src []byte, atEOF bool) (nDst, nSrc int, err error) {
	n := min(len(dst), len(src))
	for i, c := range src[:n] {
		if c == '\r' {
			c = '\n'
		}
		dst[i] = c
	}
	if n < len(src) {
		err = transform.ErrShortDst
	}
	return n, n, err
}
