package archive

import (
	"archive/zip"
	"compress/flate"
	"io"
	"strings"
	"time"
)

// Writer writes an archive: a zip file that is the same, byte for byte,
// whenever the same members are written in the same order.
type Writer struct {
	z    *zip.Writer
	when time.Time
}

// NewWriter begins an archive on w. Every member bears the time when, which
// zip files keep to two seconds and from 1980 on.
func NewWriter(w io.Writer, when time.Time) *Writer {
	first := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)
	if when = when.UTC(); when.Before(first) {
		when = first
	}
	z := zip.NewWriter(w)
	z.RegisterCompressor(zip.Deflate, func(out io.Writer) (io.WriteCloser, error) { return flate.NewWriter(out, flate.DefaultCompression) })
	return &Writer{z: z, when: when.Truncate(2 * time.Second)}
}

// Create begins the next member; what is written goes to it until the next
// Create or Close.
func (w *Writer) Create(name string) (io.Writer, error) {
	return w.z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: w.when})
}

// Close ends the archive. It does not close what is below.
func (w *Writer) Close() error { return w.z.Close() }

// AppendRow appends one row in the form of Default: cells parted by commas,
// enclosed by quotation marks where they need them.
func AppendRow(b []byte, cells []string) []byte {
	for i, c := range cells {
		if i > 0 {
			b = append(b, ',')
		}
		b = appendCell(b, c)
	}
	return append(b, '\n')
}

// appendCell writes one cell. A return within it becomes a line feed, which
// most readers would make of it.
func appendCell(b []byte, c string) []byte {
	if strings.IndexByte(c, '\r') >= 0 {
		c = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(c)
	}
	if c == "" || !strings.ContainsAny(c, ",\"\n") && c[0] != ' ' && c[len(c)-1] != ' ' {
		return append(b, c...)
	}
	b = append(b, '"')
	for {
		i := strings.IndexByte(c, '"')
		if i < 0 {
			break
		}
		b = append(b, c[:i+1]...)
		b = append(b, '"')
		c = c[i+1:]
	}
	return append(append(b, c...), '"')
}
