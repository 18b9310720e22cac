package public

import "encoding/binary"

// webpChunks are those that are needed to show a WebP (RFC 9649); of the
// others EXIF, XMP and ICCP hold texts.
var webpChunks = map[string]bool{"VP8 ": true, "VP8L": true, "VP8X": true, "ALPH": true, "ANIM": true, "ANMF": true}

const (
	webpSaid  = 0x20 | 0x08 | 0x04 // flags of VP8X for ICCP, EXIF and XMP
	webpFrame = 16                 // bytes of ANMF before the chunks of its picture
)

// stripWebP keeps the chunks of a WebP that are needed to show it.
func stripWebP(in []byte) ([]byte, bool) {
	if len(in) < 12 {
		return nil, false
	}
	size := int64(binary.LittleEndian.Uint32(in[4:])) + 8
	if size < 12 || size > int64(len(in)) {
		return nil, false
	}
	out, ok := webpKept(append(make([]byte, 0, len(in)), in[:12]...), in[12:size], false)
	if !ok || len(out) <= 12 {
		return nil, false
	}
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8))
	return out, true
}

// webpKept adds the chunks of in that are kept; in a frame none that holds
// frames.
func webpKept(out, in []byte, frame bool) ([]byte, bool) {
	shown := false
	for len(in) > 0 {
		if len(in) < 8 {
			return nil, false
		}
		kind, n := string(in[:4]), int64(binary.LittleEndian.Uint32(in[4:]))
		end := 8 + n + n&1
		if end > int64(len(in)) {
			if end--; n&1 == 0 || end != int64(len(in)) { // the last byte that only fills up may be missing
				return nil, false
			}
		}
		body := in[8 : 8+n]
		in = in[end:]
		if !webpChunks[kind] || frame && (kind == "VP8X" || kind == "ANIM" || kind == "ANMF") {
			continue
		}
		start := len(out)
		out = append(out, kind...)
		out = append(out, 0, 0, 0, 0)
		switch {
		case kind == "VP8X" && n == 10:
			out = append(out, body...)
			out[start+8] &^= webpSaid
		case kind == "ANIM" && n == 6:
			out = append(out, body...)
		case kind == "ANMF" && n > webpFrame:
			var ok bool
			if out, ok = webpKept(append(out, body[:webpFrame]...), body[webpFrame:], true); !ok {
				return nil, false
			}
			shown = true
		case kind == "VP8X", kind == "ANIM", kind == "ANMF":
			return nil, false
		default:
			out = append(out, body...)
			shown = shown || kind != "ALPH"
		}
		binary.LittleEndian.PutUint32(out[start+4:], uint32(len(out)-start-8))
		if len(out)&1 == 1 {
			out = append(out, 0)
		}
	}
	return out, shown
}
