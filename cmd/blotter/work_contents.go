package main

import (
	"context"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/work"
)

// contents are what a line names.
type contents struct {
	fields    []ledger.KV // of the line
	picked    bool        // the sheets were not named one by one
	specimens []ledger.Number
}

// bundleWords is a counted bundle as an argument: "120 folds".
var bundleWords = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:ca\.? *|about *)?[0-9][0-9 ,']* *(?:folds?|sheets?|specimens?|gatherings?|packets?|boxes|box)$`)
})

// hyphenNumbers is what somebody types for a span of a collector's numbers.
var hyphenNumbers = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(.*) ([0-9]+)[-–]([0-9]+)$`) })

// contents reads what was typed after KIND or WORK: specimen numbers, spans
// and lists, - for a scanner, "Signe Rask 1311..1320", "120 folds"; and
// --where, --gatherings, --others.
func (d *desk) contents(ctx context.Context, words []string) (contents, error) {
	var c contents
	var sheets []string
	gatherings := d.opts.list(flagGatherings.Name)
	count := ""
	for _, w := range words {
		w = strings.TrimSpace(w)
		switch i := strings.LastIndexByte(w, ' '); {
		case bundleWords().MatchString(w):
			if count != "" {
				return c, misuse("%q and %q: one line counts one bundle; give the other its own: blotter add", count, w)
			}
			count = w
		case i >= 0 && strings.ContainsAny(w[i:], "0123456789") && !strings.ContainsRune(w, ','):
			if m := hyphenNumbers().FindStringSubmatch(w); m != nil && len(m[2]) == len(m[3]) && m[2] < m[3] {
				return c, misuse("%q is one number with a hyphen; did you mean \"%s %s..%s\"?", w, m[1], m[2], m[3]).
					try("If the number is written so: --gatherings " + strconv.Quote(w))
			}
			gatherings = append(gatherings, w)
		default:
			sheets = append(sheets, w)
		}
	}
	if len(sheets) > 0 || d.opts.text("where") != "" {
		ns, picked, err := d.sheets(ctx, sheets)
		if err != nil {
			return c, d.namesGathering(err, sheets)
		}
		if len(ns) == 0 {
			return c, misuse("no sheet matches %s", d.opts.text("where"))
		}
		c.specimens, c.picked = ns, picked
		c.fields = append(c.fields, entryWords("sheets", spansOf(ns)...)...)
	}
	c.fields = append(c.fields, entryWords("gatherings", gatherings...)...)
	c.fields = append(c.fields, entryWords("others", d.opts.list(flagOthers.Name)...)...)
	if count != "" {
		c.fields = append(c.fields, ledger.KV{Key: "count", Value: count})
	}
	for _, f := range []*flag{flagHow, flagWhat} {
		if v := d.opts.text(f.Name); v != "" {
			if count == "" {
				return c, misuse("--%s says what a counted bundle is, and there is none: \"120 folds\"", f.Name)
			}
			c.fields = append(c.fields, ledger.KV{Key: f.Name, Value: v})
		}
	}
	return c, nil
}

// namesGathering adds to an error about sheets that a collector with a number
// stands in quotes.
func (d *desk) namesGathering(err error, words []string) error {
	f, ok := err.(*fault)
	if ok && slices.ContainsFunc(words, func(w string) bool {
		return w != "all" && strings.Trim(w, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.") == "" && w != ""
	}) {
		return f.try(`Plants without a specimen number go by collector and number, in quotes: "Signe Rask 1311..1320"`)
	}
	return err
}

// spansOf writes numbers as a work's lines have them: three and more that
// follow each other as one span.
func spansOf(ns []ledger.Number) []string {
	var out []string
	for i := 0; i < len(ns); {
		j := i + 1
		for v, ok := ns[i].Serial(); ok && j < len(ns) && withSerial(ns[i], v+uint64(j-i)) == ns[j]; j++ {
		}
		if j-i >= 3 {
			out = append(out, string(ns[i])+".."+string(ns[j-1]))
		} else {
			for _, n := range ns[i:j] {
				out = append(out, string(n))
			}
		}
		i = j
	}
	return out
}

// thingsOf says how much items are: "22 sheets", "10 gatherings and about 120
// folds"; "" for none.
func thingsOf(items []work.Item) string {
	var sheets, gatherings, others int
	var bundles []string
	for _, it := range items {
		switch {
		case it.Sheet != "":
			sheets += spanLength(string(it.Sheet), string(it.Last))
		case it.Who != "":
			gatherings += spanLength(it.No, it.LastN)
		case it.Other != "":
			others++
		case it.Bundle():
			w := thousands(it.Count) + " " + it.Of
			if it.About {
				w = "about " + w
			}
			bundles = append(bundles, joinNonEmpty(" of ", w, it.What))
		}
	}
	var parts []string
	if sheets > 0 {
		parts = append(parts, count(sheets, "sheet"))
	}
	if gatherings > 0 {
		parts = append(parts, count(gatherings, "gathering"))
	}
	if others > 0 {
		parts = append(parts, count(others, "sheet")+" of others")
	}
	return andJoin(append(parts, bundles...))
}

// spanLength is how many a span holds; 1 for what is no span of figures.
func spanLength(first, last string) int {
	a, okA := ledger.Number(first).Serial()
	b, okB := ledger.Number(last).Serial()
	if last == "" || !okA || !okB || b < a {
		return 1
	}
	return int(b-a) + 1
}

// andJoin is "a, b and c".
func andJoin(parts []string) string {
	if n := len(parts); n > 1 {
		return strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	}
	return strings.Join(parts, "")
}
