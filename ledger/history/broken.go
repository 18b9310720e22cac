package history

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
)

// Break is one entry of an append-only list that a parent has and its child
// does not have unchanged and in its place.
type Break struct {
	List  string        // determinations, types, annotations or fate; lines of a work
	At    int           // of the entry in the parent, from 1
	Of    int           // entries that the parent has
	Old   ledger.Entry  // as it was
	New   *ledger.Entry // as it is now, nil when it is gone
	NewAt int           // of the entry in the child, from 1; 0: gone
	Moved bool          // the same words stand elsewhere in the list
}

// Broken judges the append-only law on the lists of one parent and its child
// (ledger.Lists): every entry of the parent stands in the child, unchanged
// and in the same order; others may stand between.
func Broken(parent, child []ledger.List) []Break {
	var out []Break
	for _, p := range parent {
		var now []ledger.Entry
		if i := slices.IndexFunc(child, func(l ledger.List) bool { return l.Field == p.Field }); i >= 0 {
			now = child[i].Entries
		}
		pairs := Align(p.Entries, now)
		spare := map[string][]int{} // entries of the child without an equal one, by their words
		for _, x := range pairs {
			if x.New >= 0 && !x.Same {
				w := EntryWords(now[x.New])
				spare[w] = append(spare[w], x.New)
			}
		}
		for _, x := range pairs {
			if x.Old < 0 || x.Same {
				continue
			}
			b := Break{List: p.Field, At: x.Old + 1, Of: len(p.Entries), Old: p.Entries[x.Old]}
			if s := spare[EntryWords(b.Old)]; len(s) > 0 {
				spare[EntryWords(b.Old)] = s[1:]
				b.New, b.NewAt, b.Moved = &now[s[0]], s[0]+1, true
			} else if x.New >= 0 {
				b.New, b.NewAt = &now[x.New], x.New+1
			}
			out = append(out, b)
		}
	}
	return out
}

// Codes of the findings of Judge.
const (
	CodeChanged = "opinion-changed" // an entry of an append-only list was altered or removed
	CodeRemoved = "record-removed"  // the file of an entered record is gone
	CodeUnmark  = "mark-removed"    // a mark of sensitivity is gone that nobody released
	CodeUnread  = "parent-unread"   // the version before could not be read, so nothing was compared with it
)

// Version is one version of a record: its decoded words, nil where the commit
// has no such record or its text cannot be read at all.
type Version struct {
	Record *ledger.Record
	Unread bool // there is a file, but its text cannot be read
	Joined bool // of a child: it has several parents (BrokenJoined)

	Elsewhere *Elsewhere // of a parent of several: what the others' lines corrected; nil: nothing

	facts *facts // worked out once for a version that is compared several times; nil: each time
}

// Unreadable reports whether the findings of a decoding say that the record's
// lists may not be all there: the text is no YAML that can be trusted whole.
func Unreadable(fs []ledger.Finding) bool {
	return slices.ContainsFunc(fs, func(f ledger.Finding) bool {
		return f.Severity == ledger.Error && (strings.HasPrefix(f.Code, "yaml-") || strings.HasPrefix(f.Code, "file-") ||
			strings.HasPrefix(f.Code, "text-") || f.Code == "merge-left" || f.Code == "field-twice")
	})
}

// Judge holds one commit's version of a record against those of the commit's
// parents by the append-only law. A Corrects trailer of the number lifts it.
// A parent that could not be read is passed over with a warning; of a child
// that cannot be read nothing can be said here (that is an error of its
// content).
func Judge(n ledger.Number, parents []Version, child Version, corrections []Correction) []ledger.Finding {
	if _, ok := correctionOf(corrections, n); ok {
		return nil
	}
	var out []ledger.Finding
	path := n.Path()
	if child.Record != nil && child.Record.Path != "" {
		path = child.Record.Path
	}
	for _, p := range parents {
		switch {
		case p.Unread:
			out = append(out, finding(path, ledger.Warning, CodeUnread, 0, "",
				"the version before this one could not be read, so its opinions were not compared with these",
				"Look at them: blotter history "+Short(n)))
		case p.Record == nil || child.Unread:
		case child.Record == nil && p.Elsewhere.excusesRecord(p.Record):
		case child.Record == nil:
			out = append(out, finding(path, ledger.Error, CodeRemoved, 0, "",
				"the record was taken away; a number that was once entered keeps its record, with what became of the sheet",
				"Put the file back, then: blotter withdraw "+Short(n)+" --is FATE --why TEXT"))
		default:
			now := ledger.Lists(child.Record)
			broken := Broken
			if child.Joined {
				broken = p.Elsewhere.broken
			}
			for _, b := range broken(ledger.Lists(p.Record), now) {
				out = append(out, b.finding(CodeChanged, Short(n), path, child.Record.Sensitive.Line > 0))
			}
			if marked(p.Record) && !marked(child.Record) && !p.Elsewhere.excuses(keyMark) {
				out = append(out, finding(path, ledger.Error, CodeUnmark, 0, "sensitive",
					"the mark of sensitivity was taken out; with the next publication everybody would see the place",
					"Put sensitive: back as it was. If the place may be seen: blotter set "+Short(n)+" sensitive.released.why=WHY sensitive.released.by=NAME sensitive.released.date=DATE --why WHY"))
			}
		}
	}
	ledger.SortFindings(out)
	return slices.CompactFunc(out, func(a, b ledger.Finding) bool { return a == b }) // the same against both parents
}

// marked reports whether a record has a mark of sensitivity, released or not.
func marked(r *ledger.Record) bool {
	s := &r.Sensitive
	return s.Why.Set() || s.Category.Set() || s.Review.Set() || s.By.Set() || s.Date.Set()
}

func finding(path string, s ledger.Severity, code string, line int32, field, message, hint string) ledger.Finding {
	return ledger.Finding{Path: path, Line: int(line), Severity: s, Code: code, Field: field, Message: message, Hint: hint}
}

// finding tells of a break in the file of what is typed as name; secret: the
// words of all but opinions may tell a place.
func (b Break) finding(code, name, path string, secret bool) ledger.Finding {
	what := fmt.Sprintf("%s %d of %d", opinionLists()[b.List], b.At, b.Of)
	field := b.List + "." + strconv.Itoa(b.At)
	var line int32
	kept := "Entries of " + b.List + " are kept as they were made; a new one goes to the end of the list."
	switch b.List {
	case "determinations":
		kept = "Opinions are kept as they were given. A new opinion: blotter determine " + name
	case linesField:
		kept = "Lines are kept as they were written. What happened since: blotter log " + name + " EVENT"
	}
	var slip string
	switch {
	case b.Moved:
		line = b.New.Line
		what += ": stands in another order now"
		slip = "Put it back where it stood: before it only what stood before it, and older slips found later."
	case b.New == nil:
		what += ": " + brief(b.Old) + ", now gone"
		slip = "If it was entered by mistake it stays and is marked so: blotter set " + name + " " + field + ".mistake=REASON --why TEXT"
	default:
		line = b.New.Line
		first, sets := "", ""
		for _, c := range diffEntry(nil, field, b.Old, *b.New) {
			key := c.Path[len(field)+1:]
			first += "; " + stated(key, c.Before) + ", now " + stated(key, c.After)
			sets += " " + c.Path + "=" + quoteWord(c.After)
		}
		what += ": " + strings.TrimPrefix(first, "; ")
		slip = "A slip of the pen: blotter set " + name + sets + ` --why "typed wrongly; label seen"`
		if b.List == linesField {
			slip = strings.Replace(slip, "label seen", "paper seen", 1)
		}
	}
	if secret && b.List != "determinations" {
		what = fmt.Sprintf("%s %d of %d was changed", opinionLists()[b.List], b.At, b.Of)
	}
	return finding(path, ledger.Error, code, line, field, what, kept+"\n"+slip)
}

// brief is the words by which a person knows an entry again.
func brief(e ledger.Entry) string {
	for _, k := range []string{"name", "status", "event", "what", "is", "kind"} {
		if w := e.Get(k); w != "" {
			if by := e.Get("by"); by != "" {
				w += ", " + by
			}
			return w
		}
	}
	return "an entry"
}

func stated(key, words string) string {
	if words == "" {
		return "without " + key
	}
	return key + " " + words
}

func quoteWord(s string) string {
	return `"` + strings.ReplaceAll(strings.ReplaceAll(s, `\`, `\\`), `"`, `\"`) + `"`
}

// Short is a number as people type it: the value of its last digits, or the
// whole number when that would not give it back.
func Short(n ledger.Number) string {
	v, ok := n.Serial()
	if s := strconv.FormatUint(v, 10); ok && strings.HasSuffix(string(n), s) && v > 0 {
		return s
	}
	return string(n)
}
