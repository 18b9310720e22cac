package field

import "strings"

// Language is the language of the form's own words.
type Language struct {
	Code  string
	words map[string]string // by the English ones
}

var languages = []Language{{"en", nil}, {"nb", inNorwegian}}

// LanguageOf is the language of a code such as "nb" or "nb-NO"; English where
// the form has no other.
func LanguageOf(code string) Language {
	code, _, _ = strings.Cut(strings.ToLower(strings.TrimSpace(code)), "-")
	if code == "no" || code == "nn" {
		code = "nb"
	}
	for _, l := range languages {
		if l.Code == code {
			return l
		}
	}
	return languages[0]
}

// Say is an English word of the form in the language.
func (l Language) Say(english string) string {
	if w := l.words[english]; w != "" {
		return w
	}
	return english
}

// Words are the questions in all languages, for the nearest to one that is
// typed wrongly.
func Words() []string {
	var all []string
	for _, l := range languages {
		for _, q := range questions {
			all = append(all, l.Say(q.Key))
		}
	}
	return all
}
