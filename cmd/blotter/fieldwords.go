package main

import (
	"strings"

	"blotter/ledger"
)

// assignment is one FIELD=VALUE as typed, its field found.
type assignment struct {
	path  string // full path, entries numbered: determinations.1.by
	field ledger.Field
	value string
}

// readAssignments reads FIELD=VALUE arguments.
func readAssignments(args []string) ([]assignment, error) {
	var all []assignment
	for _, arg := range args {
		name, value, ok := strings.Cut(arg, "=")
		if !ok {
			return nil, misuse("%q is no FIELD=VALUE", arg).try(`For example: habitat="Hay meadow on moraine"`)
		}
		if strings.TrimSpace(name) == "name" {
			return nil, misuse("a plant's name is somebody's opinion, and a sheet may have several").
				try("Named anew: blotter determine SHEET NAME --by PERSON", "A slip of the pen: blotter set SHEET determinations.1.name=NAME --why TEXT")
		}
		if strings.TrimSpace(name) == bareMistake {
			field, _ := ledger.FieldAt(ledger.RecordKind, "determinations.mistake")
			all = append(all, assignment{bareMistake, field, strings.TrimSpace(value)})
			continue
		}
		path, field, err := findField(strings.TrimSpace(name))
		if err != nil {
			return nil, err
		}
		if value = strings.TrimSpace(value); value != "" && (field.Kind == ledger.Group || field.Kind == ledger.Entries) {
			return nil, misuse("%q holds fields of its own and takes no words", path).try("Name one of them: " + strings.Join(fieldsIn(field), ", "))
		}
		all = append(all, assignment{path, field, value})
	}
	return all, nil
}

// fieldsIn are the paths of the fields of a group or of its first entry.
func fieldsIn(of ledger.Field) (paths []string) {
	for _, f := range ledger.Fields() {
		if rest, ok := strings.CutPrefix(f.Path, of.Path+"."); ok && !strings.Contains(rest, ".") {
			if of.Kind == ledger.Entries {
				rest = "1." + rest
			}
			paths = append(paths, of.Path+"."+rest)
		}
	}
	return paths
}

// findField gives the full path of a field named by its path, by its last
// part alone where that is not ambiguous, or, for a person's reading, as
// date-read.
func findField(name string) (string, ledger.Field, error) {
	if what, ok := strings.CutSuffix(name, "-read"); ok {
		name = "read." + what + ".is"
	}
	if name == "number" {
		name = "coll_no" // the trade's word: a collector's number
	}
	if f, ok := ledger.FieldAt(ledger.RecordKind, name); ok {
		return name, f, nil
	}
	var names, paths []string
	for _, f := range ledger.Fields() {
		names = append(names, f.Path, f.Key())
		if f.Key() == name && f.Kind != ledger.Group && !inEntries(f.Path) && !strings.HasPrefix(f.Path, "read.") {
			paths = append(paths, f.Path)
		}
	}
	if len(paths) == 1 {
		f, _ := ledger.FieldAt(ledger.RecordKind, paths[0])
		return paths[0], f, nil
	}
	if len(paths) > 1 {
		return "", ledger.Field{}, misuse("%q can be %s", name, strings.Join(paths, " or "))
	}
	f := misuse("no field is called %q", name)
	if group, parts := partsOf(name); parts != nil {
		f = misuse("no field is called %q; %s has %s", name, group, strings.Join(parts, ", "))
	} else if near := nearest(name, names); near != "" {
		f = misuse("no field is called %q; did you mean %s?", name, near)
	}
	return "", ledger.Field{}, f.try("FORMAT.md lists all fields; blotter new explains each with ?")
}

// partsOf are the names of the fields within the group that path names before
// its last dot; nil when there is no such group.
func partsOf(path string) (group string, parts []string) {
	dot := strings.LastIndexByte(path, '.')
	if dot < 0 {
		return "", nil
	}
	group = path[:dot]
	for _, f := range ledger.Fields() {
		if part, ok := strings.CutPrefix(f.Path, group+"."); ok && !strings.Contains(part, ".") {
			parts = append(parts, part)
		}
	}
	return group, parts
}

// inEntries reports whether the field lies in a list of entries.
func inEntries(path string) bool {
	for i := range path {
		if path[i] != '.' {
			continue
		}
		if f, ok := ledger.FieldAt(ledger.RecordKind, path[:i]); ok && f.Kind == ledger.Entries {
			return true
		}
	}
	return false
}

// knownField is findField for queries.
func knownField(name string) (string, bool) {
	path, _, err := findField(name)
	return path, err == nil
}

// wordForNone is what is written when the label has none of a field.
func wordForNone(path string) string {
	switch path {
	case "date":
		return "s.d."
	case "coll_no":
		return "s.n."
	case "place.locality":
		return "s.l."
	case "collector", "origin":
		return "unknown"
	}
	return "not recorded"
}
