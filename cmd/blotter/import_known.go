package main

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"strconv"

	"blotter/ledger"
	"blotter/ledger/exchange"
)

// imported is what the ledger knows of earlier imports: which row of which
// file became which sheet.
type imported struct {
	rows   map[rowID]int32  // by file and line, the place in sheets
	keys   map[string]int32 // by list and key
	sheets []knownSheet
}

// knownSheet is a sheet that came from an import.
type knownSheet struct {
	path  string
	list  string // its spelling is shared by all of the list
	keyed bool
}

// rowID is the checksum of a file, cut to 128 bits, and a line in it.
type rowID [20]byte

func newRowID(sha256 string, line int) (id rowID, ok bool) {
	sum, err := hex.DecodeString(sha256)
	if err != nil || len(sum) < 16 {
		return id, false
	}
	copy(id[:16], sum)
	binary.BigEndian.PutUint32(id[16:], uint32(line))
	return id, true
}

// origin is where a record says that it comes from.
type origin struct {
	list, key, sha256 string
	line              int
}

func originOf(r *ledger.Record) origin {
	var o origin
	file := ""
	for _, p := range r.Import {
		switch p.Key {
		case exchange.ImportFile:
			file = p.Value.Text
		case exchange.ImportSHA256:
			o.sha256 = p.Value.Text
		case exchange.ImportLine:
			o.line, _ = strconv.Atoi(p.Value.Text)
		case exchange.ImportKey:
			o.key = p.Value.Text
		case exchange.ImportList:
			o.list = p.Value.Text
		}
	}
	if o.list == "" {
		o.list = file
	}
	return o
}

// keyOf is a key within its list.
func keyOf(list, key string) string { return list + "\x00" + key }

// knownImports reads where the sheets of the work tree come from.
func (d *desk) knownImports() (*imported, error) {
	k := &imported{rows: map[rowID]int32{}, keys: map[string]int32{}}
	lists := map[string]string{}
	for _, path := range d.recordPaths() {
		src, err := d.read(path)
		if err != nil {
			return nil, err
		}
		block := importBlock(src)
		if block == nil {
			continue
		}
		o := originOf(decoded(path, block))
		if _, ok := lists[o.list]; !ok {
			lists[o.list] = o.list
		}
		at := int32(len(k.sheets))
		if id, ok := newRowID(o.sha256, o.line); ok {
			k.rows[id] = at
		}
		if o.key != "" {
			k.keys[keyOf(o.list, o.key)] = at
		}
		k.sheets = append(k.sheets, knownSheet{path, lists[o.list], o.key != ""})
	}
	return k, nil
}

// importBlock is the block import: of a record, nil when it has none. To
// decode it alone is much quicker than the whole.
func importBlock(src []byte) []byte {
	start := bytes.Index(src, []byte("\nimport:"))
	if start < 0 {
		return nil
	}
	block := src[start+1:]
	for end := 0; ; {
		i := bytes.IndexByte(block[end:], '\n')
		if i < 0 || end+i+1 == len(block) {
			return block
		}
		end += i + 1
		if c := block[end]; c != ' ' && c != '\n' && c != '\r' && c != '#' && c != '\t' {
			return block[:end]
		}
	}
}
