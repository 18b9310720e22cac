package label

import (
	"maps"
	"reflect"
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
