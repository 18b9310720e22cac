package darwincore

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"

	"blotter/ledger/archive"
)

// part is the rows of some sheets, compressed by themselves.
type part struct {
	pieces []archive.Piece // one for each of Kinds
	rows   []int           // the same
	sums   []string        // of the texts; "" of one without rows
	sum    Coverage
}

// PartVersion is raised whenever the same sheets give other rows, so that
// what was kept of an older version is made anew.
const PartVersion = 3

// maker makes parts. It is not for several goroutines at once.
type maker struct {
	data  *Dataset
	look  Looker
	pack  archive.Packer
	text  []byte
	cells []string
}

// newMaker is a maker with a memory of its own.
func newMaker(in *Input) *maker {
	d := *in.Dataset
	d.words = newWordCache()
	return &maker{data: &d, look: in.Look}
}

// make writes the rows of sheets.
func (m *maker) make(sheets []*Sheet) (*part, error) {
	p := &part{}
	for i, s := range sheets {
		own := *s
		own.Dataset = m.data
		sheets[i] = &own
		p.sum.add(&own)
	}
	for k, kind := range Kinds() {
		m.text = m.text[:0]
		rows := 0
		for _, s := range sheets {
			n := kind.Rows(s)
			for i := range n {
				m.cells = m.cells[:0]
				if k > 0 {
					m.cells = append(m.cells, s.OccurrenceID())
				}
				m.cells = kind.Cells(m.cells, Row{s, i})
				m.text = archive.AppendRow(m.text, m.cells)
			}
			rows += n
		}
		sum := ""
		if rows > 0 {
			h := sha256.Sum256(m.text)
			sum = hex.EncodeToString(h[:10])
		}
		if m.look != nil && rows > 0 {
			m.look.ScanSum(kind.File, sum, m.text)
		}
		piece, err := m.pack.Pack(m.text)
		if err != nil {
			return nil, err
		}
		p.pieces, p.rows, p.sums = append(p.pieces, piece), append(p.rows, rows), append(p.sums, sum)
	}
	return p, nil
}

// encode is the part as it is kept.
func (p *part) encode() []byte {
	var b []byte
	for i, x := range p.pieces {
		b = binary.AppendUvarint(b, uint64(p.rows[i]))
		b = binary.AppendUvarint(b, uint64(x.CRC))
		b = binary.AppendUvarint(b, uint64(x.Size))
		b = binary.AppendUvarint(b, uint64(len(x.Data)))
		b = append(b, x.Data...)
		b = binary.AppendUvarint(b, uint64(len(p.sums[i])))
		b = append(b, p.sums[i]...)
	}
	sum, err := json.Marshal(&p.sum)
	if err != nil { // figures and words make none
		return nil
	}
	return append(b, sum...)
}

// known reports whether every text of a kept part has been looked through.
func (p *part) known(look Looker) bool {
	for i, k := range Kinds() {
		if look != nil && p.sums[i] != "" && !look.Known(k.File, p.sums[i]) {
			return false
		}
	}
	return true
}

// errKept is the error of a kept part that cannot be read; it is made anew.
var errKept = errors.New("not a part of an archive")

// decodePart reads a part as it was kept. What it gives lies in b.
func decodePart(b []byte) (*part, error) {
	p := &part{}
	for range Kinds() {
		var v [4]uint64
		for i := range v {
			n := 0
			if v[i], n = binary.Uvarint(b); n <= 0 {
				return nil, errKept
			}
			b = b[n:]
		}
		if v[3] > uint64(len(b)) || v[1] > 1<<32-1 {
			return nil, errKept
		}
		p.rows = append(p.rows, int(v[0]))
		p.pieces = append(p.pieces, archive.Piece{Data: b[:v[3]], CRC: uint32(v[1]), Size: int64(v[2])})
		b = b[v[3]:]
		size, n := binary.Uvarint(b)
		if n <= 0 || size > uint64(len(b)-n) {
			return nil, errKept
		}
		p.sums = append(p.sums, string(b[n:n+int(size)]))
		b = b[n+int(size):]
	}
	if json.Unmarshal(b, &p.sum) != nil {
		return nil, errKept
	}
	return p, nil
}
