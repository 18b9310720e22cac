package check

import (
	"fmt"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

const opinionMistake = opinion.Mistake

var opinionRules = []Rule{
	{Code: "det-hollow", Severity: ledger.Warning,
		Says: "A conf agrees with an opinion that is there, and a not speaks of a name.",
		Why:  "Whoever agrees, agrees with something. Without it nobody can say what was confirmed: the earlier slip was perhaps never typed.",
		One:  detHollow},
	{Code: "det-source", Severity: ledger.Warning,
		Says: "A name-change names its source.",
		Why:  "Nobody looked at the plant, so the publication is all the grounds there are. A change for every sheet of a name is one entry in names/: blotter rename OLD NEW --source TEXT.",
		One:  detSource},
	{Code: "det-why", Severity: ledger.Warning,
		Says: "Whoever names a specimen otherwise than it was named says why, or by which work; asked of opinions from new_from on that were not copied (from).",
		Why:  "Two specialists may disagree, and without a reason the next one has to begin again. Old slips seldom say, so nothing is asked of them, nor of what was copied from a slip, a label or a list (from): the ledger can give no reason that is not written there.",
		By:   detWhy},
	{Code: "undetermined", Severity: ledger.Warning,
		Says:  "No full record waits for a name longer than undetermined_years (checks in blotter.yaml).",
		Why:   "What lies unnamed is not found by anybody. Lay it out for the next visitor who knows the group.",
		Asked: func(a *Around) bool { return a.Today != 0 },
		Join:  undetermined},
	{Code: "filed-same", Severity: ledger.Warning,
		Says: "filed_under stands only where the sheet is filed otherwise than its current determination says.",
		Why:  "A filing that says the same hides the next determination, because it goes before it.",
		One:  filedSame},
}

func detHollow(d *reading.Reading, say say) {
	for i := range d.Opinions {
		o := &d.Opinions[i]
		if o.State == opinion.Mistake || o.Kind != opinion.Conf || d.Chain.Links[i] >= 0 {
			continue
		}
		say(at(o.Given.Kind, nth("determinations", i, "kind")), words{
			"agrees with a name that nobody has given before it, so it counts as a determination of its own",
			lines("If there is an earlier slip, put it in before this one; if not: "+set(numberOf(d), nth("determinations", i, "kind"), "det"), accept(numberOf(d), "det-hollow"))})
	}
}

func detSource(d *reading.Reading, say say) {
	for i := range d.Opinions {
		o := &d.Opinions[i]
		if o.Kind == opinion.NameChange && !o.Given.Source.Set() && o.State != opinion.Mistake {
			say(place{line: int(o.Given.Line), col: 1, field: nth("determinations", i, "source")}, words{
				"a name changed without anybody looking, and no source says by what",
				set(numberOf(d), nth("determinations", i, "source"), "AUTHOR (YEAR) TITLE, PAGE")})
		}
	}
}

func filedSame(d *reading.Reading, say say) {
	f := d.Record.FiledUnder
	if !f.Name.Set() || d.Chain.Current < 0 || d.Chain.Disputed {
		return
	}
	if len(d.Opinions) > 0 && d.Chain.Current == newest(d) {
		say(at(f.Name, "filed_under.name"), words{"says what the current determination says already; left here it would hide the next one",
			"Take the lines of filed_under away. " + accept(numberOf(d), "filed-same")})
	}
}

// newest is the entry that would be current without filed_under.
func newest(d *reading.Reading) int { return reading.WithoutFiling(d).Current }

func detWhy(d *reading.Reading, s *Settings, say say) {
	for k, i := range d.Chain.Order {
		o := &d.Opinions[i]
		if o.State == opinion.Mistake || o.Kind != opinion.Det || !o.Date.Known || o.Date.First < s.newDay() ||
			o.Given.Why.Set() || o.Given.Source.Set() || o.Given.Part.Set() || o.Given.From.Set() {
			continue
		}
		for _, before := range d.Chain.Order[:k] {
			b := &d.Opinions[before]
			if b.State == opinion.Mistake || b.Kind != opinion.Det || b.Name.Key() == "" || b.Name.Key() == o.Name.Key() {
				continue
			}
			say(place{line: int(o.Given.Line), col: 1, field: nth("determinations", i, "why")}, words{
				"names it otherwise than before, and neither a reason nor a work is given",
				lines("In the words of who named it: "+set(numberOf(d), nth("determinations", i, "why"), "REASON"), accept(numberOf(d), "det-why"))})
			break
		}
	}
}

func undetermined(e *book.Entry, a *Around, say say) {
	if e.NameKey != "" || e.Stage != ledger.Full || e.Fate != "" || !e.Dated || e.Name != "" && !reading.ReadName(e.Name).Unnamed {
		return
	}
	if years := a.Settings.UndeterminedYears; e.Last+dates.Day(years*365.25) < a.Today {
		say(place{line: int(e.Lines.Specimen), field: "determinations"}, words{
			fmt.Sprintf("was collected more than %s years ago and has no name", figure(years)),
			lines("blotter determine "+short(e.Number)+" NAME --by PERSON", accept(short(e.Number), "undetermined"))})
	}
}
