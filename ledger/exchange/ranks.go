package exchange

import (
	"slices"
	"strings"
)

// rankCells is a column that says of which rank the next epithet is, rather
// than an epithet of one rank.
const rankCells = "rank"

// aboveRanks stands for a rank that is not written in a name.
const aboveRanks = "species"

// rankHeads are headings of columns that hold an epithet below the species, by
// the rank as it is written in a name (International Code of Nomenclature for
// algae, fungi, and plants, Art. 4 and Rec. 5A.1 for the abbreviations, from
// memory): common practice, no source.
var rankHeads = merge(map[string]string{
	"subsp.":  "subsp ssp subspecies subspeciesname subspepithet unterart sousespece subespecie sottospecie ondersoort underart",
	"var.":    "var variety varietas varietyname varepithet varietat variete varieta varieteit variedad variedade varietet varieteten",
	"subvar.": "subvar subvariety subvarietas",
	"f.":      "forma form formname formae",
	rankCells: "taxonrank infraspecificrank infrarank infrasprank infraspecificrankterm verbatimtaxonrank rangstufe rang rango rank",
	"":        "infraspecificepithet infraspecificname infraspepithet infraepithet infrasp infraspecific infraspecifictaxon infraspecifik",
})

// rankOf says whether a column of this heading holds a rank or an epithet
// below the species, and of which rank; "" for one whose rank another column
// says.
func rankOf(head string) (rank string, ok bool) {
	if i := strings.LastIndexAny(head, "/#:"); i >= 0 && (strings.Contains(head, "://") || strings.HasPrefix(head, "dwc:")) {
		head = head[i+1:]
	}
	rank, ok = rankHeads[fold(head)]
	return rank, ok
}

// ranks are the words for ranks in the cells of a column of ranks; those of
// the species and above are not written in a name.
var ranks = merge(map[string]string{
	"subsp.":   "subsp ssp subspecies",
	"var.":     "var variety varietas",
	"subvar.":  "subvar subvariety subvarietas",
	"f.":       "f forma form fo",
	"subf.":    "subf subforma subform",
	aboveRanks: "species sp genus family order class phylum kingdom",
})

// composed joins the cells of a name: an epithet below the species gets its
// rank before it, from the heading or from a column of ranks, unless the cell
// has it already.
func composed(heads, cells []string) string {
	var words []string
	pending := ""
	for i, cell := range cells {
		if cell == "" {
			continue
		}
		rank, below := rankOf(heads[i])
		switch {
		case i == 0 || !below:
		case rank == rankCells:
			switch known, ok := ranks[fold(cell)]; {
			case !ok:
				pending = cell
			case known != aboveRanks:
				pending = known
			}
			continue
		case hasRank(cell):
		case rank != "":
			cell = rank + " " + cell
		case pending != "":
			cell = pending + " " + cell
		}
		words = append(words, cell)
	}
	return strings.Join(words, " ")
}

// hasRank reports whether an epithet is written with its rank.
func hasRank(cell string) bool {
	first, _, more := strings.Cut(cell, " ")
	_, known := ranks[fold(first)]
	return more && known || strings.HasPrefix(cell, "×") || strings.ContainsAny(first, ".")
}

// parts are the columns of a composed name: the genus, its epithet, then what
// lies below the species and the authors in the order of the table, so that
// authors stand behind the epithet that they belong to.
func (g *guesser) parts(epithets []guess) (and []string) {
	if len(epithets) > 0 {
		and = append(and, epithets[0].Head)
	}
	authors := false
	for i := range g.profile.Columns {
		c := &g.profile.Columns[i]
		if c.Filled == 0 {
			continue
		}
		_, below := rankOf(c.Head)
		isAuthor := slices.ContainsFunc(g.by[asAuthors], func(a guess) bool { return a.Head == c.Head })
		switch {
		case below:
			authors = false
		case !isAuthor || authors: // of two columns of authors side by side, the first
			continue
		default:
			authors = true
		}
		and = append(and, c.Head)
	}
	return and
}
