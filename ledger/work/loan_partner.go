package work

import (
	"regexp"
	"strings"
	"sync"

	"blotter/ledger"
)

var codeWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[A-Z][A-Z0-9-]*$`) })

// ReadPartner parts the words for a partner into its registered code and its
// name: "FJ3 Fjellheim Museum", "FJ3", "Fjellheim Museum".
func ReadPartner(words string) (code, name string) {
	words = strings.Join(strings.Fields(words), " ")
	first, rest, _ := strings.Cut(words, " ")
	if trimmed := strings.TrimRight(first, ",:"); codeWord().MatchString(trimmed) && len(trimmed) >= 1 {
		return trimmed, rest
	}
	if open := strings.LastIndex(words, " ("); open > 0 && strings.HasSuffix(words, ")") && codeWord().MatchString(words[open+2:len(words)-1]) {
		return words[open+2 : len(words)-1], words[:open]
	}
	return "", words
}

// PartnerOf is the partner of blotter.yaml that words mean, by code or by
// name; nil when it has none such.
func (w *Works) PartnerOf(words string) *ledger.Partner {
	if w.book == nil || words == "" {
		return nil
	}
	code, name := ReadPartner(words)
	list := w.book.Museum.Partners
	for i := range list {
		if code != "" && list[i].Code.Text == code {
			return &list[i]
		}
	}
	for i := range list {
		if n := list[i].Name.Text; n != "" && (strings.EqualFold(n, name) || strings.EqualFold(n, words)) {
			return &list[i]
		}
	}
	return nil
}

// PartnerKey is the same for all words that mean one partner: its code where
// one is known, else its name in small letters.
func (w *Works) PartnerKey(words string) string {
	if p := w.PartnerOf(words); p != nil {
		return p.Code.Text
	}
	code, name := ReadPartner(words)
	if code != "" {
		return code
	}
	return strings.ToLower(name)
}

// PartnerWords is how a partner is written on lists: code and name.
func (w *Works) PartnerWords(words string) string {
	if p := w.PartnerOf(words); p != nil {
		return p.Code.Text + " " + p.Name.Text
	}
	return words
}

// own is the entry of the museum itself among the partners; nil when it has
// none.
func (w *Works) own() *ledger.Partner { return w.PartnerOf(w.book.Museum.Code.Text) }

// crosses reports whether a sending crosses a border; known is false when
// blotter.yaml does not say where one of the two is.
func (w *Works) crosses(partner string) (crosses, known bool) {
	here, there := w.own(), w.PartnerOf(partner)
	if here == nil || there == nil || !here.Country.Set() || !there.Country.Set() {
		return true, false
	}
	return !strings.EqualFold(here.Country.Text, there.Country.Text), true
}
