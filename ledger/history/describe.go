package history

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"blotter/ledger"
)

// RecordChange is one record before and after an entry.
type RecordChange struct {
	Number   ledger.Number
	Old, New *ledger.Record // nil: not there
}

// Act is what an entry does to one record, in the trade's words.
type Act struct {
	Word   string // new, removed, determined, confirmed, doubted, renamed, typified, withdrawn, found, noted, accepted, corrected
	Detail string // "" or, for example, "Ranunculus acris L., Signe Rask" or "place.elevation, habitat"
}

// SheetKey names the trailer that says what was done to one record:
// "Sheet: LK7-0000482 determined".
const SheetKey = "Sheet"

// maxSheetTrailers is how many records an entry names one by one; of a larger
// one the content alone says which.
const maxSheetTrailers = 200

// ActOf says what an entry does to one record. What was added to a list of
// opinions goes before what was altered elsewhere.
func ActOf(c RecordChange) Act {
	switch {
	case c.Old == nil && c.New == nil:
		return Act{}
	case c.Old == nil:
		return Act{"new", joinWords(newName(c.New), strings.TrimSpace(c.New.Collector.Text+" "+c.New.CollNo.Text))}
	case c.New == nil:
		return Act{"removed", ""}
	}
	if n := len(c.New.Fate); n > len(c.Old.Fate) {
		last := c.New.Fate[n-1]
		if last.Is.Text == "found" {
			return Act{"found", ""}
		}
		return Act{"withdrawn", joinWords(last.Is.Text, last.To.Text)}
	}
	if d, ok := addedDetermination(c.Old.Determinations, c.New.Determinations); ok {
		return actOfDetermination(d)
	}
	if n := len(c.New.Types); n > len(c.Old.Types) {
		last := c.New.Types[n-1]
		return Act{"typified", strings.TrimSpace(last.Status.Text + " of " + last.Of.Text)}
	}
	if n := len(c.New.Annotations); n > len(c.Old.Annotations) {
		last := c.New.Annotations[n-1]
		return Act{"noted", joinWords(last.Kind.Text, last.By.Text)}
	}
	if n := len(c.New.Sic); n > len(c.Old.Sic) {
		return Act{"accepted", c.New.Sic[n-1].Code.Text}
	}
	return Act{"corrected", strings.Join(alteredFields(c.Old, c.New), ", ")}
}

func newName(r *ledger.Record) string {
	if n := len(r.Determinations); n > 0 {
		return r.Determinations[n-1].Name.Text
	}
	return r.CoverName.Text
}

// addedDetermination is the last entry of now that has no equal in before,
// when now is the longer.
func addedDetermination(before, now []ledger.Determination) (ledger.Determination, bool) {
	if len(now) <= len(before) {
		return ledger.Determination{}, false
	}
	for i := len(now) - 1; i >= 0; i-- {
		if !slices.ContainsFunc(before, func(d ledger.Determination) bool { return sameWords(d, now[i]) }) {
			return now[i], true
		}
	}
	return now[len(now)-1], true
}

func sameWords(a, b ledger.Determination) bool {
	return a.Name.Text == b.Name.Text && a.Kind.Text == b.Kind.Text && a.By.Text == b.By.Text && a.Date.Text == b.Date.Text
}

func actOfDetermination(d ledger.Determination) Act {
	word := "determined"
	switch d.Kind.Text {
	case "conf":
		word = "confirmed"
	case "not":
		word = "doubted"
	case "name-change":
		word = "renamed"
	}
	return Act{word, joinWords(d.Name.Text, d.By.Text)}
}

func joinWords(words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ", ")
}

// alteredFields are the paths, without the numbers of list entries, whose
// words differ, in the order of the field table.
func alteredFields(old, now *ledger.Record) []string {
	before, after := ledger.Flatten(old), ledger.Flatten(now)
	was := map[string]string{}
	for _, kv := range before {
		was[kv.Key] = kv.Value
	}
	is := map[string]bool{}
	altered := map[string]bool{}
	for _, kv := range after {
		is[kv.Key] = true
		if was[kv.Key] != kv.Value {
			altered[plainPath(kv.Key)] = true
		}
	}
	for _, kv := range before {
		if !is[kv.Key] {
			altered[plainPath(kv.Key)] = true
		}
	}
	var out []string
	for _, f := range ledger.Fields() {
		if altered[f.Path] {
			out = append(out, f.Path)
			delete(altered, f.Path)
		}
	}
	rest := make([]string, 0, len(altered))
	for p := range altered {
		rest = append(rest, p)
	}
	slices.Sort(rest)
	return append(out, rest...)
}

// plainPath is a path without the numbers of list entries.
func plainPath(p string) string {
	keys := slices.DeleteFunc(strings.Split(p, "."), func(k string) bool { return strings.Trim(k, "0123456789") == "" })
	return strings.Join(keys, ".")
}

// Describe is the message of an entry: a subject in the trade's words, the
// trailer of each record and work. others are the paths of the files that are
// neither. Records and works are taken in the order of their numbers.
func Describe(changes []RecordChange, works []WorkChange, others []string) string {
	changes = slices.Clone(changes)
	slices.SortFunc(changes, func(a, b RecordChange) int { return strings.Compare(string(a.Number), string(b.Number)) })
	done := make([]Done, len(changes))
	for i, c := range changes {
		done[i] = Done{c.Number, ActOf(c)}
	}
	works = slices.Clone(works)
	slices.SortFunc(works, func(a, b WorkChange) int { return strings.Compare(string(a.Number), string(b.Number)) })
	var b strings.Builder
	b.WriteString(withWorks(done, works, others))
	b.WriteString("\n")
	for i, d := range done {
		if i == 0 {
			b.WriteString("\n")
		}
		if i == maxSheetTrailers {
			break
		}
		fmt.Fprintf(&b, "%s: %s %s\n", SheetKey, d.Number, strings.TrimSpace(d.Word))
	}
	for i, w := range works[:min(len(works), maxSheetTrailers)] {
		if i == 0 && len(done) == 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "%s: %s %s\n", WorkKey, w.Number, WordOfWork(w))
	}
	return b.String()
}

// withWorks is the subject with what was done to works.
func withWorks(done []Done, works []WorkChange, others []string) string {
	if len(works) == 0 {
		return subject(done, others)
	}
	s := string(works[0].Number) + " " + WordOfWork(works[0])
	if n := len(works); n > 1 {
		s = fmt.Sprintf("%d works, %s to %s", n, works[0].Number, works[n-1].Number)
	}
	if len(done) > 0 {
		s = subject(done, nil) + "; " + s
	}
	return s
}

// Done is what an entry did to one record.
type Done struct {
	Number ledger.Number
	Act
}

// Tell is what an entry did, for people alone: the subject and, of several
// records, a line for each (of very many, none). done is in order of number.
func Tell(done []Done, others []string) string {
	var b strings.Builder
	b.WriteString(subject(done, others) + "\n")
	if len(done) < 2 || len(done) > maxSheetTrailers {
		return b.String()
	}
	for i, d := range done {
		if i == 0 {
			b.WriteString("\n")
		}
		b.WriteString(oneSubject(d.Number, d.Act) + "\n")
	}
	return b.String()
}

// subject is one line: of one record what was done to it, of several how many
// were treated how.
func subject(done []Done, others []string) string {
	if len(done) == 1 {
		return oneSubject(done[0].Number, done[0].Act)
	}
	if len(done) == 0 {
		return otherSubject(others)
	}
	var words []string
	counts := map[string]int{}
	for _, a := range done {
		if counts[a.Word] == 0 {
			words = append(words, a.Word)
		}
		counts[a.Word]++
	}
	var parts []string
	for i, w := range words {
		switch {
		case w == "new":
			parts = append(parts, strings.Replace(sheets(counts[w]), " ", " new ", 1))
		case i == 0:
			parts = append(parts, sheets(counts[w])+" "+w)
		default:
			parts = append(parts, fmt.Sprintf("%d %s", counts[w], w))
		}
	}
	s := strings.Join(parts, ", ")
	if len(words) == 1 {
		s += ", " + string(done[0].Number) + " to " + string(done[len(done)-1].Number)
	}
	return s
}

func sheets(n int) string {
	if n == 1 {
		return "1 sheet"
	}
	return fmt.Sprintf("%d sheets", n)
}

func oneSubject(n ledger.Number, a Act) string {
	s := string(n) + " " + a.Word
	switch {
	case a.Detail == "":
		return s
	case a.Word == "determined":
		return string(n) + " det. " + a.Detail
	case a.Word == "confirmed":
		return string(n) + " conf. " + a.Detail
	case a.Word == "doubted":
		return string(n) + " not " + a.Detail
	}
	return s + ": " + a.Detail
}

func otherSubject(others []string) string {
	if len(others) == 0 {
		return "Nothing altered"
	}
	others = slices.Clone(others)
	slices.Sort(others)
	names := others
	if len(names) > 3 {
		return fmt.Sprintf("%d files altered", len(names))
	}
	short := make([]string, len(names))
	for i, o := range names {
		short[i] = path.Base(o)
	}
	return strings.Join(short, ", ") + " altered"
}
