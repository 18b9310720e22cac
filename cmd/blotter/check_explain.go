package main

import (
	"slices"
	"strings"

	"blotter/hooks"
	"blotter/ledger/check"
)

// codes are those of files and of entries, in the order of the alphabet.
func codes() []check.Code {
	all := check.Codes()
	for _, r := range hooks.Codes() {
		all = append(all, check.Code{Code: r.Code, Severity: r.Severity, Says: strings.ReplaceAll(r.Meaning, "`", ""),
			Why: "A commit is judged by it, not a file."})
	}
	slices.SortFunc(all, func(a, b check.Code) int { return strings.Compare(a.Code, b.Code) })
	return all
}

// codeOf is what a code means; false when no finding has it.
func codeOf(code string) (check.Code, bool) {
	for _, c := range codes() {
		if c.Code == code {
			return c, true
		}
	}
	return check.Code{}, false
}

// codeJSON is a code for programs; the README lists the names.
type codeJSON struct {
	Code     string `json:"code"`
	Severity string `json:"severity"`
	Says     string `json:"says"`
	Why      string `json:"why,omitempty"`
	Settles  bool   `json:"settles"`
}

// explainCode prints what a code means, or a line for each.
func (c *call) explainCode(code string) error {
	format, err := c.findingsFormat()
	if err != nil {
		return err
	}
	list := codes()
	if code != flagExplain.Bare {
		one, ok := codeOf(code)
		if !ok {
			return unknownCode(code)
		}
		list = []check.Code{one}
	}
	for _, x := range list {
		switch {
		case format != "text":
			if err := c.printJSON(codeJSON{x.Code, x.Severity.String(), x.Says, x.Why, x.Settles}); err != nil {
				return err
			}
		case len(list) > 1:
			c.say("%s", wrap(fill(x.Code, 26)+fill(x.Severity.String(), 9)+x.Says, c.Width, strings.Repeat(" ", 35)))
		default:
			for line := range strings.Lines(x.String()) {
				c.say("%s", wrap(strings.TrimRight(line, "\n"), c.Width, ""))
			}
		}
	}
	return nil
}

// fill is s with blanks up to a width, one at least.
func fill(s string, width int) string { return s + strings.Repeat(" ", max(width-len(s), 1)) }

func unknownCode(code string) error {
	var words []string
	for _, c := range codes() {
		words = append(words, c.Code)
	}
	fault := misuse("no finding has the code %q", code)
	if near := nearest(code, words); near != "" {
		fault = misuse("no finding has the code %q; did you mean %s?", code, near)
	}
	return fault.try("All codes: blotter check --explain")
}
