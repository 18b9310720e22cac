package main

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/history"
	"blotter/ledger/reading"
	"blotter/ledger/survey"
)

var flagOfMany = &flag{Name: "how-many", Short: "n", Value: "N", Help: "how many; otherwise what the museum's settings ask for"}

func reviewCommand() *command {
	return &command{
		Name: "review", Family: famAsk, Synopsis: "[SHEETS]",
		Says: "Draws records of a person by chance for a second reader, and tells how many of those read were wrong.",
		Notes: []string{"The draw depends on the person, the day and the records alone, so that anyone draws the same again. A record that was read and is right: blotter set SHEETS checked.by=NAME checked.date=DAY --why \"second reader\". " +
			"What is corrected after the person entered it counts as wrong once it is checked.",
			"How many are drawn is a setting (habits.review; Georeferencing Best Practices 2020, ch. 6): all of the first 200 records of a person in the order of entry, then whole hundreds until no more than 2 of one are wrong, " +
				"then 10 of every hundred; where more than 2 are wrong 20 more of that hundred, all of which may have to be read again; later 5 of every hundred."},
		Examples: []example{
			{"blotter review --of 'Tiril Aune'", "as many as the settings ask for"},
			{"blotter review --of 'Tiril Aune' -n 20", "twenty of her records"},
			{"blotter review --of 'Tiril Aune' --json", "the same for a program"},
		},
		Args:  []argument{{"SHEETS", "with --practice: which labels; without it none"}},
		Flags: joinFlags([]*flag{flagOf, flagOfMany, flagPractice, flagOn, flagNoCache}, askFlags),
		Kin:   []string{"set", "history", "check"},
		Run:   runReview,
	}
}

// reviewOut is a review for programs.
type reviewOut struct {
	Of         string          `json:"of"`
	Entered    int             `json:"entered"`
	Checked    int             `json:"checked"`
	Wrong      int             `json:"wrong"`
	Low        float64         `json:"low"`
	High       float64         `json:"high"`
	Confidence float64         `json:"confidence"`
	Drawn      []ledger.Number `json:"drawn"`
	Parts      []reviewPart    `json:"parts,omitempty"` // by the settings; none when -n says how many
}

func runReview(ctx context.Context, c *call) error {
	if c.opts.on(flagPractice.Name) {
		d, err := c.desk()
		if err != nil {
			return err
		}
		return d.runPracticeReview(ctx, c.args)
	}
	if len(c.args) > 0 {
		return misuse("%q is too much; whose records are drawn is said by --of", c.args[0])
	}
	who := c.opts.text("of")
	if who == "" {
		return misuse("whose records? --of is missing").try("blotter review --of 'Tiril Aune'")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if who, err = d.whoSays(who); err != nil {
		return err
	}
	on, err := d.onDay()
	if err != nil {
		return err
	}
	mine, err := d.enteredBy(ctx, who)
	if err != nil {
		return err
	}
	if len(mine) == 0 {
		return misuse("%s entered no record that is here now", who)
	}
	h := ledger.WithStandard(d.museum).Review
	out := &reviewOut{Of: who, Entered: len(mine), Wrong: wrongOf(mine)}
	for _, m := range mine {
		if m.checked {
			out.Checked++
		}
	}
	if err := out.choose(c.opts.text(flagOfMany.Name), mine, reviewRuleOf(h), on.String()); err != nil {
		return err
	}
	confidence, _ := strconv.ParseFloat(h.Confidence.Text, 64)
	if out.Checked > 0 && confidence > 0 {
		if iv, err := (survey.Found{Marked: out.Wrong, Drawn: out.Checked, Size: len(mine)}).Wilson(confidence / 100); err == nil {
			out.Low, out.High, out.Confidence = iv.Low, iv.High, iv.Confidence
		}
	}
	if c.asksJSON() {
		return c.printJSON(out)
	}
	d.showReview(out, on.String())
	return nil
}

// choose draws what is to be read on a day: as many of all records as was
// typed, or what the rule has of each part.
func (o *reviewOut) choose(typed string, mine []enteredRecord, rule reviewRule, on string) error {
	if typed == "" {
		o.Parts = rule.plan(mine)
		for _, p := range o.Parts {
			o.Drawn = append(o.Drawn, p.draw(o.Of, on)...)
		}
		return nil
	}
	n, err := strconv.Atoi(typed)
	if err != nil || n < 1 {
		return misuse("-n %s is no number of records", typed)
	}
	whole := reviewPart{records: mine, Wanted: n}
	o.Drawn = whole.draw(o.Of, on)
	return nil
}

func (d *desk) showReview(out *reviewOut, on string) {
	d.say("%s of %s; %s read a second time.", count(out.Entered, "record"), out.Of, thousands(out.Checked))
	if out.Checked > 0 {
		d.say("%s of them %s corrected: %s", thousands(out.Wrong), plural(out.Wrong, "was", "were"),
			fmt.Sprintf("%.1f %%, with %.0f %% confidence between %.1f and %.1f %% of all.", 100*float64(out.Wrong)/float64(out.Checked), 100*out.Confidence, 100*out.Low, 100*out.High))
	}
	for _, p := range out.Parts {
		if p.Redo {
			d.say("%s", wrap(fmt.Sprintf("Records %s to %s of %s, by the order of entry: %s of %s read were wrong. All of them may have to be read again.",
				thousands(p.First), thousands(p.Last), out.Of, thousands(p.Wrong), thousands(p.Checked)), d.Width, ""))
		}
	}
	switch {
	case len(out.Drawn) == 0 && len(out.Parts) > 0:
		d.say("None to read now: %s.", out.Parts[len(out.Parts)-1].Why)
		return
	case len(out.Drawn) == 0:
		d.say("None to read now.")
		return
	case len(out.Parts) == 0:
		d.say("To read now:")
		d.sayNumbers(out.Drawn)
	}
	for _, p := range out.Parts {
		if drawn := p.draw(out.Of, on); len(drawn) > 0 {
			d.say("%s", wrap("To read now, since "+p.Why+":", d.Width, ""))
			d.sayNumbers(drawn)
		}
	}
	d.next(`blotter set %s checked.by="YOUR NAME" checked.date=%s --why "second reader"`, d.brief(out.Drawn[0]), d.today())
}

func (d *desk) sayNumbers(numbers []ledger.Number) {
	var words []string
	for _, n := range numbers {
		words = append(words, d.brief(n))
	}
	d.say("  %s", wrap(strings.Join(words, ", "), d.Width-2, "  "))
}

// enteredRecord is one record of a person.
type enteredRecord struct {
	number             ledger.Number
	checked, corrected bool
	place              int // of the entry that brought it, in the history
}

// enteredBy are the records that a person entered first and that are here, in
// the order in which they were entered.
func (d *desk) enteredBy(ctx context.Context, who string) ([]enteredRecord, error) {
	tip, err := d.head(ctx)
	if err != nil {
		return nil, err
	}
	if tip == "" {
		return nil, misuse("nothing has been entered yet")
	}
	view, err := d.repo.History(ctx, d.cache(), tip)
	if err != nil {
		return nil, stuck("%v", err)
	}
	places := make([]int, view.Len())
	for p := range places {
		places[p] = p
	}
	changes, err := view.Changes(ctx, places, reading.ConventionsOf(d.museum), d.readVersion)
	if err != nil {
		return nil, stuck("%v", err)
	}
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	return gatherEntered(view, changes, w.Book(), who, d.isChecked), nil
}

func gatherEntered(view *history.View, changes []history.Change, b *book.Book, who string, checked func(*book.Entry) bool) []enteredRecord {
	by, corrected := map[string]int{}, map[string]bool{}
	for _, ch := range changes {
		switch k := ch.Number.Key(); {
		case ch.Kinds.Has(history.New):
			if _, had := by[k]; !had && strings.EqualFold(view.Commit(ch.Place).Author.Name, who) {
				by[k] = ch.Place
			}
		case ch.Kinds.Has(history.Corrected) && slices.ContainsFunc(ch.Fields, func(f history.FieldChange) bool { return !strings.HasPrefix(f.Path, "checked") }):
			corrected[k] = true
		}
	}
	var out []enteredRecord
	for e := range b.All() {
		k := e.Number.Key()
		if place, is := by[k]; is && e.Fate == "" {
			out = append(out, enteredRecord{e.Number, checked(e), corrected[k], place})
		}
	}
	slices.SortStableFunc(out, func(a, b enteredRecord) int {
		return cmp.Or(cmp.Compare(a.place, b.place), cmp.Compare(a.number, b.number))
	})
	return out
}

// isChecked reports whether a second reader signed a record.
func (d *desk) isChecked(e *book.Entry) bool {
	_, _, r, err := d.record(e.Number)
	return err == nil && r.Checked.By.Set()
}
