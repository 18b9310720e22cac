package names

import "strings"

// Name is one name as read. Its fields hold the normal spelling of each part
// (capital at the genus, ligatures and accents transcribed by Art. 60.7);
// Text holds the words.
type Name struct {
	// Text is the words with runs of space made one, x made × where it is the
	// sign of a hybrid, and × set against its epithet.
	Text string

	Uninomial     string // a name above genus, for example Ranunculaceae
	Genus         string // empty for a name above genus
	GenusHybrid   bool   // ×Agropogon
	Species       string // the epithet
	SpeciesHybrid bool   // Mentha ×piperita
	Ranks         []Part // sections and the like, then subspecies, variety ... as written, highest first

	// SpeciesAuthors are the authors that stand after the species in a name
	// below species, as before an autonym (Art. 26.1).
	SpeciesAuthors string
	// Authors are the authors of the name itself, as written; empty when the
	// words have none.
	Authors string

	Cultivar   string // without quotes
	Group      string // cultivar group or grex, without the word
	Grex       bool   // Group is a grex: of orchids, all offspring of one crossing
	Qualifiers []Qualifier
	Note       string // what follows the name: sensu ..., nom. nud., auct. non L.
	Tail       string // words at the end that could not be read as part of the name

	Rank Rank

	// Parents are the names joined by × in a hybrid formula, Or those joined
	// by "or"; the fields above then hold what all have in common: the genus,
	// or nothing.
	Parents []Name
	Or      []Name

	Warnings []Warning

	sign   string // × or + between parents
	canon  []string
	firm   int // parts of canon before the first doubt
	pieces []Piece
}

// Part is one epithet with its rank term.
type Part struct {
	Rank    Rank
	Marker  string // normal spelling, for example subsp.; empty when no rank is stated
	Epithet string
	Hybrid  bool // × before the epithet
	Authors string
}

// Qualifier is a word that limits or doubts a name, lifted out of it.
type Qualifier struct {
	Word    string // normal spelling for cf., aff., ?, agg., s.l., s.str.; else as written, for example "sp. 3"
	Governs string // the part of the name that it bears on, without authors, for example "subsp. pumilus"
	Doubt   bool   // it doubts the part (cf., aff., ?); otherwise it says how wide or how far the name is meant
}

// Warning is something about a name that is worth a look and hinders nothing.
type Warning struct {
	Code    string
	Message string
	// Spelling says that it is a habit of writing, right on an old label:
	// ssp. for subsp., x for ×, an accent.
	Spelling bool
}

// NotAName is the error of words that cannot be read as a botanical name.
type NotAName struct {
	Text   string
	Reason string
	// None is true when the words say that the plant was not named.
	None bool
}

func (e *NotAName) Error() string { return "read name " + quote(e.Text) + ": " + e.Reason }

func quote(s string) string {
	r := []rune(s)
	if len(r) > 60 {
		s = string(r[:57]) + "..."
	}
	return "\"" + s + "\""
}

// Canonical is the name without authors, qualifiers and notes, in normal
// spelling: "Ranunculus acris subsp. pumilus", "Mentha × piperita", "Salix
// aurita × Salix caprea", "Sarracenia flava ‘Maxima’". Ranks between are kept
// as written; see ByCode.
func (n Name) Canonical() string {
	switch {
	case len(n.Or) > 0:
		return joined(n.Or, " or ")
	case len(n.Parents) > 0:
		return joined(n.Parents, " "+n.sign+" ")
	}
	return strings.Join(n.canon, " ")
}

func joined(list []Name, sep string) string {
	var b strings.Builder
	for i, n := range list {
		if i > 0 {
			b.WriteString(sep)
		}
		b.WriteString(n.Canonical())
	}
	return strings.TrimRight(b.String(), " ")
}

// ByCode is the name in the Code's sense: of several infraspecific epithets
// only the lowest (Art. 24.1 Ex. 1), as Darwin Core's scientificName has it,
// without authors.
func (n Name) ByCode() string {
	if len(n.Ranks) < 2 || n.Species == "" {
		return n.Canonical()
	}
	last := n.Ranks[len(n.Ranks)-1]
	if last.Rank.infrageneric() {
		return n.Canonical()
	}
	m := n
	m.Ranks = []Part{last}
	return strings.Join(m.compose(), " ")
}

// Firm is the part of the canonical name before the first doubt: "Quercus"
// of "Quercus cf. robur". It is the whole name when nothing is doubted and
// empty when all is.
func (n Name) Firm() string {
	if len(n.Parents)+len(n.Or) > 0 {
		return n.Genus
	}
	return strings.Join(n.canon[:n.firm], " ")
}

// Certain reports whether the name stands without a doubt (cf., aff., ?) and
// without alternative.
func (n Name) Certain() bool {
	for _, q := range n.Qualifiers {
		if q.Doubt {
			return false
		}
	}
	return len(n.Or) == 0
}

// Hybrid reports whether the name is a hybrid's: named with × or notho-, or a
// formula.
func (n Name) Hybrid() bool {
	if n.GenusHybrid || n.SpeciesHybrid || len(n.Parents) > 0 {
		return true
	}
	for _, p := range n.Ranks {
		if p.Hybrid || strings.HasPrefix(p.Marker, "notho") {
			return true
		}
	}
	return false
}

// Family is the name's family when the name is that of a family; it is the
// only family that a name can say.
func (n Name) Family() string {
	if n.Rank == Family {
		return n.Uninomial
	}
	return ""
}

// Authorship is Authors in the form of Rec. 46C: & between authors, no year
// and no comma before it, spaces made regular.
func (n Name) Authorship() string { return normalAuthors(n.Authors) }

// compose makes the parts of the canonical form from the fields.
func (n Name) compose() []string {
	var out []string
	switch {
	case n.Uninomial != "":
		out = append(out, n.Uninomial)
	case n.GenusHybrid:
		out = append(out, n.crossSign()+" "+n.Genus)
	case n.Genus != "":
		out = append(out, n.Genus)
	}
	for _, p := range n.Ranks {
		if p.Rank.infrageneric() && n.Species == "" && p.Marker != "" {
			out = append(out, p.Marker+" "+p.Epithet)
		}
	}
	if n.Species != "" {
		if n.SpeciesHybrid {
			out = append(out, "× "+n.Species)
		} else {
			out = append(out, n.Species)
		}
	}
	for _, p := range n.Ranks {
		if p.Rank.infrageneric() {
			continue
		}
		w := p.Epithet
		if p.Hybrid {
			w = "× " + w
		}
		if p.Marker != "" {
			w = p.Marker + " " + w
		}
		out = append(out, w)
	}
	if n.Group != "" {
		out = append(out, n.group())
	}
	if n.Cultivar != "" {
		out = append(out, "‘"+n.Cultivar+"’")
	}
	return out
}

func (n Name) crossSign() string {
	if n.sign != "" {
		return n.sign
	}
	return "×"
}
