package exchange

import (
	"slices"

	"blotter/ledger"
)

// opinions maps the columns of names. Those of earlier names come before the
// current one; genus, epithet and authors are joined where no column has the
// name whole.
func (g *guesser) opinions() {
	if g.numbered() {
		for _, c := range slices.Concat(g.by[asName], g.by[asGenus]) {
			g.note(c.Head, "not taken for an opinion, since the numbered columns hold them; if it is a later one, write it below them")
		}
		return
	}
	names := g.by[asName]
	slices.SortStableFunc(names, func(a, b guess) int { return before(a.first, b.first) })
	slices.SortStableFunc(names, func(a, b guess) int { return before(earlier(a), earlier(b)) })
	epithets := g.by[asEpithet]
	if len(g.by[asGenus]) > 0 { // beside genera, a column of species may have the second word alone
		for _, c := range names {
			if !earlier(c) && c.plants*2 < c.Filled {
				epithets = append(epithets, c)
			}
		}
		names = slices.DeleteFunc(names, func(c guess) bool { return !earlier(c) && c.plants*2 < c.Filled })
	}
	for i, c := range names {
		if i > 0 && !earlier(names[i-1]) { // the same name, worked over: kept, but no second opinion
			g.note(c.Head, "not taken for an opinion, since %s is", names[i-1].Head)
			continue
		}
		o := ledger.OpinionMap{Names: leaf(c.Head), From: leaf("list")}
		if s := c.named(); s != "" {
			o.Split = leaf(s)
			g.note(c.Head, "split: in %s cells %q parts names", most(c.names[s], c.Filled), s)
			g.note(c.Head, "the newest is taken to stand last; if it stands first, write newest: first")
		}
		if n := c.apart["\n"]; n > 0 && !o.Split.Set() {
			g.note(c.Head, "in %s cells a line ends within; if each line is a name of its own, write below names: split: \"\\n\"", most(n, c.Filled))
		}
		if !earlier(c) {
			g.signed(&o)
		}
		g.Mapping.Opinions = append(g.Mapping.Opinions, o)
	}
	if !slices.ContainsFunc(names, func(c guess) bool { return !earlier(c) }) {
		g.composed(epithets)
	}
	for _, is := range []string{asBy, asNamed} {
		if len(g.Mapping.Opinions) == 0 && len(g.by[is]) > 0 {
			g.note(g.by[is][0].Head, "there is no column of names that it belongs to")
		}
	}
}

// earlier reports whether a column holds names that were given before.
func earlier(c guess) bool {
	switch fold(c.Head) {
	case "previousidentifications", "earliernames", "earlierdeterminations":
		return true
	}
	return false
}

// composed maps genus, epithet, what lies below the species and authors.
func (g *guesser) composed(epithets []guess) {
	genus := g.by[asGenus]
	if len(genus) == 0 {
		return
	}
	o := ledger.OpinionMap{Names: leaf(genus[0].Head), From: leaf("list")}
	for _, head := range g.parts(epithets) {
		o.And = append(o.And, leaf(head))
		if rank, ok := rankOf(head); ok && rank != "" && rank != rankCells {
			g.note(head, "%s is written before its cells, since the heading says so", rank)
		}
	}
	g.signed(&o)
	g.Mapping.Opinions = append(g.Mapping.Opinions, o)
}

// signed adds the columns of person, date and grounds.
func (g *guesser) signed(o *ledger.OpinionMap) {
	if c := g.by[asBy]; len(c) > 0 {
		o.ByCol = leaf(c[0].Head)
	}
	if c := g.by[asNamed]; len(c) > 0 {
		o.Dated = leaf(c[0].Head)
		if o.Order = leaf(c[0].order()); o.Order.Set() {
			g.note(c[0].Head, "order: %d of the dates in figures can only be read so, none only the other way", c[0].dayFirst+c[0].monFirst)
		}
	}
	if c := g.by[asWhy]; len(c) > 0 {
		o.WhyCol = leaf(c[0].Head)
	}
}
