package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/render/label"
)

func determineCommand() *command {
	return &command{
		Name: "determine", Alias: "det", Family: famEnter, Synopsis: "SHEETS [NAME]",
		Says: "Adds an opinion on what a plant is; earlier opinions stay.",
		Notes: []string{"NAME: someone looked and names it so. --conf: looked and agrees. NAME --not: looked and it is not that. " +
			"A qualifier stands in the name, before the part in doubt. A name that changed by the rules while nobody looked is no determination. " +
			"determine 482 alone asks for everything.",
			"--seen duplicate --partner FJ3 is what a partner says of the duplicate there: it is kept and shown, and does not become the name by itself; --conf of somebody who saw the sheet makes it so."},
		Examples: []example{
			{`blotter determine 482 "Ranunculus acris cf. subsp. pumilus" --by "M. Ostrander" --date 2.xi.2026 --why "Beak and receptacle hairs"`, "a new name for one sheet"},
			{`blotter determine 480..489 --conf --by me --date today`, "somebody looked and agrees"},
			{`blotter determine --from ostrander.csv --by "M. Ostrander" --date 2.xi.2026`, "a specialist's day: one row a sheet, the name on the cover compared"},
		},
		Args: []argument{{"SHEETS", "482, 480..489, 482,485, all or -"}, {"NAME", "in quotes; authors may be left out where names/ knows them"}},
		Flags: joinFlags([]*flag{flagBy, flagDate, flagWhy, flagConf, flagNot, flagPart, flagSeen, flagPartner, flagSlip, flagSource, flagFrom, flagTo, flagStrict},
			sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"history", "typestatus", "note", "set"}, Complete: "sheets",
		Run: runDetermine,
	}
}

// opinionTyped is one opinion as typed, for one or more sheets.
type opinionTyped struct {
	name, kind, by, date, why, part, seen, from, source, at string
}

func runDetermine(ctx context.Context, c *call) error {
	if c.opts.text("from") != "" {
		return runDetermineList(ctx, c)
	}
	words, o, err := opinionArguments(c)
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	ns, picked, err := d.sheets(ctx, words)
	if err != nil {
		return err
	}
	if o.by == "" && o.name == "" && o.kind == "" && c.Asks {
		return d.determineAsking(ctx, ns, o)
	}
	if err := o.complete(c, words); err != nil {
		return err
	}
	if o.by, o.date, err = d.signed(""); err != nil {
		return err
	}
	return d.determine(ctx, ns, o, picked, nil)
}

// opinionArguments reads what was typed.
func opinionArguments(c *call) (words []string, o opinionTyped, err error) {
	o = opinionTyped{by: c.opts.text("by"), date: c.opts.text("date"), why: c.opts.text("why"), part: c.opts.text("part"),
		seen: c.opts.text("seen"), from: c.opts.text("slip"), source: c.opts.text("source"), at: c.opts.text("partner")}
	switch {
	case c.opts.on("conf") && c.opts.on("not"):
		return nil, o, misuse("--conf agrees and --not does not; only one of them can stand")
	case c.opts.on("conf"):
		o.kind = "conf"
	case c.opts.on("not"):
		o.kind = "not"
	}
	for _, p := range []struct {
		flag, value string
		allowed     []string
	}{{"seen", o.seen, []string{"sheet", "picture", "duplicate", "dna"}}, {"slip", o.from, []string{"slip", "label", "list", "letter", "publication"}}} {
		if p.value != "" && !contains(p.allowed, p.value) {
			return nil, o, misuse("--%s %s is not known; it is one of %s", p.flag, p.value, strings.Join(p.allowed, ", "))
		}
	}
	words = c.args
	limit := 1
	if c.opts.text("where") != "" {
		limit = 0
	}
	if len(words) > limit+1 {
		return nil, o, misuse("one list of sheets and one name; %q is too much", words[limit+1]).try("Put the name in quotes:", "blotter determine "+quotedName(words, limit))
	}
	if len(words) == limit+1 {
		o.name, words = strings.Join(strings.Fields(words[limit]), " "), words[:limit]
	}
	return words, o, nil
}

// complete refuses an opinion that lacks what every opinion has.
func (o opinionTyped) complete(c *call, words []string) error {
	sheets := strings.Join(words, " ")
	if sheets == "" {
		sheets = "SHEETS"
	}
	if o.name == "" && o.kind != "conf" {
		return misuse("which name? It stands after the sheets, in quotes").
			try("blotter determine "+sheets+` "Ranunculus acris L." --by NAME`, "or only  blotter determine "+sheets+"  and answer the questions.")
	}
	if o.by != "" {
		return nil
	}
	typed := o.name
	if typed == "" {
		typed = "--conf"
	} else {
		typed = `"` + typed + `"`
	}
	return misuse("who says so? --by is missing.").try(
		"If the name holds & or brackets, put it in quotes; without them the shell cuts the line there:",
		"blotter determine "+sheets+" "+typed+" --by NAME",
		"or only  blotter determine "+sheets+"  and answer the questions.")
}

// determine shows the opinion beside what stood, asks where the sheets were
// not named one by one, and enters it. ask, when given, is put in any case.
func (d *desk) determine(ctx context.Context, ns []ledger.Number, o opinionTyped, picked bool, ask func() (bool, error)) error {
	before := map[ledger.Number]standing{}
	anew, slips := 0, 0
	changes, err := d.editSheets(ns, func(r *ledger.Record) ([]ledger.Op, error) {
		was := d.standing(r)
		before[d.numberOf(r)] = was
		op, err := d.opinionOp(r, o, was)
		return []ledger.Op{op}, err
	})
	if err != nil {
		return err
	}
	for i, ch := range changes {
		n, _ := ledger.NumberOfPath(ch.path)
		after := decoded(ch.path, ch.new)
		now := d.standing(after)
		slips += d.slipsOf(after, label.SlipOptions{Printed: decoded(ch.path, ch.old)})
		if now.key != before[n].key {
			anew++
		}
		if i < manySheets {
			d.showNaming(n, before[n], now, o)
		}
	}
	if len(changes) > manySheets {
		d.say("and %s more", count(len(changes)-manySheets, "sheet"))
	}
	ok := true
	if ask != nil {
		ok, err = ask()
	} else {
		ok, err = d.consentIfPicked(ctx, picked, "Enter this opinion for "+count(len(ns), "sheet")+"?")
	}
	if !ok {
		return err
	}
	r, err := d.enter(ctx, entry{changes: changes})
	if err != nil {
		return err
	}
	d.reportNaming(r, len(ns), anew, slips)
	if len(ns) == 1 && r.id != "" {
		d.next("blotter history %s", d.brief(ns[0]))
	}
	return nil
}

// reportNaming ends a run of determine with what is left to do by hand.
func (d *desk) reportNaming(r entered, sheets, anew, slips int) {
	if r.id == "" {
		d.report(r, "")
		return
	}
	print := count(slips, "slip") + " to print"
	switch {
	case slips == 0:
		print = "No slip to print"
	case slips == 1:
		print = "One slip to print"
	}
	move := ""
	switch {
	case anew == 1 && sheets == 1:
		move = "; the sheet moves one folder on"
	case anew == 1:
		move = "; one sheet moves to another folder"
	case anew > 1:
		move = "; " + count(anew, "sheet") + " move to other folders"
	}
	d.say("Entered, revision %s. %s%s.", r.short(), print, move)
	d.warnOfHooks()
}

// opinionOp is the edit that adds an opinion. A slip that is certainly older
// than what the record has goes to the place of its date.
func (d *desk) opinionOp(r *ledger.Record, o opinionTyped, was standing) (ledger.Op, error) {
	if o.name == "" {
		if was.words == "" {
			return ledger.Op{}, misuse("%s has no name yet, so there is none to agree with", d.numberOf(r)).
				try("blotter determine " + string(d.numberOf(r)) + ` NAME --by PERSON`)
		}
		o.name = was.words
	}
	o.name = capitalGenus(o.name)
	for _, x := range r.Determinations {
		if x.Name.Text == o.name && x.By.Text == o.by && x.Date.Text == o.date && kindWord(x.Kind.Text) == kindWord(o.kind) && x.Part.Text == o.part {
			return ledger.Op{}, misuse("%s has this opinion already: %s, %s, %s", d.numberOf(r), o.name, o.by, d.shownDate(o.date))
		}
	}
	return ledger.Insert("determinations", d.placeOf(r, o.date),
		ledger.KV{Key: "name", Value: o.name}, ledger.KV{Key: "kind", Value: kindWord(o.kind)}, ledger.KV{Key: "by", Value: o.by},
		ledger.KV{Key: "at", Value: o.at}, ledger.KV{Key: "date", Value: o.date}, ledger.KV{Key: "from", Value: o.from},
		ledger.KV{Key: "seen", Value: o.seen}, ledger.KV{Key: "part", Value: o.part}, ledger.KV{Key: "source", Value: o.source},
		ledger.KV{Key: "why", Value: o.why}), nil
}

func kindWord(kind string) string {
	if kind == "" {
		return "det"
	}
	return kind
}

// placeOf is where an opinion of that date goes: 0, the end, unless the
// opinions there are certainly later.
func (d *desk) placeOf(r *ledger.Record, date string) int {
	order := dates.OrderOf(d.museum.Dates.Order.Text)
	mine := dates.Read(date, order)
	if !mine.Known() {
		return 0
	}
	at := len(r.Determinations)
	for at > 0 {
		theirs := dates.Read(r.Determinations[at-1].Date.Text, order)
		if !theirs.Known() || theirs.OpenStart || theirs.First <= mine.Last {
			break
		}
		at--
	}
	if at == len(r.Determinations) {
		return 0
	}
	return at + 1
}

// capitalGenus is a name as typed with its first letter a capital.
func capitalGenus(name string) string {
	runes := []rune(name)
	i := slices.IndexFunc(runes, func(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' })
	if i == 0 && runes[0] >= 'a' {
		runes[0] -= 'a' - 'A'
	}
	return string(runes)
}

func (d *desk) numberOf(r *ledger.Record) ledger.Number {
	if n, ok := ledger.NumberOfPath(r.Path); ok {
		return n
	}
	return ledger.Number(r.Specimen.Text)
}

// quotedName is what was typed without quotes as it is typed with them.
func quotedName(words []string, limit int) string {
	return strings.Join(append(slices.Clone(words[:limit]), `"`+strings.Join(words[limit:], " ")+`"`), " ")
}
