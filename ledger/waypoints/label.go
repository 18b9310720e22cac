package waypoints

import "strings"

// Label is what a waypoint's name says of a gathering.
type Label struct {
	Letters string // initials or a family name before the number, folded; "" when there are none
	Number  string // the collector's number, folded, without zeros before it
}

// LabelOf reads a name such as SR 1207, SR-1207a, Rask 1207 or 1207; ok is
// false when the name is none.
func LabelOf(name string) (l Label, ok bool) {
	name = strings.TrimSpace(name)
	i := 0
	for i < len(name) && !isDigit(name[i]) {
		i++
	}
	letters := strings.Trim(name[:i], " -_.#:")
	letters = strings.TrimSuffix(strings.TrimSuffix(letters, "no"), "No")
	number := strings.TrimSpace(name[i:])
	if number == "" || len(number) > 12 || strings.ContainsAny(number, " ,;:") {
		return l, false
	}
	return Label{strings.ToLower(strings.Trim(letters, " -_.#:")), Number(number)}, true
}

// Number is a collector's number made comparable: folded, without blanks and
// without zeros before it.
func Number(s string) string {
	s = strings.ToLower(strings.Join(strings.Fields(s), ""))
	if t := strings.TrimLeft(s, "0"); t != "" && isDigit(t[0]) {
		return t
	}
	return s
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// Names reports whether the letters before a number are of this collector: the
// initials, or the family name.
func (l Label) Names(given, family string) bool {
	if l.Letters == "" {
		return true
	}
	flat := strings.NewReplacer(" ", "", ".", "", "-", "").Replace
	letters := flat(l.Letters)
	family = strings.ToLower(family)
	if letters == flat(family) {
		return true
	}
	initials := ""
	for _, w := range strings.FieldsFunc(strings.ToLower(given)+" "+family, func(r rune) bool { return r == ' ' || r == '.' || r == '-' }) {
		initials += string([]rune(w)[:1])
	}
	first, last := []rune(initials), []rune(initials)
	return letters == initials || len(first) > 2 && letters == string(first[0])+string(last[len(last)-1])
}
