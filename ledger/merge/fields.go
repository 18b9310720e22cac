package merge

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// statements are groups that one person signed: they are taken whole from one
// side, never pieced together.
var statements = []string{"filed_under", "checked", "sensitive", "read.date", "read.country", "read.person", "read.position", "read.elevation"}

// fields merges the versions field by field.
func (m *merger) fields() {
	b, o, t := byPath(m.b), byPath(m.o), byPath(m.t)
	torn := map[string]bool{}
	for _, s := range statements {
		torn[s] = changed(b, o, s) && changed(b, t, s) && changed(o, t, s)
	}
	for _, path := range order(m.o, m.t, m.b) {
		x, y, z := b[path], o[path], t[path]
		if x.List || y.List || z.List {
			m.list(path, x.Entries, y.Entries, z.Entries)
			continue
		}
		switch {
		case y.Value == z.Value:
			m.keep(path, y.Value)
		case torn[statementOf(path)]:
			m.undecided(path, y.Value, ledger.Set(path, z.Value))
		case z.Value == x.Value:
			m.keep(path, y.Value)
		case y.Value == x.Value:
			m.keep(path, z.Value)
			m.ops = append(m.ops, ledger.Set(path, z.Value))
		default:
			m.undecided(path, y.Value, ledger.Set(path, z.Value))
		}
	}
}

func (m *merger) keep(path, value string) {
	if value != "" {
		m.mine[path] = history.FieldList{Path: path, Value: value}
	}
}

func (m *merger) undecided(path, value string, theirs ledger.Op) {
	m.keep(path, value)
	m.conflict(path, theirs)
}

func (m *merger) conflict(path string, theirs ...ledger.Op) {
	m.otherOps = append(m.otherOps, theirs...)
	m.open = append(m.open, Conflict{Path: path,
		Message: path + " was changed here and in the other copy, in two ways",
		Hint:    "Keep the right one of the two readings, take the other and the lines of the markers out, then: blotter enter"})
}

func byPath(d ledger.Document) map[string]history.FieldList {
	out := map[string]history.FieldList{}
	for _, f := range history.GroupOf(d) {
		out[f.Path] = f
	}
	return out
}

// order is every path that one of the records has, in the order of the first
// record that has it.
func order(ds ...ledger.Document) []string {
	var out []string
	seen := map[string]bool{}
	for _, d := range ds {
		for _, f := range history.GroupOf(d) {
			if !seen[f.Path] {
				seen[f.Path] = true
				out = append(out, f.Path)
			}
		}
	}
	return out
}

func statementOf(path string) string {
	for _, s := range statements {
		if strings.HasPrefix(path, s+".") {
			return s
		}
	}
	return ""
}

// changed reports whether a statement differs between two versions.
func changed(a, b map[string]history.FieldList, statement string) bool {
	for _, m := range []map[string]history.FieldList{a, b} {
		for path := range m {
			if statementOf(path) == statement && a[path].Value != b[path].Value {
				return true
			}
		}
	}
	return false
}
