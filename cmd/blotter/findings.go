package main

import (
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
)

// manyOfOneCode is how many findings of one code are shown whole; of more,
// only firstOfMany.
const (
	manyOfOneCode = 20
	firstOfMany   = 5
)

// findingsView shows findings: grouped by sheet on a screen, a line each
// otherwise, with the same words.
type findingsView struct {
	env   *env
	title func(path string) string           // of a group: number and name; may be nil
	line  func(path string, line int) string // the line as written, "" if it may not be shown; may be nil
	whole bool                               // every finding, however many of one code
}

// show prints the findings in their order.
func (v findingsView) show(fs []ledger.Finding) {
	perCode := map[string]int{}
	for _, f := range fs {
		perCode[f.Code]++
	}
	shown := map[string]int{}
	path := "\x00"
	for _, f := range fs {
		if !v.whole && perCode[f.Code] > manyOfOneCode {
			shown[f.Code]++
			if shown[f.Code] == firstOfMany+1 {
				v.env.say("and %s more: blotter check --code %s", thousands(perCode[f.Code]-firstOfMany), f.Code)
			}
			if shown[f.Code] > firstOfMany {
				continue
			}
		}
		if !v.env.Screen {
			v.oneLine(f)
			continue
		}
		if f.Path != path {
			path = f.Path
			v.env.say("%s", v.heading(path))
		}
		v.grouped(f)
	}
}

func (v findingsView) oneLine(f ledger.Finding) {
	v.env.say("%s", f)
	for _, line := range hintLines(f) {
		v.env.say("  hint: %s", line)
	}
}

func hintLines(f ledger.Finding) []string {
	if f.Hint == "" {
		return nil
	}
	return strings.Split(f.Hint, "\n")
}

func (v findingsView) heading(path string) string {
	if v.title != nil {
		if t := v.title(path); t != "" {
			return t
		}
	}
	if n, ok := ledger.NumberOfPath(path); ok {
		return string(n)
	}
	return path
}

// grouped prints one finding under its sheet: severity, line as written, why
// it matters, what to type, the code last.
func (v findingsView) grouped(f ledger.Finding) {
	const indent = "           "
	where := "file"
	if f.Line > 0 {
		where = fmt.Sprintf("line %-3d", f.Line)
	}
	if v.line != nil {
		where += " " + v.line(f.Path, f.Line)
	}
	v.env.say("%s", strings.TrimRight("  "+v.env.severityWord(f.Severity)+"  "+where, " "))
	lines := strings.Split(wrap(sentence(f.Message), v.env.Width-len(indent), ""), "\n")
	lines = append(lines, hintLines(f)...)
	code := "[" + f.Code + "]"
	if last := &lines[len(lines)-1]; columns(*last)+len("   "+code) <= v.env.Width-len(indent) {
		*last += "   " + code
	} else {
		lines = append(lines, code) // a terminal would break it anywhere
	}
	for _, line := range lines {
		v.env.say("%s%s", indent, line)
	}
}

// sentence ends a message with a full stop, unless it ends in a mark already.
func sentence(s string) string {
	if s == "" || strings.ContainsRune(".?:", rune(s[len(s)-1])) {
		return s
	}
	return s + "."
}

// severityWord is error or warning, filled to one width, coloured on a
// terminal that wants colour. The word alone says it.
func (e *env) severityWord(s ledger.Severity) string {
	word := fmt.Sprintf("%-7s", s)
	if s == ledger.Error {
		return e.colour("31", word)
	}
	return e.colour("33", word)
}

// colour sets word in one of the terminal's colours, if it has any and
// NO_COLOR is not set.
func (e *env) colour(code, word string) string {
	if !e.Screen || e.getenv("NO_COLOR") != "" || e.getenv("TERM") == "dumb" {
		return word
	}
	return "\x1b[" + code + "m" + word + "\x1b[0m"
}

// summary is the last line of a check: what was found in how many sheets, how
// many are without a finding, and how many warnings were let stand.
func summary(fs []ledger.Finding, settled, sheets int) string {
	errs, warns := countFindings(fs)
	var bad []string
	for _, f := range fs {
		if f.Severity == ledger.Error {
			bad = append(bad, f.Path)
		}
	}
	withErrors := distinct(bad)
	clean := max(sheets-distinctPaths(fs), 0)
	if errs+warns == 0 {
		return count(sheets, "sheet") + " checked: no errors, no warnings" + letStand(settled) + "."
	}
	s := count(errs, "error")
	if errs > 0 {
		s += " in " + count(withErrors, "sheet")
	}
	return fmt.Sprintf("%s, %s; %s without a finding%s.", s, count(warns, "warning"), count(clean, "sheet"), letStand(settled))
}

// letStand is the end of a summary that tells of settled warnings.
func letStand(n int) string {
	if n == 0 {
		return ""
	}
	return "; " + count(n, "warning") + " let stand (blotter check --settled)"
}

// entriesSummary is the last line after entries were judged.
func entriesSummary(fs []ledger.Finding, entries int) string {
	judged := count(entries, "entry") + " judged"
	errs, warns := countFindings(fs)
	if errs+warns == 0 {
		return judged + ": no errors, no warnings."
	}
	return fmt.Sprintf("%s: %s, %s.", judged, count(errs, "error"), count(warns, "warning"))
}

func distinct(words []string) int {
	slices.Sort(words)
	return len(slices.Compact(words))
}

// countFindings counts errors and warnings.
func countFindings(fs []ledger.Finding) (errs, warns int) {
	for _, f := range fs {
		if f.Severity == ledger.Error {
			errs++
		} else {
			warns++
		}
	}
	return errs, warns
}

// distinctPaths counts the files that findings are about.
func distinctPaths(fs []ledger.Finding) int {
	var all []string
	for _, f := range fs {
		if _, ok := ledger.NumberOfPath(f.Path); ok {
			all = append(all, f.Path)
		}
	}
	return distinct(all)
}
