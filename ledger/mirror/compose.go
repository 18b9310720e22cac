package mirror

import (
	"bytes"
	"context"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/public"
)

// admitted is the name (see versionOf) of a file that goes into the mirror, and
// its path there, whatever folder of the ledger it lies in.
func admitted(path string) (name, to string, ok bool) {
	if n, ok := ledger.NumberOfPath(path); ok {
		return string(n), n.Path(), n.Valid()
	}
	if path == ledger.MuseumFile || path == ledger.PeopleFile {
		return "/" + path, path, true
	}
	base, ok := strings.CutPrefix(path, ledger.NamesDir+"/")
	if !ok || !strings.HasSuffix(base, ".yaml") || base[0] == '.' || !utf8.ValidString(base) {
		return "", "", false
	}
	for _, r := range base {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) && !strings.ContainsRune("-_. ", r) {
			return "", "", false
		}
	}
	return "/" + path, path, true
}

// sheet is one version of a record.
type sheet struct {
	full   *ledger.Record // nil: it could not be read
	seen   *ledger.Record // what everybody may see of it
	public *ledger.Record // the same with sentences for what is withheld: the file
}

// sheet reads one version of a record; nil for no version.
func (s *survey) sheet(ctx context.Context, n ledger.Number, id ledger.BlobID) (*sheet, error) {
	if id == "" {
		return nil, nil
	}
	r, err := s.decode(ctx, n, id)
	if err != nil {
		return nil, err
	}
	if r == nil {
		return &sheet{public: stub(n, ledger.Stub)}, nil
	}
	r.Path = n.Path()
	out := &sheet{full: r}
	stage := ledger.Stage(r.Entry.Text)
	if s.Book.Aside(n) {
		stage = ledger.Draft
	}
	if stage == ledger.Draft || stage == ledger.Stub {
		out.public = stub(n, stage) // not ready to be shown, as in the catalogue
		return out, nil
	}
	var w *public.Withheld
	if out.seen, w = s.view.Record(r); w != nil {
		out.public, _ = s.view.Published(r)
	} else {
		out.public = out.seen
	}
	out.public.Path = r.Path
	return out, nil
}

// stub stands for a version that cannot be read or is not ready.
func stub(n ledger.Number, stage ledger.Stage) *ledger.Record {
	return &ledger.Record{Path: n.Path(), Specimen: ledger.Leaf{Text: string(n)}, Entry: ledger.Leaf{Text: string(stage)}}
}

// ready reports whether a version is shown.
func (x *sheet) ready() bool {
	return x != nil && x.full != nil && x.public.Entry.Text != string(ledger.Draft) && x.public.Entry.Text != string(ledger.Stub)
}

// text is the file of a record. The first line of Encode leads to a schema
// that the mirror does not have.
func (x *sheet) text() []byte {
	b := ledger.Encode(x.public)
	return b[bytes.IndexByte(b, '\n')+1:]
}

// text is what a version of a file becomes.
func (s *survey) text(ctx context.Context, v versionOf) ([]byte, error) {
	if v.name[0] != '/' {
		x, err := s.sheet(ctx, ledger.Number(v.name), v.blob)
		if err != nil {
			return nil, err
		}
		return x.text(), nil
	}
	src, err := s.bytes(ctx, v.blob)
	if err != nil {
		return nil, err
	}
	if src == nil {
		src = []byte("\x00") // nobody reads it
	}
	path := v.name[1:]
	switch path {
	case ledger.MuseumFile:
		x, found := ledger.DecodeMuseum(path, src)
		if history.Unreadable(found) {
			x = &ledger.Museum{}
		}
		return ledger.EncodeMuseum(s.view.SettingsFile(x)), nil
	case ledger.PeopleFile:
		x, found := ledger.DecodePeople(path, src)
		if history.Unreadable(found) {
			x = &ledger.People{}
		}
		return ledger.EncodePeople(s.view.PeopleFile(x)), nil
	}
	x, found := ledger.DecodeNames(path, src)
	if history.Unreadable(found) {
		x = &ledger.FamilyNames{}
	}
	return ledger.EncodeNames(s.view.NamesFile(x)), nil
}

// person is an author or committer as everybody may know him.
func (s *survey) person(p history.Person) history.Person {
	name := strings.ToValidUTF8(p.Name, "")
	if name = strings.TrimSpace(s.view.Person(name)); name == "" || strings.Contains(name, "@") {
		name = "name withheld"
	}
	return history.Person{Name: name, Email: Address, When: p.When}
}

// act is what an entry did to one record, in the words that everybody may
// read.
func act(old, now *sheet) history.Act {
	if now == nil {
		return history.Act{Word: "removed"}
	}
	switch {
	case now.full == nil:
		return history.Act{Word: "could not be read"}
	case !now.ready():
		return history.Act{Word: now.public.Entry.Text}
	case !old.ready():
		return history.ActOf(history.RecordChange{New: now.seen})
	}
	a := history.ActOf(history.RecordChange{Old: old.seen, New: now.seen})
	if a.Word != "corrected" || a.Detail != "" {
		return a
	}
	a = history.ActOf(history.RecordChange{Old: old.full, New: now.full})
	switch {
	case a.Word == "corrected" && a.Detail == "":
		return history.Act{Word: "written anew, no words altered"}
	case a.Word == "corrected":
		return history.Act{Word: "corrected", Detail: withheldFields(a.Detail)}
	}
	return history.Act{Word: "altered in what is not public"}
}

// named are the parts of a record of which everybody may know that their words
// were corrected, though not the words.
var named = map[string]bool{
	"place": true, "date": true, "collector": true, "coll_no": true, "habitat": true, "remarks": true, "writings": true, "images": true, "determinations": true,
	"same_gathering": true, "garden": true, "read": true,
}

// withheldFields names the parts of a record in which words were corrected
// that are withheld: "place (withheld)".
func withheldFields(paths string) string {
	var heads []string
	for p := range strings.SplitSeq(paths, ", ") {
		head, _, _ := strings.Cut(p, ".")
		if !named[head] {
			head = "what is not public"
		}
		if !slices.Contains(heads, head) {
			heads = append(heads, head)
		}
	}
	return strings.Join(heads, ", ") + " (withheld)"
}
