package public

import (
	"bytes"

	"blotter/ledger/pictures"
)

// StripPicture is a JPEG, PNG, GIF or WebP written anew from the segments that are
// needed to show it: the picture itself, its tables, the shape of its pixels,
// what its colours mean, and which way up it is shown. Everything else is
// left behind: where and when it was taken and with what, names, texts,
// thumbnails (which may show what was cut away), further pictures and
// whatever follows its end. An ICC profile is left behind as well, since it
// holds texts; what needed one is shown as sRGB.
//
// ok is false, and out nil, for what is none of them or is not well formed: it may
// then not be shown. The pixels of out decode to those of in.
func StripPicture(in []byte) (out []byte, ok bool) {
	switch pictures.FormatOf(in) {
	case pictures.JPEG:
		return stripJPEG(in)
	case pictures.PNG:
		return stripPNG(in)
	}
	switch {
	case bytes.HasPrefix(in, []byte("GIF87a")), bytes.HasPrefix(in, []byte("GIF89a")):
		return stripGIF(in)
	case len(in) >= 12 && string(in[:4]) == "RIFF" && string(in[8:12]) == "WEBP":
		return stripWebP(in)
	}
	return nil, false
}

// exifOf is, with one entry, the Exif block of a picture that is not shown as
// it is stored.
func exifOf(orientation int) []byte {
	return []byte{'I', 'I', '*', 0, 8, 0, 0, 0, // a TIFF header; the first directory follows it
		1, 0, // one entry
		0x12, 0x01, 3, 0, 1, 0, 0, 0, byte(orientation), 0, 0, 0, // Orientation, one SHORT
		0, 0, 0, 0} // no further directory
}
