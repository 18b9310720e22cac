package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
	"blotter/ledger/work"
)

var (
	flagSplit  = &flag{Name: "split", Help: "OLD was divided among the names behind it: nothing is renamed, its sheets need eyes"}
	flagFamily = &flag{Name: "family", Value: "FAMILY", Help: "the family of a new name, when names/ has no other of its genus"}
)

func renameCommand() *command {
	return &command{
		Name: "rename", Family: famEnter, Synopsis: "OLD NEW...",
		Says: "A name that changed while nobody looked at a plant: one entry in names/, no sheet is touched.",
		Notes: []string{"Each sheet then shows NEW (det. as OLD), and lies under NEW: what is to be moved and which covers are needed is told. " +
			"When somebody looked and names it otherwise, that is an opinion: blotter determine.",
			"With two names and more behind OLD it was divided: its sheets are listed, and stay under OLD until somebody looks; blotter find is:divided finds them again."},
		Examples: []example{
			{`blotter rename "Ranunculus ficaria L." "Ficaria verna Huds." --source "regional flora, 3rd ed."`, "OLD is a synonym of NEW now"},
			{`blotter rename "Polypodium vulgare" "Polypodium vulgare" "Polypodium interjectum Shivas" --source "regional flora, 3rd ed."`, "divided: the old name is one of the two"},
			{`blotter rename "Loiseleuria procumbens" "Kalmia procumbens (L.) Gift" --source "checklist of 2018" --by "Tiril Aune" --date 15.i.2018`, "decided earlier, by somebody else"},
		},
		Args:  []argument{{"OLD", "the name as determinations have it, in quotes"}, {"NEW", "the name that is used now, with authors when it is new to names/"}},
		Flags: joinFlags([]*flag{flagSource, flagBy, flagDate, flagWhy, flagSplit, flagFamily, flagNoCache}, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"determine", "print", "find"},
		Run: runRename,
	}
}

// renaming is one run of rename.
type renaming struct {
	desk   *desk
	before *work.Works
	old    reading.Name
	news   []reading.Name
	split  bool

	source, by, date, why string
}

func runRename(ctx context.Context, c *call) error {
	r, err := c.renaming(ctx)
	if err != nil {
		return err
	}
	if r.by, r.date, err = r.desk.signed("me"); err != nil {
		return err
	}
	if err := r.fits(); err != nil {
		return err
	}
	changes, told, err := r.changes()
	if err != nil {
		return err
	}
	after, err := r.desk.worksOf(ctx, overlayOf(r.desk.source(), changes))
	if err != nil {
		return err
	}
	for _, line := range told {
		c.say("%s", wrap(line, c.Width, "  "))
	}
	if r.split {
		r.sayDivided(after.Book())
	} else if err := r.sayMoves(after); err != nil {
		return err
	}
	done, err := r.desk.enter(ctx, entry{changes: changes, subject: r.subject()})
	if err != nil {
		return err
	}
	r.desk.report(done, "")
	switch {
	case done.id == "":
	case r.split:
		c.next("blotter find is:divided")
	default:
		c.next("blotter print renamings %s --to slips.html", quoteWord(r.old.Key()))
	}
	return nil
}

// renaming reads what was typed.
func (c *call) renaming(ctx context.Context) (*renaming, error) {
	r := &renaming{source: c.opts.text("source"), why: c.opts.text("why")}
	if len(c.args) < 2 {
		return nil, misuse("which name, and what is it now? Both stand in quotes").try(`blotter rename "Ranunculus ficaria L." "Ficaria verna Huds." --source CITATION`)
	}
	for i, words := range c.args {
		n := reading.ReadName(capitalGenus(strings.Join(strings.Fields(words), " ")))
		switch {
		case !n.Readable || n.Read.Tail != "":
			return nil, misuse("%q is not read as a botanical name", words).try("Put each name in quotes, authors too: blotter read name " + quoteWord(words))
		case len(n.Read.Or) > 0 || len(n.Read.Parents) > 0:
			return nil, misuse("%q is more than one name; a formula or a choice has no entry in names/", words)
		case slices.ContainsFunc(n.Read.Qualifiers, func(q qualifier) bool { return q.Doubt }):
			return nil, misuse("%q has a doubt in it; a name that changed has none", words).try("If somebody looked: blotter determine SHEETS " + quoteWord(words) + " --by NAME")
		case i == 0:
			r.old = n
		case slices.ContainsFunc(r.news, func(o reading.Name) bool { return o.Key() == n.Key() }):
			return nil, misuse("%q stands twice", words)
		default:
			r.news = append(r.news, n)
		}
	}
	r.split = c.opts.on("split") || len(r.news) > 1
	switch {
	case r.split && len(r.news) < 2:
		return nil, misuse("among which names was %q divided? Two at least stand behind it", r.old.Words)
	case !r.split && r.old.Key() == r.news[0].Key():
		return nil, misuse("both are the same name, %s; authors alone make no other name here", r.old.Key()).try("Its entry: blotter edit names/FAMILY.yaml")
	case r.source == "":
		return nil, misuse("where was it published? --source is missing").try("A change of name is no opinion on a plant: it needs the flora, checklist or paper that made it.",
			"If somebody looked at the plant: blotter determine SHEETS NAME --by NAME")
	}
	var err error
	if r.desk, err = c.desk(); err != nil {
		return nil, err
	}
	r.before, err = r.desk.works(ctx)
	return r, err
}

// fits refuses a renaming that would cut across what names/ says already.
func (r *renaming) fits() error {
	ns := &r.before.Book().Museum.Names
	typed := func(n reading.Name) string { return quoteWord(n.Words) }
	for _, n := range append([]reading.Name{r.old}, r.news...) {
		if h := ns.Homonyms(n.Key()); len(h) > 1 && !slices.ContainsFunc(h, func(e *book.Name) bool { return e.Given.Name.Text == n.Words }) {
			var all []string
			for _, e := range h {
				all = append(all, e.Given.Name.Text)
			}
			return misuse("names/ has %s; write its authors as one of them has", strings.Join(all, " and "))
		}
	}
	was := ns.Find(r.old.Key())
	if was != nil && was.Given.Of.Set() {
		of := reading.ReadName(was.Given.Of.Text)
		if !r.split && of.Key() == r.news[0].Key() {
			return misuse("%s is a synonym of %s already: %s", was.Given.Name.Text, was.Given.Of.Text, r.decided(was.Given))
		}
		return misuse("%s is a synonym of %s already (%s); nothing is written over that", was.Given.Name.Text, was.Given.Of.Text, r.decided(was.Given)).
			try("If the accepted name changed: blotter rename "+quoteWord(was.Given.Of.Text)+" "+typed(r.news[0])+" --source CITATION", "If that entry is wrong: blotter edit "+was.Path)
	}
	if was != nil && len(was.Given.Split) > 0 {
		return misuse("%s was divided already, among %s: %s", was.Given.Name.Text, leafWords(was.Given.Split, " and "), r.decided(was.Given)).
			try("Its sheets: blotter find is:divided", "If that entry is wrong: blotter edit "+was.Path)
	}
	for _, n := range r.news {
		e := ns.Find(n.Key())
		if e == nil || !e.Given.Of.Set() {
			continue
		}
		if a := ns.Accepted(n.Key()); a != nil && a.Key() == r.old.Key() {
			return misuse("%s is itself a synonym of %s (%s); the two would name each other in a circle", e.Given.Name.Text, a.Given.Name.Text, r.decided(e.Given)).
				try("If that is turned round now, take of: out of its entry first: blotter edit " + e.Path)
		}
		return misuse("%s is itself a synonym of %s (%s)", e.Given.Name.Text, e.Given.Of.Text, r.decided(e.Given)).
			try("blotter rename " + typed(r.old) + " " + quoteWord(e.Given.Of.Text) + " --source CITATION")
	}
	return nil
}

// decided is who decided an entry of names/, when and by which work.
func (r *renaming) decided(e *ledger.NameEntry) string {
	words := joinNonEmpty(", ", e.Source.Text, e.By.Text, r.desk.shownIfAny(e.Date.Text))
	if words == "" {
		return "no source is given"
	}
	return words
}

// subject is what the entry says of itself.
func (r *renaming) subject() string {
	var news []string
	for _, n := range r.news {
		news = append(news, n.Key())
	}
	if r.split {
		return r.old.Key() + " divided: " + strings.Join(news, ", ")
	}
	return r.old.Key() + " is " + news[0] + " now"
}

func quoteWord(words string) string { return `"` + words + `"` }
