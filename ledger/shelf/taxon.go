package shelf

import (
	"strings"

	"blotter/ledger/book"
	"blotter/ledger/names"
)

// taxonKey is what the family and the name of a cover depend on.
type taxonKey struct{ words, key, family string }

// taxon is one name as a cover has it.
type taxon struct {
	name     string // without authors: "Ranunculus acris"; "" for none
	family   string // "" when nobody says
	number   string // of the family in the museum's system
	group    string
	genus    string
	epithets string // what follows the genus, "" for none
	segments [bySpecies + 1]string
}

// taxonOf is the name under which an entry's sheet lies: that which stands, or
// the accepted one when names/ has it under another.
func (o *Order) taxonOf(e *book.Entry) *taxon {
	k := taxonKey{e.Name, e.NameKey, e.Family}
	if t := o.taxa[k]; t != nil {
		return t
	}
	key := e.NameKey
	if n := o.museum.Renamed(e); n != nil {
		key = n.Key()
	}
	t := o.taxon(key, e.Family)
	o.taxa[k] = t
	return t
}

// taxonNamed is the taxon of words that a setting has.
func (o *Order) taxonNamed(words string) *taxon {
	n, err := names.Read(words)
	if err != nil {
		return &taxon{}
	}
	return o.taxon(n.Canonical(), "")
}

func (o *Order) taxon(key, family string) *taxon {
	t := &taxon{name: key}
	genus, epithets := book.GenusOf(key)
	switch {
	case key == "":
	case epithets == "" && o.isFamily(genus):
		t.family = genus
	default:
		t.genus, t.epithets = genus, epithets
	}
	if t.family == "" {
		t.family = o.museum.FamilyOf(key, family)
	}
	place, listed := o.families[fold(t.family)]
	t.number, t.group = place.number, place.group
	t.segments[byGroup] = string([]byte{last})
	if rank, ok := o.groups[fold(t.group)]; ok {
		t.segments[byGroup] = string([]byte{byte(inTurn + min(rank, 0xd0))})
	}
	t.segments[byFamily] = familySegment(t, place.rank, listed && o.habits.Families.Text == "sequence")
	undetermined := byte(last)
	if o.habits.Undetermined.Text == "first" {
		undetermined = first
	}
	t.segments[byGenus], t.segments[bySpecies] = string([]byte{undetermined}), string([]byte{undetermined})
	if t.genus != "" {
		t.segments[byGenus] = string([]byte{inTurn}) + unsigned(t.genus)
	}
	if t.epithets != "" {
		mark := byte(inTurn)
		if o.habits.Hybrids.Text == "last" && isHybrid(t.epithets) {
			mark = hybrid
		}
		t.segments[bySpecies] = string([]byte{mark}) + unsigned(t.epithets)
	}
	return t
}

func familySegment(t *taxon, rank int, listed bool) string {
	switch {
	case listed:
		return string([]byte{first, byte(rank >> 8), byte(rank)})
	case t.family != "":
		return string([]byte{inTurn}) + fold(t.family)
	case t.genus != "":
		return string([]byte{nowhere})
	}
	return string([]byte{last})
}

// unsigned is a name for comparison: in small letters, the signs of hybrids
// left out, so that they lie where their letters have them.
func unsigned(s string) string {
	return strings.ToLower(strings.NewReplacer("× ", "", "×", "", "+ ", "").Replace(s))
}

func isHybrid(epithets string) bool { return strings.Contains(epithets, "×") }

// conserved are the family names that do not end in -aceae (ICN Art. 18.5).
var conserved = map[string]bool{"Compositae": true, "Cruciferae": true, "Gramineae": true, "Guttiferae": true,
	"Labiatae": true, "Leguminosae": true, "Palmae": true, "Umbelliferae": true}

// isFamily reports whether a single word is the name of a family.
func (o *Order) isFamily(word string) bool {
	_, listed := o.families[fold(word)]
	return listed || strings.HasSuffix(word, "aceae") || conserved[word]
}
