package dates

import (
	"strings"
	"sync"
)

// The words that say that there is no date, or none legible, without points
// and brackets. s.d. is the trade's word (sine dato); the rest is common
// practice, no source.
const (
	notRecordedWords = "sd|s d|sine dato|sine die|sine anno|s a|sa|n d|nd|no date|no data|no date given|undated|not dated|date unknown|unknown date|" +
		"date missing|date not recorded|not recorded|date not given|not given|not stated|not specified|unspecified|unknown|none|na|n/a|date lacking|" +
		"no collection date|sin fecha|sin año|s f|sf|sem data|senza data|sans date|sans année|ohne datum|o d|od|undatiert|ohne jahr|o j|oj|ohne jahresangabe|uten dato|u d|ud|udatert|uten år|uden dato|udateret|uden år|" +
		"utan datum|odaterad|odat|utan år|u å|uå|zonder datum|zonder jaar|z j|ongedateerd|z d|sense data|bez daty|bez data|b d|без даты|б д"

	illegibleWords = "illegible|date illegible|unreadable|not legible|illegibile|illisible|ilegible|ilegível|uleselig|ulæselig|oläslig|unleserlich|onleesbaar"

	// Beside words, what tables and spreadsheets put where there is no date.
	notTypedWords = "|not yet typed|not typed|to be typed|" + `\n|null|nil|nan|nat|#n/a|9999|99/99/9999|9999-99-99|9999-12-31|00-00-0000|00/00/0000|` +
		"0000-00-00|0000/00/00|00000000|0000-00-00 00:00:00|0000-00-00t00:00:00|0|00|00/00/00|00-00-00"
)

// noneWords is made on first use.
var noneWords = sync.OnceValue(func() map[string]None {
	words := map[string]None{}
	put := func(list string, n None) {
		for _, w := range strings.Split(list, "|") {
			words[fold(w)] = n
		}
	}
	put(notRecordedWords, NotRecorded)
	put(illegibleWords, Illegible)
	put(notTypedWords, NotTyped)
	return words
})

// noneOf is what a text says that gives no date; false when it may give one.
func noneOf(text string) (None, bool) {
	if len(text) > 30 {
		return Stated, false
	}
	if text == "" {
		return NotTyped, true
	}
	if strings.ContainsAny(text, "12345678") && !strings.HasPrefix(text, "9999-") {
		return Stated, false // quick: no other of the words has these figures
	}
	f := strings.TrimSpace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(".[]()\"", r) {
			return -1
		}
		return r
	}, fold(text)))
	if f == "" { // signs alone: [...] is the mark for what cannot be made out
		return Illegible, strings.Contains(text, "...")
	}
	n, ok := noneWords()[f]
	return n, ok
}
