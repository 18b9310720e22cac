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
		s := statementOf(path)
		switch {
		case fold1(y.Value) == fold1(z.Value):
			m.keep(path, y.Value)
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

func (m *merger) keep(path, value string) {
	if value != "" {
		m.mine[path] = history.FieldList{Path: path, Value: value}
	}
}

// statement leaves a statement undecided as a whole; op is a part of theirs.
func (m *merger) statement(path string, op ledger.Op, b, o, t map[string]history.FieldList) {
	for i := range m.open {
		if m.open[i].Path == path {
			m.open[i].theirs = append(m.open[i].theirs, op)
			return
		}
	}
	m.conflict(Conflict{Path: path, Kind: Statement, Base: m.whole(path, b), Ours: m.whole(path, o), Theirs: m.whole(path, t)}, op)
}

// whole is a statement in one line.
func (m *merger) whole(path string, fs map[string]history.FieldList) string {
	var e ledger.Entry
	for _, f := range ledger.FieldsOf(m.kind) {
		if key, ok := strings.CutPrefix(f.Path, path+"."); ok && fs[f.Path].Value != "" {
			e.Fields = append(e.Fields, ledger.KV{Key: key, Value: fs[f.Path].Value})
		}
	}
	return brief(e)
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
