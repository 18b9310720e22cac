package paper

import (
	"bytes"
	"compress/zlib"
	"encoding/base64"
	"encoding/binary"
	"sync"
)

// woffs are the faces as WOFF files in base64, each made when first asked for.
var woffs = [2]func() string{
	sync.OnceValue(func() string { return base64.StdEncoding.EncodeToString(woff(romanTTF)) }),
	sync.OnceValue(func() string { return base64.StdEncoding.EncodeToString(woff(italicTTF)) }),
}

// woff packs a TrueType font into a WOFF file: each table compressed by zlib
// where that is shorter, none left out or changed (WOFF File Format 1.0, W3C
// Recommendation 13 December 2012, sections 3 to 5).
func woff(ttf []byte) []byte {
	be := binary.BigEndian
	n := int(be.Uint16(ttf[4:]))
	directory, data := make([]byte, 0, 20*n), []byte(nil)
	start, total := 44+20*n, 12+16*n
	for i := range n { // sorted by tag already, as both formats ask
		entry := ttf[12+16*i:]
		from, long := be.Uint32(entry[8:]), be.Uint32(entry[12:])
		table := ttf[from : from+long]
		packed := deflated(table)
		if len(packed) >= len(table) {
			packed = table
		}
		directory = append(directory, entry[:4]...)
		directory = be.AppendUint32(directory, uint32(start+len(data)))
		directory = be.AppendUint32(directory, uint32(len(packed)))
		directory = be.AppendUint32(directory, long)
		directory = append(directory, entry[4:8]...) // checksum
		data = append(data, packed...)
		for len(data)%4 != 0 {
			data = append(data, 0)
		}
		total += int(long+3) &^ 3
	}
	out := append([]byte("wOFF"), ttf[:4]...)
	out = be.AppendUint32(out, uint32(start+len(data)))
	out = be.AppendUint16(out, uint16(n))
	out = be.AppendUint16(out, 0)
	out = be.AppendUint32(out, uint32(total))
	out = append(out, make([]byte, 24)...) // no version, no metadata, no private data
	return append(append(out, directory...), data...)
}

func deflated(b []byte) []byte {
	var out bytes.Buffer
	w, _ := zlib.NewWriterLevel(&out, zlib.BestCompression) // fails for no level that there is
	w.Write(b)
	w.Close()
	return out.Bytes()
}
