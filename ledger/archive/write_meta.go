package archive

import (
	"bytes"
	"encoding/xml"
	"strconv"
)

// AppendMeta appends meta.xml as the Text Guide has it. Every entity is
// written as it stands; Comma, Quote and Ends are those of AppendRow when they
// are empty.
func AppendMeta(b []byte, m *Meta) []byte {
	w := metaWriter{bytes.NewBuffer(b)}
	w.WriteString(xml.Header)
	w.WriteString(`<archive xmlns="http://rs.tdwg.org/dwc/text/"`)
	if m.Metadata != "" {
		w.attribute("metadata", m.Metadata)
	}
	w.WriteString(">\n")
	w.entity("core", "id", &m.Core)
	for i := range m.Extensions {
		w.entity("extension", "coreid", &m.Extensions[i])
	}
	w.WriteString("</archive>\n")
	return w.Bytes()
}

type metaWriter struct{ *bytes.Buffer }

func (w metaWriter) attribute(name, value string) {
	w.WriteString(" " + name + `="`)
	xml.EscapeText(w, []byte(value))
	w.WriteByte('"')
}

func (w metaWriter) entity(element, id string, e *Entity) {
	or := func(s, other string) string {
		if s == "" {
			return other
		}
		return s
	}
	w.WriteString("  <" + element)
	w.attribute("rowType", e.RowType)
	w.attribute("encoding", or(e.Encoding, "UTF-8"))
	w.attribute("fieldsTerminatedBy", escapeSigns(or(e.Comma, ",")))
	w.attribute("fieldsEnclosedBy", or(e.Quote, `"`))
	w.attribute("linesTerminatedBy", escapeSigns(or(e.Ends, "\n")))
	w.attribute("ignoreHeaderLines", strconv.Itoa(e.Skip))
	w.WriteString(">\n    <files>")
	for _, f := range e.Files {
		w.WriteString("<location>")
		xml.EscapeText(w, []byte(f))
		w.WriteString("</location>")
	}
	w.WriteString("</files>\n")
	if e.ID >= 0 {
		w.WriteString("    <" + id)
		w.attribute("index", strconv.Itoa(e.ID))
		w.WriteString("/>\n")
	}
	for _, f := range e.Fields {
		w.WriteString("    <field")
		if f.Index >= 0 {
			w.attribute("index", strconv.Itoa(f.Index))
		}
		w.attribute("term", f.Term)
		if f.Default != "" {
			w.attribute("default", f.Default)
		}
		if f.Vocabulary != "" {
			w.attribute("vocabulary", f.Vocabulary)
		}
		if f.Delimiter != "" {
			w.attribute("delimitedBy", f.Delimiter)
		}
		w.WriteString("/>\n")
	}
	w.WriteString("  </" + element + ">\n")
}

// escapeSigns writes a sign as meta.xml has it.
func escapeSigns(s string) string {
	switch s {
	case "\n":
		return `\n`
	case "\r\n":
		return `\r\n`
	case "\r":
		return `\r`
	case "\t":
		return `\t`
	}
	return s
}
