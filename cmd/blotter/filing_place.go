package main

import (
	"strings"

	"blotter/ledger/shelf"
)

// saysPlace reports whether the words of a filed line name the cover where a
// sheet belongs, or the whole of its place.
func saysPlace(words string, p shelf.Place) bool {
	w := " " + plainWords(words) + " "
	for _, name := range []string{p.Cover.Name, p.Cover.Title()} {
		if name != "" && strings.Contains(w, " "+plainWords(name)+" ") {
			return true
		}
	}
	return false
}

// plainWords are words in small letters, one blank apart, without marks.
func plainWords(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return strings.ContainsRune(" ,;:()", r) }), " ")
}

// namedCabinet is the cabinet that words name: "cabinet 4, folder 12" names
// 4; "" for none.
func namedCabinet(words string) string {
	f := strings.Fields(plainWords(words))
	for i, w := range f {
		if (w == "cabinet" || w == "cab.") && i+1 < len(f) {
			return f[i+1]
		}
	}
	return ""
}

// filedLine is the line of show that says where a sheet is filed.
func filedLine(p shelf.Place, said string) string {
	line := "Filed: " + p.Words()
	switch {
	case said == "":
		return line
	case saysPlace(said, p) || strings.EqualFold(namedCabinet(said), p.Bay.Name):
		return "Filed: " + said + " (belongs to " + p.Words() + ")"
	}
	return "Filed: " + said + "; it belongs to " + p.Words()
}
