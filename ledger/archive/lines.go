package archive

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// format is how a file is written.
type format struct {
	signs
	charset string
	guess   bool // from the first line
	strict  bool // what is not text in the declared character set is a fault
}

// lines reads one file row by row.
type lines struct {
	name   string
	file   io.Closer
	format format
	bytes  bool // the file is UTF-8, or says so
	scan   *scanner
}

// newLines prepares a file for reading; it closes it when that cannot be done.
func newLines(name string, f io.ReadCloser, as format) (*lines, error) {
	l := &lines{name: name, file: f, format: as}
	r, asIs, err := text(f, as.charset)
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	l.bytes = asIs
	if as.guess {
		b := bufio.NewReaderSize(r, 64<<10)
		l.format.signs = guess(name, b)
		r = b
	}
	if l.format.ends == "\r\n" { // a file that says so may have LF as well
		l.format.ends = "\n"
	}
	l.scan = newScanner(r, l.format.signs)
	return l, nil
}

// guess takes the sign that is most frequent in the first line for the one
// between cells. Tab separated tables are not quoted as a whole.
func guess(name string, b *bufio.Reader) signs {
	head, _ := b.Peek(64 << 10)
	first, _, _ := bytes.Cut(head, []byte("\n"))
	tabs, commas, semis := bytes.Count(first, []byte("\t")), bytes.Count(first, []byte(",")), bytes.Count(first, []byte(";"))
	switch {
	case tabs > commas && tabs > semis, tabs == 0 && commas == 0 && semis == 0 && strings.HasSuffix(strings.ToLower(name), ".tsv"):
		return signs{comma: "\t", quote: `"`, ends: "\n", whole: true}
	case semis > commas:
		return signs{comma: ";", quote: `"`, ends: "\n"}
	}
	return signs{comma: ",", quote: `"`, ends: "\n"}
}

// read gives the cells of the next line that is not empty, and its number.
func (l *lines) read() (cells []string, line int, err error) {
	cells, line, err = l.scan.next()
	if err != nil {
		return nil, line, l.fault(line, err)
	}
	if l.format.strict {
		if row := l.scan.text; strings.IndexByte(row, 0) < 0 && (l.bytes && utf8.ValidString(row) || !l.bytes && !strings.ContainsRune(row, utf8.RuneError)) {
			return cells, line, nil
		}
		return cells, line, l.judge(cells, line)
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

// judge says which cell is no text in the declared character set.
func (l *lines) judge(cells []string, line int) error {
	for i, c := range cells {
		switch {
		case strings.IndexByte(c, 0) >= 0:
			return l.fault(line, fmt.Errorf("column %d holds a zero byte: the file is not text, or is UTF-16 and meta.xml does not say so", i+1))
		case l.bytes && !utf8.ValidString(c):
			return l.fault(line, fmt.Errorf("column %d holds bytes that are not UTF-8, which meta.xml declares; if the whole file is in another encoding, write it into meta.xml (encoding=\"windows-1252\"), else mend the line", i+1))
		case !l.bytes && strings.ContainsRune(c, utf8.RuneError):
			return l.fault(line, fmt.Errorf("column %d holds bytes that have no meaning in %s, which meta.xml declares", i+1, l.format.charset))
		}
	}
	return nil
}

func (l *lines) fault(line int, err error) error {
	if errors.Is(err, io.EOF) {
		return io.EOF
	}
	return fmt.Errorf("read %s: line %d: %w", l.name, line, err)
}

// Close closes the file.
func (l *lines) Close() error { return l.file.Close() }
