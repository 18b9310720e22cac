package main

import (
	"context"
	"strconv"
	"strings"

	"blotter/ledger/waypoints"
	"blotter/ledger/work"
	"blotter/render/field"
	"blotter/render/paper"
)

var (
	flagNumbers = &flag{Name: "numbers", Value: "A..B", Help: "the collector's numbers to be printed ahead: 1311..1330 or SR-1311..SR-1330; otherwise those after the last in the ledger"}
	flagEach    = &flag{Name: "each", Value: "N", Help: "how many gatherings on a page; otherwise as many as have room"}
)

// How many gatherings a field book and tags are for when nobody says, with
// numbers printed ahead and without.
const fieldGatherings, fieldBlanks = 20, 2

// mostGatherings is the most numbers printed in one run.
const mostGatherings = 2000

// fieldPrint is the pages of a field book, and the same questions as text.
func fieldPrint() printKind {
	return printKind{
		Name: "field", Takes: "GATHERINGS", Says: "pages of a field book, for a pencil; --to FILE.txt: the same questions as text, for blotter new --from",
		Flags: []*flag{flagFor, flagNumbers, flagEach},
		Pages: func(ctx context.Context, d *desk, words []string) (*paper.Paper, error) {
			s, err := d.fieldSheet(ctx, "field", words, true)
			if err != nil {
				return nil, err
			}
			size, err := d.paperSize()
			if err != nil {
				return nil, err
			}
			each, err := d.number(flagEach, 0)
			if err != nil {
				return nil, err
			}
			p, err := s.Pages(size, each)
			if err != nil {
				return nil, stuck("%v", err).try("Larger paper: --paper A4")
			}
			return p, nil
		},
		Text: func(ctx context.Context, d *desk, words []string) ([]byte, error) {
			s, err := d.fieldSheet(ctx, "field", words, true)
			if err != nil {
				return nil, err
			}
			return s.Text(), nil
		},
	}
}

// fieldSheet is what is printed ahead on the papers of a way into the field.
// fresh refuses numbers that are in the ledger already.
func (d *desk) fieldSheet(ctx context.Context, kind string, words []string, fresh bool) (field.Sheet, error) {
	s := field.Sheet{Museum: d.museum.Name.Text, Collector: d.opts.text("for")}
	for _, l := range d.museum.PlaceLevels {
		s.Levels = append(s.Levels, l.Text)
	}
	many, err := fieldCount(kind, words)
	if err != nil {
		return s, err
	}
	works, err := d.works(ctx)
	if err != nil {
		return s, err
	}
	s.OneIn = int(figureOf(works.Habits.Collecting.OneIn))
	s.Language = field.LanguageOf(works.Habits.Labels.Language.Text)
	typed := d.opts.text("numbers")
	switch {
	case typed != "":
		if s.Numbers, err = numberSpan(typed); err != nil {
			return s, err
		}
		if len(words) > 0 && many != len(s.Numbers) {
			return s, misuse("--numbers %s are %s, not %d", typed, count(len(s.Numbers), "gathering"), many)
		}
		if fresh {
			err = d.mustBeFresh(works, s)
		}
		return s, err
	case s.Collector != "":
		s.Numbers = d.nextNumbers(works, s.Collector, many)
		return s, nil
	}
	if len(words) == 0 {
		many = fieldBlanks
	}
	s.Numbers = make([]string, many)
	return s, nil
}

// fieldCount reads how many gatherings there are to be.
func fieldCount(kind string, words []string) (int, error) {
	if len(words) == 0 {
		return fieldGatherings, nil
	}
	n, err := strconv.Atoi(words[0])
	if len(words) > 1 || err != nil || n < 1 || n > mostGatherings {
		return 0, misuse("%q is no count of gatherings from 1 to %s", strings.Join(words, " "), thousands(mostGatherings)).
			try("blotter print "+kind+` 20 --for "Signe Rask" --to `+kind+".pdf", "Certain numbers: --numbers 1311..1330")
	}
	return n, nil
}

// nextNumbers are the collector's next ones, after the last in the ledger.
func (d *desk) nextNumbers(works *work.Works, who string, many int) []string {
	s := work.Series{}
	said := "Neither a record nor a work has a number of " + who + "; they begin at 1."
	if all := works.SeriesOf(who); len(all) > 0 {
		s = all[0]
		said = "The last number of " + who + " in the ledger is " + s.After(0) + prefixedAny(", of ", dayOrNone(s.Day)) + "."
	}
	d.tell("%s", wrap(said+" Look into the field book first: what is not entered yet is not counted. Others: --numbers A..B", d.Width, ""))
	out := make([]string, many)
	for i := range out {
		out[i] = s.After(i + 1)
	}
	return out
}

// numberSpan reads a run of collector's numbers.
func numberSpan(typed string) ([]string, error) {
	first, last, span := strings.Cut(strings.ReplaceAll(typed, " ", ""), "..")
	if !span {
		last = first
	}
	stem := strings.TrimRight(first, "0123456789")
	lastStem := strings.TrimRight(last, "0123456789")
	from, errA := strconv.Atoi(first[len(stem):])
	to, errB := strconv.Atoi(last[len(lastStem):])
	if errA != nil || errB != nil || lastStem != "" && lastStem != stem || from < 1 || to > 999_999_999 {
		return nil, misuse("--numbers %s is no run of a collector's numbers", typed).try("For example: --numbers 1311..1330 or --numbers SR-1311..SR-1330")
	}
	if to < from || to-from >= mostGatherings {
		return nil, misuse("--numbers %s: from 1 to %s numbers, the lowest first", typed, thousands(mostGatherings))
	}
	s := work.Series{Stem: stem, Last: from - 1, Digits: len(first) - len(stem)}
	out := make([]string, to-from+1)
	for i := range out {
		out[i] = s.After(i + 1)
	}
	return out, nil
}

// mustBeFresh refuses numbers that the collector has given already.
func (d *desk) mustBeFresh(works *work.Works, s field.Sheet) error {
	if s.Collector == "" || d.opts.on("yes") {
		return nil
	}
	wanted := map[string]bool{}
	for _, no := range s.Numbers {
		wanted[waypoints.Number(no)] = true
	}
	known := gatheredAs(works, func(who, no string) bool { return wanted[no] && works.SamePerson(who, s.Collector) })
	if len(known) == 0 {
		return nil
	}
	e := known[0]
	f := stuck("%s %s is in the ledger already: %s%s", s.Collector, e.CollNo, e.Number, prefixedAny(", ", dayOrNone(e.Last)))
	if all := works.SeriesOf(s.Collector); len(all) > 0 {
		f.try("Free: --numbers " + all[0].After(1) + ".." + all[0].After(len(s.Numbers)))
	}
	return f.try("All the same: add --yes")
}
