package history

import (
	"slices"
	"strconv"

	"blotter/ledger"
)

// Codes of the findings of JudgeWork.
const (
	CodeLine    = "line-changed"    // a line of a work was altered or removed
	CodeHeading = "heading-changed" // what the heading of a work said was altered or removed
	CodeWork    = "work-removed"    // the file of an entered work is gone
)

const linesField = "lines"

// WorkVersion is one version of a file of work/: nil where the commit has no
// such file or its text cannot be read at all.
type WorkVersion struct {
	Work   *ledger.Work
	Unread bool // there is a file, but its text cannot be read
	Joined bool // of a child: it has several parents (BrokenJoined)
}

// JudgeWork holds one commit's version of a work against those of the
// commit's parents, as Judge does a record: its lines stand unchanged and in
// the same order, what its heading said stands. A field of the heading that
// said nothing may be filled in. A Corrects trailer of its number lifts this.
func JudgeWork(n ledger.WorkNumber, parents []WorkVersion, child WorkVersion, corrections []Correction) []ledger.Finding {
	if _, ok := correctionOf(corrections, ledger.Number(n)); ok {
		return nil
	}
	path := n.Path()
	var out []ledger.Finding
	for _, p := range parents {
		switch {
		case p.Unread:
			out = append(out, finding(path, ledger.Warning, CodeUnread, 0, "",
				"the version before this one could not be read, so its lines were not compared with these", "Look at them: blotter history "+string(n)))
		case p.Work == nil || child.Unread:
		case child.Work == nil:
			out = append(out, finding(path, ledger.Error, CodeWork, 0, "",
				"the file was taken away; work that was once entered keeps its file, and its number is never used again",
				"Put the file back. Lines that should not be there: blotter set "+string(n)+" lines.1.mistake=REASON --why TEXT"))
		default:
			broken := Broken
			if child.Joined {
				broken = BrokenJoined
			}
			for _, b := range broken(ledger.Lists(p.Work), ledger.Lists(child.Work)) {
				out = append(out, b.finding(CodeLine, string(n), path, false))
			}
			out = append(out, headingBroken(n, path, p.Work, child.Work)...)
		}
	}
	ledger.SortFindings(out)
	return slices.CompactFunc(out, func(a, b ledger.Finding) bool { return a == b }) // the same against both parents
}

// headingBroken tells what the heading of a work said and says no more.
func headingBroken(n ledger.WorkNumber, path string, old, now *ledger.Work) []ledger.Finding {
	is := map[string]FieldList{}
	for _, f := range GroupOf(now) {
		is[f.Path] = f
	}
	var out []ledger.Finding
	tell := func(field, was, after, key string) {
		message := field + " said " + was + ", now " + after
		if after == "" {
			message = field + " said " + was + ", which is gone"
		}
		out = append(out, finding(path, ledger.Error, CodeHeading, int32(ledger.LineOf(now, key)), field, message+"; the heading holds for all lines",
			"What changed since is a line: blotter log "+string(n)+" EVENT\nTyped wrongly: blotter set "+string(n)+" "+key+"="+quoteWord(after)+` --why "typed wrongly; paper seen"`))
	}
	for _, f := range GroupOf(old) {
		got := is[f.Path]
		switch {
		case f.Path == linesField:
		case !f.List && got.Value != f.Value:
			tell(f.Path, f.Value, got.Value, f.Path)
		case f.List:
			for i, e := range f.Entries {
				if !slices.ContainsFunc(got.Entries, e.Equal) {
					tell(f.Path+"."+strconv.Itoa(i+1), EntryWords(e), "", f.Path)
				}
			}
		}
	}
	return out
}

// WorkChange is one work before and after an entry.
type WorkChange struct {
	Number   ledger.WorkNumber
	Old, New *ledger.Work // nil: not there
}

// WorkKey names the trailer that says what was done to one work:
// "Work: loan-2026-004 sent".
const WorkKey = "Work"

// WordOfWork says what an entry does to a work: opened, the event of the line
// that came, corrected, filled in, removed.
func WordOfWork(c WorkChange) string {
	switch {
	case c.Old == nil && c.New == nil:
		return ""
	case c.Old == nil:
		return "opened"
	case c.New == nil:
		return "removed"
	}
	word, lines := "", len(c.New.Lines)-len(c.Old.Lines)
	if lists, before := ledger.Lists(c.New)[0], ledger.Lists(c.Old)[0]; lines > 0 {
		for _, p := range Align(before.Entries, lists.Entries) {
			if p.Old < 0 {
				word = lists.Entries[p.New].Get("event")
			}
		}
	}
	switch {
	case lines > 1:
		return strconv.Itoa(lines) + " lines"
	case word != "":
		return word
	}
	return "corrected"
}
