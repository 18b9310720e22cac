package exchange

import (
	"bufio"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// GPX writes specimens as waypoints of GPX 1.1 (the schema of
// www.topografix.com/GPX/1/1, from memory: the order of elements is part of
// it). A withheld place is the centre of its square, and says so.
type GPX struct{ w *bufio.Writer }

// AboutGPX is what the file says of itself.
type AboutGPX struct {
	Name    string
	Museum  string // who holds the rights; "": nothing is said of them
	Licence string // its address; "": none
	Time    time.Time
}

// NewGPX begins a file.
func NewGPX(w io.Writer, about AboutGPX) *GPX {
	g := &GPX{bufio.NewWriterSize(w, 1<<16)}
	b := []byte(`<?xml version="1.0" encoding="UTF-8"?>` + "\n" +
		`<gpx version="1.1" creator="Blotter" xmlns="http://www.topografix.com/GPX/1/1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" ` +
		`xsi:schemaLocation="http://www.topografix.com/GPX/1/1 http://www.topografix.com/GPX/1/1/gpx.xsd">` + "\n<metadata>")
	b = element(b, "name", about.Name)
	if about.Museum != "" {
		b = append(appendXML(append(b, `<copyright author="`...), about.Museum), `">`...)
		if strings.Contains(about.Licence, "://") && !strings.ContainsAny(about.Licence, " <>\"") { // an xsd:anyURI
			b = element(b, "license", about.Licence)
		}
		b = append(b, "</copyright>"...)
	}
	if !about.Time.IsZero() {
		b = element(b, "time", about.Time.UTC().Format(time.RFC3339))
	}
	_, _ = g.w.Write(append(b, "</metadata>\n"...)) // an error stays until Close
	return g
}

// Write writes one specimen: ele, name, cmt, desc, link, type are the elements
// of a waypoint, in this order.
func (g *GPX) Write(s *Spot) error {
	b := append(g.w.AvailableBuffer(), `<wpt lat="`...)
	b = append(append(append(append(b, s.Lat...), `" lon="`...), s.Lon...), `">`...)
	b = element(b, "ele", s.Height)
	b = element(b, "name", s.Number)
	var note, desc []string
	if s.Square != nil {
		note = append(note, "centre of a square, not the place itself")
	}
	for _, kv := range s.Facts {
		switch {
		case kv.Value == "", strings.HasPrefix(kv.Value, "withheld: "): // the note says why
		case kv.Key == "event_date": // the date as written is there
		case kv.Key == NotAField || kv.Key == "withheld":
			note = append(note, kv.Value)
		default:
			desc = append(desc, kv.Value)
		}
	}
	if s.Metres > 0 {
		note = append(note, "± "+strconv.FormatFloat(math.Ceil(s.Metres), 'f', -1, 64)+" m")
	}
	b = element(b, "cmt", strings.Join(note, "; "))
	b = element(b, "desc", strings.Join(desc, "; "))
	if s.Page != "" {
		b = append(appendXML(append(b, `<link href="`...), s.Page), `"/>`...)
	}
	b = element(b, "type", "specimen")
	_, err := g.w.Write(append(b, "</wpt>\n"...))
	return err
}

// Close ends the file.
func (g *GPX) Close() error {
	if _, err := g.w.WriteString("</gpx>\n"); err != nil {
		return err
	}
	return g.w.Flush()
}

// element appends an element; nothing when it has no words.
func element(b []byte, name, words string) []byte {
	if words == "" {
		return b
	}
	b = append(append(append(b, '<'), name...), '>')
	b = appendXML(b, words)
	return append(append(append(b, "</"...), name...), '>')
}

// appendXML appends words; what no XML can hold becomes U+FFFD.
func appendXML(b []byte, s string) []byte {
	for _, r := range s {
		switch {
		case r == '&':
			b = append(b, "&amp;"...)
		case r == '<':
			b = append(b, "&lt;"...)
		case r == '>':
			b = append(b, "&gt;"...)
		case r == '"':
			b = append(b, "&quot;"...)
		case r == '\n' || r == '\t':
			b = append(b, ' ')
		case r < ' ' || r == 0xFFFE || r == 0xFFFF:
			b = utf8.AppendRune(b, utf8.RuneError)
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return b
}
