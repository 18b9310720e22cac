// Package waypoints reads the waypoints and tracks of a satellite receiver in
// the GPX format, versions 1.0 and 1.1, and finds the ones that a gathering
// was made at.
//
// The elements are those of the GPX schemas, from memory. Positions are on
// WGS84 and times in UTC, as the format has them.
package waypoints

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
)

// Point is one waypoint.
type Point struct {
	Name      string // as the file has it, blanks trimmed; "" when it has none
	Comment   string // its comment and description
	Lat, Lon  float64
	Decimals  int       // of the degrees in the file, the fewer of the two
	Elevation float64   // metres above sea level; NaN: not said
	HDOP      float64   // horizontal dilution of precision; NaN: not said
	Time      time.Time // UTC; zero: not said
	Line      int       // of the file
}

// File is what a GPX file holds.
type File struct {
	Version     string
	Creator     string // program or device
	Points      []Point
	Tracks      int // how many, with
	TrackPoints int // so many points: a sheet has no time of day, so they place none
	Faults      []Fault
}

// Fault is a waypoint that cannot be taken.
type Fault struct {
	Line int
	Why  string
}

// Bounds of a file.
const (
	maxBytes  = 512 << 20
	maxPoints = 1_000_000
	maxDepth  = 64
	maxWords  = 4096 // bytes of a text, the rest is left out
)

// Errors of Read, with the line in the error that wraps them.
var (
	ErrNoGPX  = errors.New("the file is no GPX")
	ErrLarge  = errors.New("the file is larger than any that is read")
	errEntity = errors.New("it defines words of its own (DOCTYPE), which no GPX file does")
)

// Is reports whether a file that begins so may be GPX.
func Is(head []byte) bool { return bytes.Contains(head, []byte("<gpx")) }

// Read reads a GPX file. A waypoint that is not whole is a Fault; an error is
// a file that cannot be read to its end.
func Read(r io.Reader) (*File, error) {
	limited := &io.LimitedReader{R: r, N: maxBytes + 1}
	x := &reader{d: xml.NewDecoder(limited), f: &File{}}
	x.d.CharsetReader = charset
	err := x.read()
	line, _ := x.d.InputPos()
	switch {
	case limited.N <= 0:
		return nil, ErrLarge
	case err != nil:
		return nil, fmt.Errorf("read gpx, line %d: %w", line, err)
	}
	return x.f, nil
}

// charset reads the one other encoding in which receivers wrote.
func charset(label string, in io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "iso-8859-1", "latin1", "windows-1252", "us-ascii":
		return &latin1{in: in}, nil
	case "utf-8", "utf8":
		return in, nil
	}
	return nil, fmt.Errorf("its encoding %s is not read", label)
}

// latin1 turns bytes into UTF-8.
type latin1 struct {
	in   io.Reader
	buf  [1024]byte
	left []byte
}

func (l *latin1) Read(p []byte) (int, error) {
	if len(l.left) == 0 {
		n, err := l.in.Read(l.buf[:])
		if n == 0 {
			return 0, err
		}
		var out []byte
		for _, b := range l.buf[:n] {
			out = append(out, string(rune(b))...)
		}
		l.left = out
	}
	n := copy(p, l.left)
	l.left = l.left[n:]
	return n, nil
}

// reader is one run over a file.
type reader struct {
	d     *xml.Decoder
	f     *File
	path  []string // names of the open elements
	at    *Point   // the waypoint that is open
	bad   string   // why it cannot be taken
	words []byte   // of the innermost element
}

func (x *reader) read() error {
	for {
		t, err := x.d.RawToken()
		if err == io.EOF {
			if len(x.path) > 0 {
				return io.ErrUnexpectedEOF
			}
			if x.f.Version == "" {
				return ErrNoGPX
			}
			return nil
		}
		if err != nil {
			return err
		}
		switch t := t.(type) {
		case xml.Directive:
			return errEntity
		case xml.StartElement:
			err = x.start(t)
		case xml.EndElement:
			err = x.end(t.Name.Local)
		case xml.CharData:
			if n := maxWords - len(x.words); n > 0 {
				x.words = append(x.words, t[:min(n, len(t))]...)
			}
		}
		if err != nil {
			return err
		}
	}
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name && a.Name.Space == "" {
			return a.Value
		}
	}
	return ""
}

func (x *reader) start(e xml.StartElement) error {
	name := e.Name.Local
	x.words = x.words[:0]
	switch len(x.path) {
	case 0:
		x.f.Version, x.f.Creator = attr(e, "version"), strings.TrimSpace(attr(e, "creator"))
		if name != "gpx" || x.f.Version != "1.0" && x.f.Version != "1.1" {
			return ErrNoGPX
		}
	case 1:
		switch name {
		case "wpt":
			if len(x.f.Points) == maxPoints {
				return ErrLarge
			}
			line, _ := x.d.InputPos()
			x.at, x.bad = &Point{Elevation: math.NaN(), HDOP: math.NaN(), Line: line}, ""
			x.place(attr(e, "lat"), attr(e, "lon"))
		case "trk":
			x.f.Tracks++
		}
	case 3:
		if name == "trkpt" && x.path[1] == "trk" {
			x.f.TrackPoints++
		}
	case maxDepth:
		return errors.New("elements stand too deep in each other")
	}
	x.path = append(x.path, name)
	return nil
}

// place reads the position of the open waypoint.
func (x *reader) place(lat, lon string) {
	var okLat, okLon bool
	x.at.Lat, okLat = degrees(lat, 90)
	x.at.Lon, okLon = degrees(lon, 180)
	if !okLat || !okLon {
		x.bad = fmt.Sprintf("its position %.40q, %.40q is none on earth", lat, lon)
	}
	x.at.Decimals = min(decimals(lat), decimals(lon))
}

func degrees(s string, most float64) (float64, bool) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	return v, err == nil && math.Abs(v) <= most // NaN is not
}

func decimals(s string) int {
	_, after, _ := strings.Cut(strings.TrimSpace(s), ".")
	return len(after)
}

func (x *reader) end(name string) error {
	if n := len(x.path); n == 0 || x.path[n-1] != name {
		return errors.New("elements are closed in another order than they were opened")
	}
	x.path = x.path[:len(x.path)-1]
	words := strings.Join(strings.Fields(string(x.words)), " ")
	x.words = x.words[:0]
	switch {
	case x.at != nil && len(x.path) == 2:
		x.field(name, words)
	case x.at != nil && len(x.path) == 1:
		if x.bad != "" {
			x.f.Faults = append(x.f.Faults, Fault{x.at.Line, x.bad})
		} else {
			x.f.Points = append(x.f.Points, *x.at)
		}
		x.at = nil
	}
	return nil
}

// field takes a value of the open waypoint.
func (x *reader) field(name, words string) {
	switch name {
	case "name":
		x.at.Name = words
	case "cmt", "desc":
		if words != "" && words != x.at.Comment {
			x.at.Comment = strings.TrimSpace(x.at.Comment + " " + words)
		}
	case "ele":
		if v, err := strconv.ParseFloat(words, 64); err == nil && math.Abs(v) < 20000 {
			x.at.Elevation = v
		}
	case "hdop":
		if v, err := strconv.ParseFloat(words, 64); err == nil && v > 0 && v < 100 {
			x.at.HDOP = v
		}
	case "time":
		if t, err := time.Parse(time.RFC3339Nano, words); err == nil && t.Year() > 1970 {
			x.at.Time = t.UTC()
		} else if t, err := time.Parse("2006-01-02T15:04:05", words); err == nil && t.Year() > 1970 {
			x.at.Time = t // without its Z, as some programs write it
		}
	}
}
