package public

import (
	"sync"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Words are compared by a hash of their letters and figures in lower case,
// without marks above or below letters, so that a page address made of them
// is the same words.

// folded is what becomes of each ASCII character: itself in lower case for
// letters and figures, 0 for all others.
var folded = func() (t [utf8.RuneSelf]byte) {
	for c := range t {
		switch {
		case 'a' <= c && c <= 'z' || '0' <= c && c <= '9':
			t[c] = byte(c)
		case 'A' <= c && c <= 'Z':
			t[c] = byte(c) + 'a' - 'A'
		}
	}
	return t
}()

// foldedLatin is the same for the further Latin letters; "" for what is no
// letter, "-" for marks and signs that part no words.
var foldedLatin = sync.OnceValue(func() *[0x250]string {
	var t [0x250]string
	for r := rune(utf8.RuneSelf); r < rune(len(t)); r++ {
		t[r] = foldRune(r)
	}
	return &t
})

var foldedLetters = map[rune]string{
	'ø': "o", 'æ': "ae", 'œ': "oe", 'ß': "ss", 'ð': "d", 'đ': "d", 'þ': "th", 'ł': "l", 'ı': "i",
}

// foldRune is the folded form of a character beyond ASCII.
func foldRune(r rune) string {
	switch {
	case r == 0xAD || r >= 0x200B && r <= 0x200D || r == 0x2060 || r == 0xFEFF || unicode.Is(unicode.M, r):
		return "-"
	case r == '’':
		return "'"
	case !unicode.IsLetter(r) && !unicode.IsDigit(r):
		return ""
	}
	base, _ := utf8.DecodeRuneInString(norm.NFD.String(string(r)))
	base = unicode.ToLower(base)
	if s := foldedLetters[base]; s != "" {
		return s
	}
	return string(base)
}

const (
	hashStart = 14695981039346656037 // of FNV-1a, 64 bits
	hashPrime = 1099511628211
	runFactor = 0x9E3779B97F4A7C15 // the golden ratio in 64 bits: mixes the places of words in a run
)

// mix spreads a word's hash over all bits.
func mix(h uint64) uint64 {
	h ^= h >> 32
	h *= 0xD6E8FEB86659FD93
	return h ^ h>>32
}

// wordsOf calls word for every word of text with the place where it ends;
// where a row ends it calls word with 0.
func wordsOf(text []byte, word func(hash uint64, start, end int)) {
	var h uint64
	start := 0
	in := false
	latin := foldedLatin()
	for i := 0; i < len(text); {
		c := text[i]
		if c < utf8.RuneSelf {
			if f := folded[c]; f != 0 {
				if !in {
					in, h, start = true, hashStart, i
				}
				h = (h ^ uint64(f)) * hashPrime
				i++
				continue
			}
			if c == '\'' && in && joinsLetters(text, i, 1) {
				i++
				continue
			}
			if in {
				word(mix(h), start, i)
				in = false
			}
			if c == rowBreak {
				word(0, i, i)
			}
			i++
			continue
		}
		r, size := utf8.DecodeRune(text[i:])
		s := ""
		if int(r) < len(latin) {
			s = latin[r]
		} else {
			s = foldRune(r)
		}
		switch {
		case s == "-" || s == "'" && in && joinsLetters(text, i, size):
		case s == "" || s == "'":
			if in {
				word(mix(h), start, i)
				in = false
			}
		default:
			if !in {
				in, h, start = true, hashStart, i
			}
			for k := range len(s) {
				h = (h ^ uint64(s[k])) * hashPrime
			}
		}
		i += size
	}
	if in {
		word(mix(h), start, len(text))
	}
}

// joinsLetters reports whether the apostrophe at i stands between letters, as
// in O'Brien; behind a figure it is a minute of arc.
func joinsLetters(text []byte, i, size int) bool {
	return i > 0 && i+size < len(text) && !isDigit(text[i-1]) && !isDigit(text[i+size]) &&
		(text[i-1] >= utf8.RuneSelf || folded[text[i-1]] != 0) && (text[i+size] >= utf8.RuneSelf || folded[text[i+size]] != 0)
}

func isDigit(c byte) bool { return c-'0' < 10 }

// fold is the words of a text as they are compared, a blank between each two.
func fold(text string) string {
	var out []byte
	wordsOf([]byte(text), func(_ uint64, start, end int) {
		if len(out) > 0 {
			out = append(out, ' ')
		}
		for _, r := range text[start:end] {
			switch {
			case r < utf8.RuneSelf && folded[r] != 0:
				out = append(out, folded[r])
			case r >= utf8.RuneSelf:
				if s := foldRune(r); s != "-" && s != "'" {
					out = append(out, s...)
				}
			}
		}
	})
	return string(out)
}

// hashesOf are the hashes of the words of a text.
func hashesOf(text string) []uint64 {
	var out []uint64
	wordsOf([]byte(text), func(h uint64, _, _ int) {
		if h != 0 {
			out = append(out, h)
		}
	})
	return out
}

// runOf is the hash of the last n words of a run, at most runLength of them.
func runOf(words []uint64) uint64 {
	if len(words) > runLength {
		words = words[len(words)-runLength:]
	}
	var h uint64
	for _, w := range words {
		h = h*runFactor + w
	}
	return h + uint64(len(words))
}

// runLength is the number of words, standing together, that tell a place: runs
// of so many words of a withheld text are looked for, and shorter texts whole.
const runLength = 4

// maxPhrase is the most words of a text that is looked for whole.
const maxPhrase = 64

// phrases is words to be looked for, found by the hash of their last words.
type phrases struct {
	list   []phrase
	first  map[uint64]int32 // place in list by runOf
	filter []uint64         // bits set by runOf of each
	shift  uint
	sizes  [runLength + 1]bool // lengths that occur, at most runLength
}

// phrase is one of them.
type phrase struct {
	value int32    // place in Secrets.values
	next  int32    // another of the same last words; -1: none
	words []uint64 // all of them, when there are more than runLength
}

func makePhrases(n int) *phrases {
	bits := uint(12)
	for n > 0 && 1<<bits < n*16 && bits < 26 {
		bits++
	}
	return &phrases{first: make(map[uint64]int32, n), filter: make([]uint64, 1<<bits/64), shift: 64 - bits}
}

// add adds a value that is looked for by words.
func (p *phrases) add(value int32, words []uint64) {
	key := runOf(words)
	x := phrase{value: value, next: -1}
	if len(words) > runLength {
		x.words = words
	}
	if at, ok := p.first[key]; ok {
		x.next = at
	}
	p.first[key] = int32(len(p.list))
	p.list = append(p.list, x)
	bit := (key * runFactor) >> p.shift
	p.filter[bit/64] |= 1 << (bit % 64)
	p.sizes[min(len(words), runLength)] = true
}

// scan calls found for every phrase that stands in text as whole words.
func (p *phrases) scan(text []byte, found func(value int32, start, end int)) {
	if len(p.list) == 0 {
		return
	}
	var ring [maxPhrase]uint64
	var starts [maxPhrase]int
	n := 0
	wordsOf(text, func(w uint64, start, end int) {
		if w == 0 {
			return // words go on over the end of a row: a text may be set in lines
		}
		ring[n%maxPhrase], starts[n%maxPhrase] = w, start
		n++
		key, power := uint64(0), uint64(1)
		for size := 1; size <= min(runLength, n); size++ {
			key += ring[(n-size)%maxPhrase] * power
			power *= runFactor
			if !p.sizes[size] {
				continue
			}
			k := key + uint64(size)
			bit := (k * runFactor) >> p.shift
			if p.filter[bit/64]&(1<<(bit%64)) == 0 {
				continue
			}
			at, ok := p.first[k]
			if !ok {
				continue
			}
			for ; at >= 0; at = p.list[at].next {
				x := &p.list[at]
				length := size
				if x.words != nil {
					if length = len(x.words); length > n || !ringEnds(&ring, n, x.words) {
						continue
					}
				}
				found(x.value, starts[(n-length)%maxPhrase], end)
			}
		}
	})
}

func ringEnds(ring *[maxPhrase]uint64, n int, words []uint64) bool {
	for i, w := range words {
		if ring[(n-len(words)+i)%maxPhrase] != w {
			return false
		}
	}
	return true
}
