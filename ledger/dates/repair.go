package dates

import "strings"

// repair writes a text anew with slips of the pen or of a reading machine put
// right: l, I, | and ! for the figure 1, O for 0, and a month misspelt in one
// letter. said is empty when nothing of the kind was found.
func repair(text string) (fixed, said string) {
	if len(text) > 60 {
		return text, ""
	}
	var changed []string
	var b strings.Builder
	for i := 0; i < len(text); {
		j := i
		for j < len(text) && (isLetter(text[j]) || isDigit(text[j]) || text[j] == '!' && j == i || text[j] == '|') {
			j++
		}
		if j == i {
			b.WriteByte(text[i])
			i++
			continue
		}
		w := text[i:j]
		if f := repairWord(w); f != w {
			changed = append(changed, "\""+w+"\" is taken for "+f)
			w = f
		}
		b.WriteString(w)
		i = j
	}
	return b.String(), strings.Join(changed, ", ")
}

var (
	figureFix = strings.NewReplacer("l", "1", "I", "1", "|", "1", "!", "1", "O", "0", "o", "0")
	romanFix  = strings.NewReplacer("l", "I", "|", "I", "1", "I", "!", "I")
)

func repairWord(w string) string {
	digits, ones, zeros := 0, 0, 0
	for _, c := range []byte(w) {
		switch {
		case isDigit(c):
			digits++
		case strings.IndexByte("lI|!", c) >= 0:
			ones++
		case c == 'O' || c == 'o':
			zeros++
		}
	}
	switch {
	case digits+ones+zeros == len(w) && digits > 0 && ones+zeros > 0 && len(w) <= 4,
		ones == len(w) && len(w) <= 2:
		return figureFix.Replace(w)
	case ones > 0 && ones+zeros < len(w) && roman(romanFix.Replace(w)) > 0: // Vll
		return romanFix.Replace(w)
	case digits == 0:
		if m := nearMonth(w); m != "" {
			return m
		}
	}
	return w
}

// slips are misspellings of months too short for nearMonth.
var slips = map[string]int{"juy": 7, "julliet": 7, "jlu": 7, "uly": 7, "une": 6, "jue": 6, "spet": 9, "setp": 9, "ept": 9, "arp": 4, "agu": 8, "ugust": 8}

// nearMonth is the English name of the month that a word of at least four
// letters misses by one letter; "" when there is none or more than one.
func nearMonth(w string) string {
	f := fold(w)
	if m := slips[f]; m > 0 {
		return monthName(m)
	}
	if len(f) < 4 || len(f) > 12 || lookup(f) != nil {
		return ""
	}
	found := 0
	for i := range languages[:10] {
		for m, group := range groups(languages[i].months) {
			if full := fold(group[0]); len(full) >= 4 && near(f, full) && (len(full) > 4 || f[0] == full[0]) && (len(f) > 4 || f == full[1:]) {
				if found != 0 && found != m+1 {
					return ""
				}
				found = m + 1
			}
		}
	}
	if found == 0 {
		return ""
	}
	return monthName(found)
}

// near reports whether a and b differ by one letter put in, left out or
// changed, or by two neighbours exchanged.
func near(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 || a == b {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	return a[i+1:] == b[i+1:] || i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}
