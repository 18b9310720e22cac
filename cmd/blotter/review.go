package main

import (
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
		Name: "review", Family: famAsk,
		Says: "Draws records of a person by chance for a second reader, and tells how many of those read were wrong.",
		Notes: []string{"The draw depends on the person, the day and the records alone, so that anyone draws the same again. A record that was read and is right: blotter set SHEETS checked.by=NAME checked.date=DAY --why \"second reader\". " +
			"What is corrected after the person entered it counts as wrong once it is checked.",
			"How many are drawn is a setting (habits.review): all of the first records of a new person, then a share of each hundred."},
		Examples: []example{
			{"blotter review --of 'Tiril Aune'", "as many as the settings ask for"},
			{"blotter review --of 'Tiril Aune' -n 20", "twenty of her records"},
			{"blotter review --of 'Tiril Aune' --json", "the same for a program"},
		},
		Flags: joinFlags([]*flag{flagOf, flagOfMany, flagOn, flagNoCache}, askFlags),
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
}

func runReview(ctx context.Context, c *call) error {
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
	out := &reviewOut{Of: who, Entered: len(mine)}
	var open []string
	for _, m := range mine {
		switch {
		case !m.checked:
			open = append(open, string(m.number))
		case m.corrected:
			out.Wrong++
			fallthrough
		default:
			out.Checked++
		}
	}
	n, asked, err := reviewSize(c.opts.text(flagOfMany.Name), h, out)
	if err != nil {
		return err
	}
	for _, name := range survey.Draw([]string{"review", who, on.String()}, open, n) {
		out.Drawn = append(out.Drawn, ledger.Number(name))
	}
	slices.Sort(out.Drawn)
	confidence, _ := strconv.ParseFloat(h.Confidence.Text, 64)
	if out.Checked > 0 && confidence > 0 {
		if iv, err := (survey.Found{Marked: out.Wrong, Drawn: out.Checked, Size: len(mine)}).Wilson(confidence / 100); err == nil {
			out.Low, out.High, out.Confidence = iv.Low, iv.High, iv.Confidence
		}
	}
	if c.asksJSON() {
		return c.printJSON(out)
	}
	d.showReview(out, h, asked)
	return nil
}

// reviewSize is how many are drawn: as typed, else by the settings.
func reviewSize(typed string, h ledger.Reviewing, out *reviewOut) (n int, asked string, err error) {
	if typed != "" {
		n, err := strconv.Atoi(typed)
		if err != nil || n < 1 {
			return 0, "", misuse("-n %s is no number of records", typed)
		}
		return n, "", nil
	}
	first := atoi(h.First.Text)
	if out.Checked < first {
		return min(first, out.Entered) - out.Checked, "the first " + thousands(first) + " records of a person are all read again", nil
	}
	of := atoi(h.Of100.Text)
	if out.Wrong*100 <= out.Checked*atoi(h.MoreThan.Text) {
		of = atoi(h.LaterOf100.Text)
	}
	want := first + (out.Entered-first)*of/100
	return max(0, want-out.Checked), itoa(of) + " of every hundred after the first " + thousands(first), nil
}

func (d *desk) showReview(out *reviewOut, h ledger.Reviewing, asked string) {
	d.say("%s of %s; %s read a second time.", count(out.Entered, "record"), out.Of, thousands(out.Checked))
	if out.Checked > 0 {
		d.say("%s of them %s corrected: %s", thousands(out.Wrong), plural(out.Wrong, "was", "were"),
			fmt.Sprintf("%.1f %%, with %.0f %% confidence between %.1f and %.1f %% of all.", 100*float64(out.Wrong)/float64(out.Checked), 100*out.Confidence, 100*out.Low, 100*out.High))
		if out.Wrong > atoi(h.MoreThan.Text) {
			d.say("%s", wrap("More than "+h.MoreThan.Text+" wrong ones: read "+h.More.Text+" more (blotter review --of "+quoteWord(out.Of)+" -n "+h.More.Text+"), and perhaps the whole hundred.", d.Width, ""))
		}
	}
	if len(out.Drawn) == 0 {
		d.say("None to read now%s.", prefixedAny(": ", asked))
		return
	}
	d.say("To read now%s:", prefixedAny(", since ", asked))
	var words []string
	for _, n := range out.Drawn {
		words = append(words, d.brief(n))
	}
	d.say("  %s", wrap(strings.Join(words, ", "), d.Width-2, "  "))
	d.next(`blotter set %s checked.by="YOUR NAME" checked.date=%s --why "second reader"`, words[0], d.today())
}

// enteredRecord is one record of a person.
type enteredRecord struct {
	number             ledger.Number
	checked, corrected bool
}

// enteredBy are the records that a person entered first and that are here.
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
	by, corrected := map[string]bool{}, map[string]bool{}
	for _, ch := range changes {
		switch k := ch.Number.Key(); {
		case ch.Kinds.Has(history.New):
			by[k] = by[k] || strings.EqualFold(view.Commit(ch.Place).Author.Name, who)
		case ch.Kinds.Has(history.Corrected) && slices.ContainsFunc(ch.Fields, func(f history.FieldChange) bool { return !strings.HasPrefix(f.Path, "checked") }):
			corrected[k] = true
		}
	}
	var out []enteredRecord
	for e := range b.All() {
		if k := e.Number.Key(); by[k] && e.Fate == "" {
			out = append(out, enteredRecord{e.Number, checked(e), corrected[k]})
		}
	}
	return out
}

// isChecked reports whether a second reader signed a record.
func (d *desk) isChecked(e *book.Entry) bool {
	_, _, r, err := d.record(e.Number)
	return err == nil && r.Checked.By.Set()
}
