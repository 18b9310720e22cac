package exchange

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"
	"strconv"

	"blotter/ledger"
)

// AppendJSON appends a text as a JSON string.
func AppendJSON(b []byte, s string) []byte {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c == '"' || c == '\\' || c >= 0x7F {
			return appendEscaped(b, s)
		}
	}
	return append(append(append(b, '"'), s...), '"')
}

func appendEscaped(b []byte, s string) []byte {
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	_ = e.Encode(s) // a string has no error
	return append(b, bytes.TrimSuffix(out.Bytes(), []byte("\n"))...)
}

// AppendJSONRecord appends the fields of a record as one object: its paths are
// the names, every value is a string, in the order of the field table.
func AppendJSONRecord(b []byte, fields []ledger.KV) []byte {
	b = append(b, '{')
	for i, kv := range fields {
		if i > 0 {
			b = append(b, ',')
		}
		b = AppendJSON(append(AppendJSON(b, kv.Key), ':'), kv.Value)
	}
	return append(b, '}')
}

// maxLine bounds one object of a file of JSON, in bytes.
const maxLine = 8 << 20

// NotAField is the one name beside the paths of fields in what goes to a
// partner: that the exact place is not to be published. Import leaves it out.
const NotAField = "accessRights"

// ReadJSON makes records of a file of JSON, one object a line, as export json
// writes it: the names are paths of fields, the values strings. Groups and lists
// may also stand as objects and arrays. A line that is no such object makes no
// record; an error ends the reading.
func ReadJSON(name, sha256 string, r io.Reader) iter.Seq2[Made, error] {
	return func(yield func(Made, error) bool) {
		in := bufio.NewReaderSize(r, 1<<16)
		var long []byte
		for line := 1; ; line++ {
			text, err := readLine(in, &long)
			if err != nil && !errors.Is(err, io.EOF) {
				yield(Made{}, fmt.Errorf("read %s: line %d: %w", name, line, err))
				return
			}
			if line == 1 {
				text = bytes.TrimPrefix(text, []byte("\xEF\xBB\xBF"))
			}
			if text = bytes.TrimSpace(text); len(text) > 0 {
				m := Made{File: name, SHA256: sha256, Line: line}
				m.Record, m.Why = recordOfJSON(text)
				if m.Record != nil {
					m.Key = m.Record.Specimen.Text
				}
				if !yield(m, nil) {
					return
				}
			}
			if err != nil {
				return
			}
		}
	}
}

// readLine reads a line of bounded length.
func readLine(in *bufio.Reader, long *[]byte) ([]byte, error) {
	*long = (*long)[:0]
	for {
		part, err := in.ReadSlice('\n')
		if *long = append(*long, part...); len(*long) > maxLine {
			return nil, fmt.Errorf("longer than %d bytes", maxLine)
		}
		if !errors.Is(err, bufio.ErrBufferFull) {
			return *long, err
		}
	}
}

// recordOfJSON makes a record of an object; why is set when none can be made.
func recordOfJSON(text []byte) (r *ledger.Record, why string) {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		return nil, "is no JSON object in one line"
	}
	fields, err := objectFields(nil, d, "", 0)
	if err != nil {
		return nil, err.Error()
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, "has more than one JSON object in the line"
	}
	if r, err = ledger.Unflatten(fields); err != nil {
		return nil, err.Error()
	}
	if n := ledger.Number(r.Specimen.Text); n != "" && !n.Valid() {
		return nil, fmt.Sprintf("%q cannot be a number: letters, digits, dot, hyphen and underline, beginning with a letter or digit", n)
	} else if n != "" {
		r.Path = n.Path()
	}
	return r, ""
}

// maxDepth bounds objects and lists in one another; a record has three.
const maxDepth = 8

var errDeep = errors.New("has objects and lists too deep in one another")

// objectFields reads the members of an object that has begun, as fields.
func objectFields(out []ledger.KV, d *json.Decoder, prefix string, depth int) ([]ledger.KV, error) {
	if depth > maxDepth {
		return nil, errDeep
	}
	for d.More() {
		name, err := d.Token()
		if err != nil {
			return nil, err
		}
		key := prefix + name.(string) // the decoder takes nothing else for a name
		if out, err = valueFields(out, d, key, depth); err != nil {
			return nil, err
		}
	}
	_, err := d.Token()
	return out, err
}

// valueFields reads the value of a field.
func valueFields(out []ledger.KV, d *json.Decoder, key string, depth int) ([]ledger.KV, error) {
	value, err := d.Token()
	if err != nil {
		return nil, err
	}
	switch v := value.(type) {
	case string:
		if key == NotAField {
			return out, nil
		}
		return append(out, ledger.KV{Key: key, Value: v}), nil
	case nil:
		return out, nil
	case json.Delim:
		if v == '{' {
			return objectFields(out, d, key+".", depth+1)
		}
		if depth > maxDepth {
			return nil, errDeep
		}
		for n := 1; d.More(); n++ {
			if out, err = valueFields(out, d, key+"."+strconv.Itoa(n), depth+1); err != nil {
				return nil, err
			}
		}
		_, err = d.Token()
		return out, err
	}
	return nil, fmt.Errorf("field %s is %v, not a text in quote marks: a ledger keeps words as written", key, value)
}
