package pictures

import (
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Series is how a museum writes its numbers, to find them in the names of
// files and in the texts of barcodes.
type Series struct {
	lead   *regexp.Regexp // what stands before the figures, as people write it; nil: nothing does
	digits int
}

// SeriesOf is the series of numbers with this prefix, for example LK7-, and at
// least so many figures.
func SeriesOf(prefix string, digits int) Series {
	s := Series{digits: digits}
	if core := strings.Trim(prefix, "-_ ."); core != "" {
		s.lead = regexp.MustCompile(`(?i)` + regexp.QuoteMeta(core) + `[-_ .]*([0-9]{1,15})`)
	}
	return s
}

// Numbers are the values of the museum's numbers in a text, each once, in
// order: of LK7-0000482, lk7 482, and of 0000482 alone when the text begins
// with just so many figures and has no number with its prefix. rest is the
// text without them.
func (s Series) Numbers(text string) (serials []uint64, rest string) {
	rest = text
	if s.lead != nil {
		var b strings.Builder
		from := 0
		for _, m := range s.lead.FindAllStringSubmatchIndex(text, -1) {
			if m[0] > 0 && isWord(text[m[0]-1]) || aDate().MatchString(text[m[2]:]) {
				continue
			}
			if v, err := strconv.ParseUint(text[m[2]:m[3]], 10, 63); err == nil {
				serials = append(serials, v)
				b.WriteString(text[from:m[0]])
				b.WriteByte(' ')
				from = m[1]
			}
		}
		if serials != nil {
			b.WriteString(text[from:])
			return unique(serials), b.String()
		}
	}
	n := 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		n++
	}
	if n == 0 || n != s.digits || n == 8 && aDay().MatchString(text) || n < len(text) && isWord(text[n]) && text[n] != '_' {
		return nil, text
	}
	v, err := strconv.ParseUint(text[:n], 10, 63)
	if err != nil {
		return nil, text
	}
	return []uint64{v}, text[n:]
}

// aDate is a date in figures, which is no number though it follows the prefix;
// aDay one without blanks between its parts.
var (
	aDate = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^(1[89]|20)[0-9][0-9][-_.]?[01][0-9][-_.]?[0-3][0-9]([^0-9]|$)`)
	})
	aDay = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(1[89]|20)[0-9][0-9][01][0-9][0-3][0-9]`) })
)

func isWord(c byte) bool {
	return c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' || c >= 0x80
}

func unique(list []uint64) []uint64 {
	out := list[:0]
	for _, v := range list {
		if !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

// Shows is what the rest of a file's name says that a picture shows: its
// words, without figures and the words that cameras use; "" when there are
// none.
func Shows(rest string) string {
	var out []string
	for _, w := range strings.FieldsFunc(rest, func(r rune) bool { return strings.ContainsRune("-_ .,()[]+", r) }) {
		if strings.ContainsAny(w, "0123456789") || len(w) < 3 || cameraWords[strings.ToLower(w)] {
			continue
		}
		out = append(out, w)
	}
	return strings.Join(out, " ")
}

var cameraWords = map[string]bool{"img": true, "dsc": true, "dscn": true, "dscf": true, "pict": true, "photo": true, "image": true, "scan": true,
	"copy": true, "kopi": true, "edited": true, "edit": true, "final": true, "jpg": true, "jpeg": true, "png": true, "tif": true, "tiff": true, "mvimg": true, "pxl": true}

// IsPicture reports whether a file of this name is taken for a picture.
func IsPicture(name string) bool {
	switch strings.ToLower(strings.TrimPrefix(path.Ext(name), ".")) {
	case "jpg", "jpeg", "png", "tif", "tiff", "gif", "webp", "avif", "heic", "heif", "bmp", "jp2", "jxl",
		"dng", "cr2", "cr3", "nef", "arw", "orf", "raf", "rw2", "pef":
		return true
	}
	return false
}
