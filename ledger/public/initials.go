package public

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/people"
)

// initials turns the names of people who asked for it into initials.
type initials struct {
	people *book.People
	later  *book.People // of the ledger as it is now; nil: the same
	spoken []spelling   // every spelling of them, the longest first
}

type spelling struct{ words, initials string }

// newInitials takes those who have `initials: yes`.
func newInitials(p *book.People) *initials {
	in := &initials{people: p}
	for i := range p.All {
		x := &p.All[i]
		if x.Initials.Text != "yes" {
			continue
		}
		short := in.of(x.Name.Text)
		for _, l := range append([]ledger.Leaf{x.Name}, x.Spellings...) {
			if l.Set() {
				in.spoken = append(in.spoken, spelling{l.Text, short})
			}
		}
	}
	in.sort()
	return in
}

func (in *initials) sort() {
	slices.SortFunc(in.spoken, func(a, b spelling) int {
		return cmp.Or(len(b.words)-len(a.words), cmp.Compare(a.words, b.words))
	})
}

func (in *initials) none() bool { return len(in.spoken) == 0 }

// of is the initials of a name: S. R. of Signe Rask.
func (in *initials) of(name string) string {
	read := people.Read(name)
	if len(read) != 1 {
		return firstLetters(name)
	}
	return firstLetters(read[0].String())
}

func firstLetters(name string) string {
	var out []string
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return unicode.IsSpace(r) || r == '-' || r == '.' }) {
		r, _ := utf8.DecodeRuneInString(w)
		if unicode.IsLetter(r) {
			out = append(out, string(unicode.ToUpper(r))+".")
		}
	}
	return strings.Join(out, " ")
}

// names is words that name people, with those who asked for it by initials:
// by every spelling in people.yaml and by whatever else is read as them.
func (in *initials) names(words string) string {
	if in.none() || words == "" {
		return words
	}
	out := in.text(words)
	for _, p := range people.Read(out) {
		if who := in.asked(p.Text); who != nil {
			out = strings.ReplaceAll(out, p.Text, in.of(who.Name.Text))
		}
	}
	return out
}

// list is names joined by "; ".
func (in *initials) list(words string) string {
	if in.none() || words == "" {
		return words
	}
	parts := strings.Split(words, "; ")
	for i := range parts {
		parts[i] = in.names(parts[i])
	}
	return strings.Join(parts, "; ")
}

// field is the words of a record's field.
func (in *initials) field(path, words string) string {
	if in.none() {
		return words
	}
	switch key := withoutNumbers(path); {
	case key == "collector", key == "with", strings.HasSuffix(key, ".by"), key == "images.photographer", key == "writings.hand", key == "read.person.is":
		return in.names(words)
	}
	return in.text(words)
}

// text is any words with every spelling replaced, where it stands as words of
// its own.
func (in *initials) text(words string) string {
	for _, s := range in.spoken {
		words = replaceWords(words, s.words, s.initials)
	}
	return words
}

// replaceWords replaces old where no letter touches it.
func replaceWords(text, old, new string) string {
	from := 0
	for {
		i := strings.Index(text[from:], old)
		if i < 0 {
			return text
		}
		i += from
		before, _ := utf8.DecodeLastRuneInString(text[:i])
		after, _ := utf8.DecodeRuneInString(text[i+len(old):])
		if unicode.IsLetter(before) || unicode.IsLetter(after) {
			from = i + len(old)
			continue
		}
		text = text[:i] + new + text[i+len(old):]
		from = i + len(new)
	}
}

func nth(list string, i int) string { return list + "." + strconv.Itoa(i+1) }
