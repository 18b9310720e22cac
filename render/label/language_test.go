package label

import (
	"maps"
	"reflect"
	"strings"
	"testing"
)

// TestLanguagesComplete: every table has every word, and translates the same
// fixed values.
func TestLanguagesComplete(t *testing.T) {
	for _, code := range LanguageCodes {
		l := languages[code]
		if l == nil || l.Code != code {
			t.Fatalf("%s: %+v", code, l)
		}
		v, e := reflect.ValueOf(*l), reflect.ValueOf(english)
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			switch f := v.Field(i); f.Kind() {
			case reflect.String:
				if f.Len() == 0 {
					t.Errorf("%s has no %s", code, name)
				}
			case reflect.Map:
				for k, w := range f.Interface().(map[string]string) {
					if w == "" {
						t.Errorf("%s: %s of %q is empty", code, name, k)
					}
				}
				if !maps.EqualFunc(f.Interface().(map[string]string), e.Field(i).Interface().(map[string]string), func(a, b string) bool { return true }) {
					t.Errorf("%s: %s has other keys than English", code, name)
				}
			}
		}
	}
	if len(languages) != len(LanguageCodes) {
		t.Error("a language is in no list")
	}
	if LanguageOf("en-GB").Code != "en" || LanguageOf("no").Code != "nb" || LanguageOf("xx").Code != "en" {
		t.Error("codes with a region, no, unknown")
	}
}

// TestFrenchMarks: no line begins with a colon or a semicolon, so the space
// before them breaks nowhere (common practice of French printers, from memory).
func TestFrenchMarks(t *testing.T) {
	v := reflect.ValueOf(french)
	check := func(name, words string) {
		for _, mark := range []string{":", ";"} {
			if strings.Count(words, mark) != strings.Count(words, "\u00a0"+mark) {
				t.Errorf("%s: %q", name, words)
			}
		}
	}
	for i := range v.NumField() {
		name := v.Type().Field(i).Name
		switch f := v.Field(i).Interface().(type) {
		case string:
			check(name, f)
		case map[string]string:
			for k, w := range f {
				check(name+" "+k, w)
			}
		}
	}
	check("Colon", french.Colon())
	check("Semicolon", french.Semicolon())
	if english.Colon() != ":" || spanish.Semicolon() != ";" {
		t.Error("a space where only French has one")
	}
}
