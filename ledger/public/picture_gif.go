package public

import "bytes"

// gifLoop is the one application extension that is kept: how often a moving
// picture begins again (GIF89a, the extension of the Netscape browser, from
// memory).
const gifLoop = "NETSCAPE2.0"

// stripGIF keeps the screen, its tables, the pictures and how long each is
// shown; comments, texts and what programs add are left behind (GIF89a, W3C
// copy, from memory).
func stripGIF(in []byte) ([]byte, bool) {
	if len(in) < 13 {
		return nil, false
	}
	at := 13 + gifTable(in[10])
	if at > len(in) {
		return nil, false
	}
	out := append(make([]byte, 0, len(in)), in[:at]...)
	shown := false
	for at < len(in) {
		switch in[at] {
		case 0x3b:
			return append(out, 0x3b), shown
		case 0x2c:
			if at+10 >= len(in) {
				return nil, false
			}
			end := gifBlocks(in, at+11+gifTable(in[at+9]))
			if end < 0 {
				return nil, false
			}
			out, at, shown = append(out, in[at:end]...), end, true
		case 0x21:
			end := gifBlocks(in, at+2)
			if end < 0 {
				return nil, false
			}
			out, at = append(out, gifKept(in[at:end])...), end
		default:
			return nil, false
		}
	}
	return nil, false
}

// gifTable is how many bytes the colours take that flags announce.
func gifTable(flags byte) int {
	if flags&0x80 == 0 {
		return 0
	}
	return 3 << (flags&7 + 1)
}

// gifBlocks is where a chain of blocks ends that begins at at; -1: nowhere.
func gifBlocks(in []byte, at int) int {
	for at < len(in) {
		n := int(in[at])
		at += 1 + n
		if n == 0 {
			return at
		}
	}
	return -1
}

// gifKept is what is kept of an extension; nil for nothing.
func gifKept(ext []byte) []byte {
	switch {
	case ext[1] == 0xf9 && len(ext) == 8 && ext[2] == 4:
		return ext
	case ext[1] == 0xff && len(ext) >= 18 && ext[2] == 11 && string(ext[3:14]) == gifLoop && ext[14] == 3 && ext[15] == 1:
		return append(bytes.Clone(ext[:18]), 0)
	}
	return nil
}
