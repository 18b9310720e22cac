package workbook

import (
	"fmt"
	"io"
	"path"
	"strings"
	"unicode"
)

// xlsx is what an XLSX says of all its sheets.
type xlsx struct {
	shared  []string // the shared strings
	formats []format // by the style of a cell
	from    int      // the first day of its dates: 1900 or 1904
}

// relation is one line of a part's relationships.
type relation struct{ id, kind, target string }

// relations are those of a part; a part without any has none.
func (b *Book) relations(part string) ([]relation, error) {
	dir, base := path.Split(part)
	name := dir + "_rels/" + base + ".rels"
	if b.files[name] == nil {
		return nil, nil
	}
	x, c, err := b.part(name)
	if err != nil {
		return nil, err
	}
	defer c.Close()
	var out []relation
	for {
		kind, err := x.next()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		if kind != xmlStart || string(x.name) != "Relationship" || string(x.attr("TargetMode")) == "External" {
			continue
		}
		target, err := x.attrText("Target")
		if err != nil {
			return nil, err
		}
		if abs, ok := strings.CutPrefix(target, "/"); ok {
			target = path.Clean(abs)
		} else {
			target = path.Join(path.Dir(part), target)
		}
		out = append(out, relation{string(x.attr("Id")), path.Base(string(x.attr("Type"))), target})
	}
}

// related is the target of the first relation of a kind; "" for none.
func related(rs []relation, kind string) string {
	for _, r := range rs {
		if r.kind == kind {
			return r.target
		}
	}
	return ""
}

// openXLSX reads the list of sheets. Shared strings and formats are read when
// rows are.
func (b *Book) openXLSX() error {
	top, err := b.relations("")
	if err != nil {
		return err
	}
	main := related(top, "officeDocument")
	switch {
	case main == "":
		return fmt.Errorf("it does not say which part is the workbook")
	case strings.HasSuffix(main, ".bin"):
		return fmt.Errorf("it is a binary workbook (XLSB): open it, save it as XLSX")
	}
	rs, err := b.relations(main)
	if err != nil {
		return err
	}
	b.xlsx = &xlsx{from: 1900}
	x, c, err := b.part(main)
	if err != nil {
		return err
	}
	defer c.Close()
	for {
		kind, err := x.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		if kind != xmlStart {
			continue
		}
		switch string(x.name) {
		case "workbookPr":
			if v := string(x.attr("date1904")); v == "1" || v == "true" || v == "on" {
				b.xlsx.from = 1904
			}
		case "sheet":
			if err := b.addSheet(x, rs); err != nil {
				return err
			}
		}
	}
	return b.stylesAndStrings(rs)
}

// addSheet adds the sheet that the workbook names, when it is one of cells.
func (b *Book) addSheet(x *xmlReader, rs []relation) error {
	id, state := "", string(x.attr("state"))
	for _, a := range x.attrs { // r:id; sheetId has another name
		if string(a.name) == "id" {
			id = string(a.value)
		}
	}
	name, err := x.attrText("name")
	if err != nil {
		return err
	}
	for _, r := range rs {
		if r.id == id && r.kind == "worksheet" { // not a sheet with a chart alone
			b.Sheets = append(b.Sheets, Sheet{Name: name, Hidden: state == "hidden" || state == "veryHidden", part: r.target})
		}
	}
	return nil
}

// stylesAndStrings notes where both stand, and reads the styles.
func (b *Book) stylesAndStrings(rs []relation) error {
	if part := related(rs, "styles"); b.files[part] != nil {
		if err := b.readStyles(part); err != nil {
			return err
		}
	}
	if part := related(rs, "sharedStrings"); b.files[part] != nil {
		return b.readShared(part)
	}
	return nil
}

// readShared reads the shared strings: many in one piece of memory.
func (b *Book) readShared(part string) error {
	x, c, err := b.part(part)
	if err != nil {
		return err
	}
	defer c.Close()
	var all strings.Builder
	var ends []int
	for {
		kind, err := x.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		if kind == xmlStart && string(x.name) == "si" {
			words, err := x.richText()
			if err != nil {
				return err
			}
			all.WriteString(words)
			ends = append(ends, all.Len())
			if all.Len() > maxShared {
				return x.errorf("holds more than %d bytes of words", maxShared)
			}
		}
	}
	text, from := all.String(), 0
	b.xlsx.shared = make([]string, len(ends))
	for i, end := range ends {
		b.xlsx.shared[i] = text[from:end]
		from = end
	}
	return nil
}

// richText reads the words of an <si> or <is> that has just begun: of its runs
// in order, without the ruby beside them.
func (x *xmlReader) richText() (string, error) {
	words := ""
	for {
		kind, err := x.next()
		if err != nil {
			return "", x.broken(err)
		}
		switch {
		case kind == xmlEnd && (string(x.name) == "si" || string(x.name) == "is"):
			return unescapeUnits(words), nil
		case kind == xmlStart && string(x.name) == "rPh":
			if err := x.skip(); err != nil {
				return "", err
			}
		case kind == xmlStart && string(x.name) == "t":
			preserve := string(x.attr("space")) == "preserve"
			t, err := x.textOf()
			if err != nil {
				return "", err
			}
			if !preserve {
				t = strings.Trim(t, " \t\r\n")
			}
			if len(words)+len(t) > MaxCell {
				return "", x.errorf("has a cell of more than %d bytes", MaxCell)
			}
			words += t
		}
	}
}

// textOf reads the words to the end of the element that has just begun.
func (x *xmlReader) textOf() (string, error) {
	words := ""
	for depth := 1; depth > 0; {
		kind, err := x.next()
		if err != nil {
			return "", x.broken(err)
		}
		switch kind {
		case xmlStart:
			depth++
		case xmlEnd:
			depth--
		case xmlText:
			if len(words)+len(x.text) > MaxCell {
				return "", x.errorf("has a cell of more than %d bytes", MaxCell)
			}
			words += string(x.text)
		}
	}
	return words, nil
}

// unescapeUnits resolves _x000D_ and its like, by which a string holds what XML
// cannot (ISO/IEC 29500-1, ST_Xstring). What gives no character that a text
// may hold stays as it is.
func unescapeUnits(s string) string {
	at := strings.Index(s, "_x")
	if at < 0 {
		return s
	}
	var b strings.Builder
	for at >= 0 {
		b.WriteString(s[:at])
		s = s[at:]
		if n, ok := unitOf(s); ok {
			b.WriteRune(n)
			s = s[7:]
		} else {
			b.WriteString(s[:2])
			s = s[2:]
		}
		at = strings.Index(s, "_x")
	}
	b.WriteString(s)
	return b.String()
}

// unitOf is the character of the escape that a text begins with.
func unitOf(s string) (rune, bool) {
	if len(s) < 7 || s[6] != '_' {
		return 0, false
	}
	n := rune(0)
	for _, c := range s[2:6] {
		d := strings.IndexRune("0123456789abcdef", unicode.ToLower(c))
		if d < 0 {
			return 0, false
		}
		n = n<<4 | rune(d)
	}
	return n, n != 0 && (n < 0xD800 || n > 0xDFFF)
}
