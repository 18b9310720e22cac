package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/history"
)

// lawful is a record or a work, as the law sees it.
type lawful struct {
	doc    ledger.Document // nil: not there
	src    []byte
	short  string // what is typed for it
	secret bool   // its words may tell a withheld place
}

func (v *verification) lawful(ctx context.Context, blob ledger.BlobID, path string) (lawful, error) {
	l := lawful{short: nameOf(path)}
	_, isRecord := ledger.NumberOfPath(path)
	if blob == "" {
		return l, nil
	}
	var err error
	if l.src, err = v.repo.Stored().Read(ctx, ledger.File{Path: path, Blob: blob, Size: -1}); err != nil {
		return l, err
	}
	if isRecord {
		if r, _ := ledger.Decode(path, l.src); r != nil {
			l.doc, l.secret = r, r.Sensitive.Line > 0
		}
	} else if w, _ := ledger.DecodeWork(path, l.src); w != nil {
		l.doc = w
	}
	return l, nil
}

// nameOf is what is typed for a record or a work.
func nameOf(path string) string {
	if n, ok := ledger.NumberOfPath(path); ok {
		return history.Short(n)
	}
	return subjectWord(path)
}

// pathNow is where the record lies now of which an entry broke a promise: the
// plant may go on under another number.
func (v *verification) pathNow(x hooks.Breach) string {
	n, ok := ledger.NumberOfPath(x.Finding.Path)
	place, known := v.view.Place(x.Commit)
	if !ok || !known {
		return x.Finding.Path
	}
	if _, now := v.view.After(n, place); now != n {
		return now.Path()
	}
	return x.Finding.Path
}

// remedy is what to type to put right what an entry broke.
func (v *verification) remedy(ctx context.Context, x hooks.Breach) ([]string, error) {
	f := x.Finding
	old, err := v.lawful(ctx, x.Held, f.Path)
	if err != nil {
		return nil, err
	}
	if old.doc == nil {
		return strings.Split(f.Hint, "\n"), nil
	}
	path := v.pathNow(x)
	old.short = nameOf(path)
	blob, err := v.repo.BlobAt(ctx, v.tip, path)
	if err != nil {
		return nil, err
	}
	now, err := v.lawful(ctx, blob, path)
	if err != nil {
		return nil, err
	}
	otherwise := v.bringBack(x.Held, path, old.short)
	switch f.Code {
	case history.CodeChanged, history.CodeLine:
		list, number, _ := strings.Cut(f.Field, ".")
		at, _ := strconv.Atoi(number)
		if b := lost(old, now, list, at); b != nil {
			return entryRemedy(*b, old, path, otherwise), nil
		}
	case history.CodeHeading:
		for _, g := range history.GroupOf(old.doc) {
			if g.Path == f.Field && !g.List {
				return []string{"blotter set " + old.short + " " + f.Field + "=" + shellQuoted(g.Value) + ` --why "as it was entered"`}, nil
			}
		}
	}
	return otherwise, nil
}

// bringBack brings a file back as it was.
func (v *verification) bringBack(blob ledger.BlobID, path, short string) []string {
	where := ""
	if v.repo.Bare() {
		where = "In a copy of the ledger:  "
	}
	return []string{where + "git show " + string(blob[:12]) + " >" + shellWord(path),
		"then add to it again what was entered since (blotter history " + short + "), and:  blotter enter " + short}
}

// lost is what became of an entry of a list; nil: it stands.
func lost(old, now lawful, list string, at int) *history.Break {
	if now.doc == nil {
		return nil
	}
	for _, b := range history.Broken(ledger.Lists(old.doc), ledger.Lists(now.doc)) {
		if b.List == list && b.At == at {
			return &b
		}
	}
	return nil
}

// entryRemedy puts one entry of a list back. Of a sheet whose place is
// withheld only opinions are repeated here: messages travel.
func entryRemedy(b history.Break, old lawful, path string, otherwise []string) []string {
	if old.secret && b.List != "determinations" {
		return otherwise
	}
	switch {
	case b.Moved:
		return []string{fmt.Sprintf("Put it back in its place, entry %d of %s in %s; then:  blotter enter %s", b.At, b.List, path, old.short)}
	case b.New != nil:
		var sets []string
		for _, kv := range b.Old.Fields {
			if b.New.Get(kv.Key) != kv.Value {
				sets = append(sets, fmt.Sprintf("%s.%d.%s=%s", b.List, b.NewAt, kv.Key, shellQuoted(kv.Value)))
			}
		}
		for _, kv := range b.New.Fields {
			if !slices.ContainsFunc(b.Old.Fields, func(o ledger.KV) bool { return o.Key == kv.Key }) {
				sets = append(sets, fmt.Sprintf("%s.%d.%s=", b.List, b.NewAt, kv.Key))
			}
		}
		return []string{"blotter set " + old.short + " " + strings.Join(sets, " ") + ` --why "as it was entered"`,
			"Is the new word right all the same? Then correct it after that, with its reason: blotter set ... --why TEXT"}
	}
	lines := linesOfEntry(old.src, int(b.Old.Line))
	if lines == nil {
		return otherwise
	}
	out := []string{fmt.Sprintf("Write these lines back into %s, under %s:, as entry %d; then:  blotter enter %s", path, b.List, b.At, old.short)}
	return append(out, lines...)
}

// linesOfEntry are the lines of an entry of a list that begins at a line, as
// they were written.
func linesOfEntry(src []byte, line int) []string {
	all := strings.Split(strings.ReplaceAll(string(src), "\r\n", "\n"), "\n")
	if line < 1 || line > len(all) || !strings.HasPrefix(strings.TrimLeft(all[line-1], " "), "-") {
		return nil
	}
	indent := func(s string) int { return len(s) - len(strings.TrimLeft(s, " ")) }
	out := []string{all[line-1]}
	for _, l := range all[line:] {
		if strings.TrimSpace(l) == "" || indent(l) <= indent(out[0]) {
			break
		}
		out = append(out, l)
	}
	return out
}

// shellQuoted is a value as it is typed after a field's name.
func shellQuoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "$", `\$`, "`", "\\`").Replace(s) + `"`
}
