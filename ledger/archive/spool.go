package archive

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"hash/maphash"
	"io"
	"os"
	"slices"
)

// spool keeps the rows of one extension until the row of the core that they
// belong to is read: few of them in memory, many in a temporary file, with
// their places sorted by id.
type spool struct {
	files  []string // names of the extension's files
	tmp    string
	seed   maphash.Seed
	wide   int // cells of a row
	places []kept
	used   []bool // of places
	unused int

	body []byte   // of the row last added
	mem  []byte   // all rows, or those not written yet
	file *os.File // nil while all rows are in mem
	size int64    // of what was written to file
	win  []byte   // a piece of file
	from int64    // where win begins
}

// kept is where a row lies.
type kept struct {
	hash uint64
	at   int64
}

// inMemory is how many bytes of rows stay in memory; maxStar how many may
// belong to one row of the core: a record is at most 1 MiB.
const (
	inMemory = 8 << 20
	window   = 64 << 10
	maxStar  = 4 << 20
)

func newSpool(files []string, tmp string) *spool {
	return &spool{files: files, tmp: tmp, seed: maphash.MakeSeed()}
}

// add keeps a row.
func (s *spool) add(id string, file int, line Line) error {
	s.wide = len(line.Cells)
	s.places = append(s.places, kept{maphash.String(s.seed, id), s.size + int64(len(s.mem))})
	b := binary.AppendUvarint(s.body[:0], uint64(file))
	b = binary.AppendUvarint(b, uint64(line.Line))
	b = appendText(b, id)
	for _, c := range line.Cells {
		b = appendText(b, c)
	}
	s.body = b
	s.mem = binary.AppendUvarint(s.mem, uint64(len(b)))
	s.mem = append(s.mem, b...)
	if len(s.mem) < inMemory {
		return nil
	}
	return s.flush()
}

func appendText(b []byte, text string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(text))), text...)
}

// flush writes the rows in memory to the temporary file.
func (s *spool) flush() error {
	if s.file == nil {
		f, err := os.CreateTemp(s.tmp, "rows-*")
		if err != nil {
			return fmt.Errorf("keep rows of %s aside: %w", s.files[0], err)
		}
		s.file = f
	}
	n, err := s.file.Write(s.mem)
	if err != nil {
		return fmt.Errorf("keep rows of %s aside: %w", s.files[0], err)
	}
	s.size += int64(n)
	s.mem = s.mem[:0]
	return nil
}

// seal ends the adding. Rows of one id keep their order.
func (s *spool) seal() error {
	if s.file != nil {
		if err := s.flush(); err != nil {
			return err
		}
		s.mem = nil
		s.win = make([]byte, 0, window)
	}
	slices.SortFunc(s.places, func(a, b kept) int {
		return cmp.Or(cmp.Compare(a.hash, b.hash), cmp.Compare(a.at, b.at))
	})
	s.used = make([]bool, len(s.places))
	s.unused = len(s.places)
	return nil
}

// of gives the rows of an id.
func (s *spool) of(id string) ([]Line, error) {
	h := maphash.String(s.seed, id)
	i, _ := slices.BinarySearchFunc(s.places, h, func(k kept, h uint64) int { return cmp.Compare(k.hash, h) })
	var out []Line
	size := 0
	for ; i < len(s.places) && s.places[i].hash == h; i++ {
		line, whose, n, err := s.row(s.places[i].at)
		if err != nil {
			return nil, err
		}
		if whose != id {
			continue
		}
		if size += n; size > maxStar {
			return nil, fmt.Errorf("read %s: line %d: the rows of id %q have more than %d bytes together", line.File, line.Line, id, maxStar)
		}
		out = append(out, line)
		if !s.used[i] {
			s.used[i] = true
			s.unused--
		}
	}
	return out, nil
}

// orphan is the first row that no id asked for, and how many there are.
func (s *spool) orphan() (line Line, id string, n int, err error) {
	if s.unused == 0 {
		return Line{}, "", 0, nil
	}
	first := int64(-1)
	for i, u := range s.used {
		if at := s.places[i].at; !u && (first < 0 || at < first) {
			first = at
		}
	}
	line, id, _, err = s.row(first)
	return line, id, s.unused, err
}

// row reads the row at a place.
func (s *spool) row(at int64) (line Line, id string, size int, err error) {
	head, err := s.piece(at, binary.MaxVarintLen64)
	if err != nil {
		return Line{}, "", 0, err
	}
	n, used := binary.Uvarint(head)
	body, err := s.piece(at+int64(used), int(n))
	if err != nil {
		return Line{}, "", 0, err
	}
	body = body[:n]
	file, used := binary.Uvarint(body)
	body = body[used:]
	number, used := binary.Uvarint(body)
	text := string(body[used:])
	line = Line{File: s.files[file], Line: int(number), Cells: make([]string, 0, s.wide)}
	id, text = cutText(text)
	for text != "" {
		var cell string
		cell, text = cutText(text)
		line.Cells = append(line.Cells, cell)
	}
	return line, id, int(n), nil
}

func cutText(s string) (first, rest string) {
	var n uint64
	for i, shift := 0, 0; ; i, shift = i+1, shift+7 {
		n |= uint64(s[i]&0x7f) << shift
		if s[i] < 0x80 {
			return s[i+1 : i+1+int(n)], s[i+1+int(n):]
		}
	}
}

// piece is at least n bytes from at on, or what there is.
func (s *spool) piece(at int64, n int) ([]byte, error) {
	if s.file == nil {
		return s.mem[at:], nil
	}
	if end := min(at+int64(n), s.size); at < s.from || end > s.from+int64(len(s.win)) {
		if cap(s.win) < n {
			s.win = make([]byte, 0, max(n, 2*cap(s.win)))
		}
		got, err := s.file.ReadAt(s.win[:cap(s.win)], at)
		if err != nil && err != io.EOF { //nolint:errorlint // ReadAt gives io.EOF itself
			return nil, fmt.Errorf("read the rows of %s kept aside: %w", s.files[0], err)
		}
		s.win, s.from = s.win[:got], at
	}
	return s.win[at-s.from:], nil
}

// close removes the temporary file.
func (s *spool) close() {
	if s != nil && s.file != nil {
		s.file.Close()
		os.Remove(s.file.Name())
		s.file = nil
	}
}
