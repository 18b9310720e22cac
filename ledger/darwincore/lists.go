package darwincore

import (
	"strings"

	"blotter/ledger"
)

// separator stands between the values of one cell (the list of terms, notes of
// recordedBy and others).
const separator = " | "

// Join puts several values into one cell. A bar within a value is doubled, so
// that Split gives the same values back.
func Join(values []string) string {
	switch len(values) {
	case 0:
		return ""
	case 1:
		return double(values[0])
	}
	var b strings.Builder
	for i, v := range values {
		if i > 0 {
			b.WriteString(separator)
		}
		b.WriteString(double(v))
	}
	return b.String()
}

// Split gives the values of a cell that Join made, or that anybody parted by
// bars; empty ones are left out.
func Split(cell string) []string {
	var out []string
	for {
		i := singleBar(cell)
		v := cell
		if i >= 0 {
			v = cell[:i]
		}
		if v = strings.ReplaceAll(strings.TrimSpace(v), "||", "|"); v != "" {
			out = append(out, v)
		}
		if i < 0 {
			return out
		}
		cell = cell[i+1:]
	}
}

func double(s string) string {
	if strings.IndexByte(s, '|') < 0 {
		return s
	}
	return strings.ReplaceAll(s, "|", "||")
}

// singleBar is where the first bar stands that is not doubled; -1: nowhere.
func singleBar(s string) int {
	for i := 0; i < len(s); i++ {
		if s[i] != '|' {
			continue
		}
		if i+1 < len(s) && s[i+1] == '|' {
			i++
			continue
		}
		return i
	}
	return -1
}

// Pack writes fields into one cell of remarks: the words of main as they
// stand, the others behind their key, "Beak and hairs | seen: picture". Empty
// ones are left out.
func Pack(main string, fields []ledger.KV) string {
	var parts []string
	for _, kv := range fields {
		switch {
		case kv.Value == "":
		case kv.Key == main && keyOf(kv.Value) == "":
			parts = append([]string{kv.Value}, parts...)
		default:
			parts = append(parts, kv.Key+": "+kv.Value)
		}
	}
	return Join(parts)
}

// Unpack gives the fields of a cell that Pack made. What has none of the keys
// before it belongs to main.
func Unpack(main, cell string, keys []string) []ledger.KV {
	var out []ledger.KV
	for _, part := range Split(cell) {
		key := keyOf(part)
		known := key == main
		for _, k := range keys {
			known = known || k == key
		}
		switch {
		case key != "" && known:
			out = append(out, ledger.KV{Key: key, Value: part[len(key)+2:]})
		case len(out) > 0 && out[0].Key == main:
			out[0].Value += separator + part
		default:
			out = append([]ledger.KV{{Key: main, Value: part}}, out...)
		}
	}
	return out
}

// keyOf is the word before ": " at the beginning of s, of small letters and
// underlines; "" when there is none.
func keyOf(s string) string {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c == ':' && i > 0 && i+1 < len(s) && s[i+1] == ' ' {
			return s[:i]
		}
		if (c < 'a' || c > 'z') && c != '_' {
			return ""
		}
	}
	return ""
}

// texts are the words of a list.
func texts(ls []ledger.Leaf) []string {
	out := make([]string, 0, len(ls))
	for _, l := range ls {
		if l.Set() {
			out = append(out, l.Text)
		}
	}
	return out
}

// saidTexts are the words of a list without what stands for withheld ones.
func saidTexts(ls ...ledger.Leaf) []string {
	var out []string
	for _, l := range ls {
		if l.Set() && !isSentence(l) {
			out = append(out, l.Text)
		}
	}
	return out
}

// isSentence reports whether a word stands for one that is withheld.
func isSentence(l ledger.Leaf) bool { return strings.HasPrefix(l.Text, "withheld: ") }
