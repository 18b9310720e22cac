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
	b, o, t := m.b.fields, m.o.fields, m.t.fields
	paths := order(m.o, m.t, m.b)
	torn := tornOf(paths, b, o, t)
	for _, path := range paths {
		x, y, z := b[path], o[path], t[path]
		if x.List || y.List || z.List {
			m.list(path, x.Entries, y.Entries, z.Entries)
			continue
		}
		s := statementOf(path)
		switch {
		case fold1(y.Value) == fold1(z.Value):
			words := m.spelled(x.Value, y.Value, z.Value)
			m.keep(path, words)
			if words != y.Value {
				m.ops = append(m.ops, ledger.Set(path, words))
			}
		case torn[s]:
			m.keep(path, y.Value)
			m.statement(s, ledger.Set(path, z.Value), b, o, t)
		case z.Value == x.Value:
			m.keep(path, y.Value)
		case y.Value == x.Value:
			m.keep(path, z.Value)
			m.ops = append(m.ops, ledger.Set(path, z.Value))
		default:
			m.keep(path, y.Value)
			m.conflict(Conflict{Path: path, Base: x.Value, Ours: y.Value, Theirs: z.Value}, ledger.Set(path, z.Value))
		}
	}
}

// fold1 is words with one blank between them.
func fold1(words string) string { return strings.Join(strings.Fields(words), " ") }

// spelled is which of two spellings of the same words stands: the one that is
// not as it was, and of two new ones ours where theirs is put upon it, else the
// shorter, or the first by its letters.
func (m *merger) spelled(was, a, b string) string {
	switch {
	case a == was:
		return b
	case b == was, m.onto:
		return a
	case len(a) != len(b):
		if len(a) < len(b) {
			return a
		}
		return b
	}
	return min(a, b)
}

func (m *merger) keep(path, value string) {
	if value != "" {
		m.mine[path] = history.FieldList{Path: path, Value: value}
	}
}

// statement leaves a statement undecided as a whole; op is a part of theirs.
func (m *merger) statement(path string, op ledger.Op, b, o, t fieldMap) {
	for i := range m.open {
		if m.open[i].Path == path {
			m.open[i].theirs = append(m.open[i].theirs, op)
			return
		}
	}
	m.conflict(Conflict{Path: path, Kind: Statement, Base: m.inLine(path, b), Ours: m.inLine(path, o), Theirs: m.inLine(path, t)}, op)
}

// inLine is a statement in one line.
func (m *merger) inLine(path string, fs fieldMap) string {
	var e ledger.Entry
	for _, f := range ledger.FieldsOf(m.kind) {
		if key, ok := strings.CutPrefix(f.Path, path+"."); ok && fs[f.Path].Value != "" {
			e.Fields = append(e.Fields, ledger.KV{Key: key, Value: fs[f.Path].Value})
		}
	}
	return brief(e)
}

// order is every path that one of the records has, in the order of the first
// record that has it.
func order(vs ...version) []string {
	var out []string
	seen := map[string]bool{}
	for _, v := range vs {
		for _, f := range v.list {
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
		if len(path) > len(s) && path[len(s)] == '.' && path[:len(s)] == s {
			return s
		}
	}
	return ""
}

// tornOf are the statements that both sides changed, and not alike.
func tornOf(paths []string, b, o, t fieldMap) map[string]bool {
	here, there, apart := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, path := range paths {
		if s := statementOf(path); s != "" {
			x, y, z := b[path].Value, o[path].Value, t[path].Value
			here[s] = here[s] || x != y
			there[s] = there[s] || x != z
			apart[s] = apart[s] || y != z
		}
	}
	torn := map[string]bool{}
	for s := range apart {
		torn[s] = here[s] && there[s] && apart[s]
	}
	return torn
}
