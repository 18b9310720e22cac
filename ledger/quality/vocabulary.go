package quality

import (
	"strings"
	"sync"
	"unicode"
)

// vocabulary is a closed list of values with other words for them.
type vocabulary struct {
	values   []string // as the standard writes them
	accepted []string // further spellings that are in the authority
	iri      string   // a concept's address is iri, concept, and its number in values
	concept  string

	folded func() map[string]string
}

// newVocabulary prepares a list; also gives, for a value, other words parted
// by |. They are put in order at the first question.
func newVocabulary(v vocabulary, also func() map[string]string) *vocabulary {
	v.folded = sync.OnceValue(func() map[string]string {
		m := map[string]string{}
		for value, words := range also() {
			for w := range strings.SplitSeq(words, "|") {
				m[foldWord(w)] = value
			}
		}
		for i, value := range v.values {
			m[foldWord(value)] = value
			if v.iri != "" {
				m[foldWord(v.iri+v.concept+pad3(i+1))] = value
			}
		}
		return m
	})
	return &v
}

func pad3(n int) string {
	return string([]byte{byte('0' + n/100), byte('0' + n/10%10), byte('0' + n%10)})
}

// holds reports whether s is a value of the list, to the letter.
func (v *vocabulary) holds(s string) bool {
	for _, list := range [...][]string{v.values, v.accepted} {
		for _, value := range list {
			if value == s {
				return true
			}
		}
	}
	return false
}

// meant is the one value that words mean: the value in other letter case or
// with blanks, its address, or other words for it.
func (v *vocabulary) meant(words string) (string, bool) {
	m := v.folded()
	w := foldWord(words)
	if value, ok := m[w]; ok && w != "" {
		return value, true
	}
	for _, s := range spaces { // dwc:PreservedSpecimen and its full address
		for _, prefix := range []string{s.short, s.long, strings.Replace(s.long, "http:", "https:", 1)} {
			if rest, ok := strings.CutPrefix(words, prefix); ok {
				value, ok := m[foldWord(rest)]
				return value, ok
			}
		}
	}
	return "", false
}

// foldWord keeps letters, figures and a few signs that are words by
// themselves, in lower case.
func foldWord(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsDigit(c) || c == '♂' || c == '♀' || c == '⚥' || c == '?' {
			return unicode.ToLower(c)
		}
		return -1
	}, s)
}

// inVocabulary makes the test whether a term holds a value of a list. Blanks
// around it count.
func inVocabulary(t Term, v *vocabulary) func(*input) Response {
	return func(in *input) Response {
		if in.empty(t) {
			return internal(t.String() + " is empty")
		}
		return complies(v.holds(in.value(t)), t.String()+" is a value of the list", t.String()+" is no value of the list"+didYouMean(v, in.value(t)))
	}
}

func didYouMean(v *vocabulary, words string) string {
	if value, ok := v.meant(words); ok {
		return "; write " + value
	}
	return ""
}

// toVocabulary makes the amendment of a term to a value of a list.
func toVocabulary(t Term, v *vocabulary) func(*input) Response {
	return func(in *input) Response {
		if in.empty(t) {
			return internal(t.String() + " is empty")
		}
		if v.holds(in.value(t)) {
			return notAmended(t.String() + " is a value of the list already")
		}
		value, ok := v.meant(trim(in.value(t)))
		if !ok {
			return notAmended(t.String() + " has no one meaning in the list")
		}
		return amended(t.String()+" means "+value, Change{t, value})
	}
}
