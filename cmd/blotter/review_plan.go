package main

import (
	"slices"

	"blotter/ledger"
	"blotter/ledger/survey"
)

// reviewRule is how much of a person's records is read a second time:
// Georeferencing Best Practices 2020, chapter 6, for georeferences made by
// hand, taken here for records typed by hand. First all of the first 200, then
// whole hundreds until the supervisor is content, then 10 of every hundred,
// with more than 2 wrong ones 20 more of that hundred, which may be done anew
// as a whole; later 5 of every hundred. When one is content, and when later
// begins, the source leaves to the supervisor; here content is a hundred read
// whole with no more wrong ones than are borne, and later is after laterAfter
// hundreds of that kind in a row (ours; no source).
type reviewRule struct {
	first, of100, moreThan, more, laterOf100, laterAfter int
}

func reviewRuleOf(h ledger.Reviewing) reviewRule {
	return reviewRule{first: atoi(h.First.Text), of100: atoi(h.Of100.Text), moreThan: atoi(h.MoreThan.Text), more: atoi(h.More.Text),
		laterOf100: atoi(h.LaterOf100.Text), laterAfter: atoi(h.LaterAfter.Text)}
}

// reviewPart is a stretch of a person's records in the order in which they
// were entered, and how many of it are to be read.
type reviewPart struct {
	First   int    `json:"first"` // the place of its first record, from 1
	Last    int    `json:"last"`
	Wanted  int    `json:"wanted"` // read in all
	Checked int    `json:"checked"`
	Wrong   int    `json:"wrong"`
	Redo    bool   `json:"redo"` // so many wrong ones that all of it may be done anew
	Why     string `json:"why"`

	records []enteredRecord
}

// plan parts the records, in order of entry, and says of each part how many
// are to be read. It ends with a part that is read whole and is not read yet:
// what comes after depends on what is found there.
func (r reviewRule) plan(mine []enteredRecord) []reviewPart {
	var parts []reviewPart
	take := func(from, to int) *reviewPart {
		p := reviewPart{First: from + 1, Last: to, records: mine[from:to]}
		for _, m := range p.records {
			if m.checked {
				p.Checked++
				if m.corrected {
					p.Wrong++
				}
			}
		}
		parts = append(parts, p)
		return &parts[len(parts)-1]
	}
	end := min(r.first, len(mine))
	content := true
	if end > 0 {
		p := take(0, end)
		p.Wanted, p.Why = end, "the first "+thousands(r.first)+" records of a person are all read again"
		if p.Checked < end {
			return parts
		}
		content = wrongOf(p.records[max(0, end-100):]) <= r.moreThan
	}
	sound := 0
	for from := end; from < len(mine); from += 100 {
		p := take(from, min(from+100, len(mine)))
		n := len(p.records)
		if !content {
			p.Wanted, p.Why = n, "of the hundred before more than "+itoa(r.moreThan)+" were wrong, so that this one is read whole"
			if p.Checked < n {
				return parts
			}
			content = p.Wrong <= r.moreThan
			continue
		}
		sound = r.sample(p, sound)
	}
	return parts
}

// sample says how many of a hundred are read when the work is known to be good.
func (r reviewRule) sample(p *reviewPart, sound int) int {
	of, n := r.of100, len(p.records)
	if sound >= r.laterAfter {
		of = r.laterOf100
	}
	p.Wanted, p.Why = n*of/100, itoa(of)+" of every hundred after that"
	switch {
	case p.Wrong > r.moreThan:
		p.Wanted = min(n, p.Wanted+r.more)
		p.Why = "more than " + itoa(r.moreThan) + " of those read were wrong, so that " + itoa(r.more) + " more are"
		p.Redo = true
		return 0
	case p.Checked >= p.Wanted && n == 100:
		return sound + 1
	}
	return sound
}

func wrongOf(records []enteredRecord) (n int) {
	for _, m := range records {
		if m.checked && m.corrected {
			n++
		}
	}
	return n
}

// draw is which of a part are to be read now, by chance, by number.
func (p reviewPart) draw(words ...string) []ledger.Number {
	var open []string
	for _, m := range p.records {
		if !m.checked {
			open = append(open, string(m.number))
		}
	}
	var out []ledger.Number
	for _, name := range survey.Draw(append([]string{"review"}, words...), open, p.Wanted-p.Checked) {
		out = append(out, ledger.Number(name))
	}
	slices.Sort(out)
	return out
}
