package main

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/names"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// standing is the opinion that stands on a record, for showing.
type standing struct {
	words string      // the name as written; "" when there is none
	key   string      // for comparison; "" when it could not be read
	shown string      // with authors from names/, or the phrase for none
	steps []knownName // entries of names/ by which the name is another now
	notBy string      // "M. Ostrander, 2 November 2026" who took back the last name, when none stands
	line  string      // "det. Signe Rask, 14 July 2025"; "" when nobody signed
}

// standing works out what stands on a record.
func (d *desk) standing(r *ledger.Record) standing {
	read := reading.Of(r, reading.ConventionsOf(d.museum))
	name, at := read.Current()
	s := standing{words: name.Words, key: name.Key(), shown: d.withAuthors(name.Words)}
	if len(name.Keys) == 1 {
		s.steps = d.renamings(name.Read.Key())
	}
	if len(s.steps) > 0 {
		s.shown = detAs(s.steps[len(s.steps)-1].of, s.shown)
	}
	if s.words == "" {
		s.shown = "not yet named"
		s.notBy = d.takenBack(read)
	}
	switch {
	case at >= 0:
		s.line = d.opinionLine(&read.Opinions[at])
	case s.words != "":
		s.line = "filed so by " + r.FiledUnder.By.Text
	}
	return s
}

// detAs is a name and that of the determination, which names/ has under it.
func detAs(accepted, given string) string { return accepted + " (det. as " + given + ")" }

// renamings are the entries of names/ that lead from a name to the accepted
// one, as book.Names has them.
func (d *desk) renamings(key string) []knownName {
	var steps []knownName
	for n, ok := d.knownNames()[key]; ok && n.of != ""; {
		next, known := d.knownNames()[n.ofKey]
		if !known {
			break // its accepted name is in no file
		}
		if len(steps) == 10 {
			return nil // a ring
		}
		steps, n = append(steps, n), next
	}
	return steps
}

// takenBack is who said last that the plant is not what it was named, and
// when; "" when nobody did.
func (d *desk) takenBack(read *reading.Reading) string {
	for _, i := range slices.Backward(read.Chain.Order) {
		if by := read.Chain.EndedBy[i]; by >= 0 {
			x := read.Opinions[by].Given
			return joinNonEmpty(", ", x.By.Text, d.shownDate(x.Date.Text))
		}
	}
	return ""
}

// opinionLine is who gave an opinion and when: det. Signe Rask, 14 July 2025.
func (d *desk) opinionLine(o *reading.Opinion) string {
	mark := map[opinion.Kind]string{opinion.Det: "det. ", opinion.Conf: "conf. ", opinion.Not: "", opinion.NameChange: "renamed by "}[o.Kind]
	return mark + o.Given.By.Text + ", " + d.shownReading(o.Date)
}

// showNaming shows what stood on a sheet and what stands now.
func (d *desk) showNaming(n ledger.Number, was, now standing, o opinionTyped) {
	d.say("%s", n)
	if was.words == "" {
		d.say("  was  %s", was.shown)
	} else {
		d.say("  was  %s", was.shown)
		d.say("       %s", was.line)
	}
	if o.kind == "not" {
		d.say("  not  %s", d.withAuthors(o.name))
		d.say("       %s, %s", o.by, d.shownDate(o.date))
	}
	d.say("  now  %s", now.shown)
	if now.line != "" {
		d.say("       %s", now.line)
	}
	if o.kind == "conf" {
		d.say("       conf. %s, %s", o.by, d.shownDate(o.date))
	}
}

// titleOf is a sheet's number and the name that stands, for a heading.
func (d *desk) titleOf(n ledger.Number) string {
	_, _, r, err := d.record(n)
	if err != nil {
		return string(n)
	}
	return string(n) + "  " + d.standing(r).shown
}

// knownName is a name of names/ and where it stands.
type knownName struct {
	authors          string
	path             string
	of, ofKey        string // the accepted name, when it is a synonym
	by, date, source string // of the entry
}

// withAuthors is a name with the authors that names/ has for it, if it was
// written without any.
func (d *desk) withAuthors(words string) string {
	if k, ok := d.authorsOf(words); ok {
		return words + " " + k.authors
	}
	return words
}

// authorsOf finds the authors of a name that was written without any.
func (d *desk) authorsOf(words string) (knownName, bool) {
	if words == "" {
		return knownName{}, false
	}
	n, err := names.Read(words)
	if err != nil || n.Authors != "" || n.Genus == "" || len(n.Parents)+len(n.Or) > 0 {
		return knownName{}, false
	}
	if slices.ContainsFunc(n.Qualifiers, func(q names.Qualifier) bool { return !q.Doubt }) {
		return knownName{}, false // sp., agg. and the like take none
	}
	k, ok := d.knownNames()[n.Key()]
	return k, ok && k.authors != ""
}

// knownNames are all names of names/ by their key.
func (d *desk) knownNames() map[string]knownName {
	if d.names != nil {
		return d.names
	}
	d.names = map[string]knownName{}
	for _, path := range d.namePaths() {
		src, err := d.read(path)
		if err != nil || src == nil {
			continue
		}
		family, _ := ledger.DecodeNames(path, src)
		for _, e := range family.Names {
			if n, err := names.Read(e.Name.Text); err == nil {
				// of two entries with one name the accepted one answers
				if old, there := d.names[n.Key()]; !there || old.of != "" && !e.Of.Set() {
					d.names[n.Key()] = knownNameOf(n, &e, path)
				}
			}
		}
	}
	return d.names
}

func knownNameOf(n names.Name, e *ledger.NameEntry, path string) knownName {
	k := knownName{authors: strings.TrimSpace(n.Authors), path: path, of: e.Of.Text, by: e.By.Text, date: e.Date.Text, source: e.Source.Text}
	if of, err := names.Read(k.of); k.of != "" && err == nil {
		k.ofKey = of.Key()
	}
	return k
}
