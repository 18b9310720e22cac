package places

import (
	"strings"
	"unicode"
)

// None is what words say that give no value.
type None uint8

const (
	Stated      None = iota // the words are meant as a value
	NotRecorded             // none on the label
	Illegible               // [illegible]: there, not legible
	NotTyped                // nothing: not yet typed
)

// noneWords are words for none, in lower case without dots and brackets;
// common practice, no source.
var noneWords = map[string]None{
	"": NotTyped, "not yet typed": NotTyped, "not typed": NotTyped,
	"na": NotRecorded, "n/a": NotRecorded, "not specified": NotRecorded, "unspecified": NotRecorded,
	"not recorded": NotRecorded, "not stated": NotRecorded, "not given": NotRecorded, "none": NotRecorded, "unknown": NotRecorded,
	"s n": NotRecorded, "sn": NotRecorded, "no data": NotRecorded, "ukjent": NotRecorded, "unbekannt": NotRecorded,
	"illegible": Illegible, "unreadable": Illegible, "not legible": Illegible, "uleselig": Illegible, "unleserlich": Illegible,
}

func noneOf(text string) (None, bool) {
	if len(text) > 30 {
		return Stated, false
	}
	if text == "" {
		return NotTyped, true
	}
	f := strings.TrimSpace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(".[]()", r) {
			return -1
		}
		return unicode.ToLower(r)
	}, text))
	if f == "" {
		return Illegible, true // [...]
	}
	n, ok := noneWords[f]
	return n, ok
}

// Warning is something about a value that is worth a look.
type Warning struct {
	Code    string
	Message string
}

// sentinel reports whether words are nothing but nines, which machines and
// forms write for a coordinate that nobody knows: 99 99 99 N, 9999, -999.99; not
// 99 or 99.99, which is a longitude. Common practice, no source.
func sentinel(words string) bool {
	run, whole, groups, longest := 0, 0, 0, 0
	for i := 0; i <= len(words); i++ {
		if i < len(words) && isDigit(words[i]) {
			if words[i] != '9' {
				return false
			}
			run++
			continue
		}
		if run == 1 && whole < 3 {
			return false
		}
		if run > 0 && whole == 0 {
			groups++
			longest = max(longest, run)
		}
		whole = 0
		if i < len(words) && (words[i] == '.' || words[i] == ',') && i+1 < len(words) && isDigit(words[i+1]) {
			whole = run
		}
		run = 0
	}
	return longest >= 3 || groups >= 3
}
