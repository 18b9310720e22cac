package public

import (
	"maps"
	"slices"
	"strings"
	"sync"

	"blotter/ledger"
)

// Shown says to whom a field may be shown.
type Shown uint8

const (
	Undecided Shown = iota // nobody has thought of it yet: a test fails, and it is shown to no one
	Everyone               // always
	Gathered               // not of a record of class High or Extreme: it tells when, by which number or in which district
	Located                // of no withheld record: it is, or leads to, the place
	Staff                  // never: it is for the museum's own staff
)

// decisions has every field of every kind of file under the one who may see
// it. A path that ends in .* decides for all below it.
var decisions = map[ledger.FileKind]map[Shown]string{
	ledger.RecordKind: {
		Everyone: `specimen entry kept_as parts parts.part parts.number parts.fate cover_name family collector
			place place.country place.province place.private description phenology abundance origin cautions
			determinations.* filed_under.* types.* read
			annotations annotations.kind annotations.by annotations.date annotations.from
			images images.file images.shows images.photographer images.licence images.public images.safe
			read.country read.person read.country.is read.country.by read.country.date read.person.is read.person.by read.person.date
			checked.* sensitive.* fate fate.is fate.by fate.date`,
		Gathered: `with coll_no date place.district substrate host depth associates population taken
			former_herbarium images.date read.date.* fate.to`,
		Located: `accession place.locality place.position place.datum place.gps_accuracy place.uncertainty place.position_by
			place.elevation place.elevation_by habitat garden source_place project fieldbook.* further_numbers exsiccata.*
			annotations.what duplicates.* same_gathering shares_sheet images.checksum writings.* remarks
			read.country.uncertainty read.country.from read.country.why read.person.uncertainty read.person.from read.person.why read.position.* read.elevation.* fate.why`,
		Staff: `parts.where permit sic.* import`,
	},
	ledger.MuseumKind: {
		Everyone: `format name code numbering.* timezone site.* place_levels dates.* qualifiers.* treated_before
			dataset.*`,
		Staff: `severity.* blocks.* shared_computer partners.* sensitive.* checks.* habits.*`,
	},
	ledger.PeopleKind: {
		Everyone: `people people.name people.spellings people.born people.died people.orcid people.initials people.about`,
		Staff:    `people.email`,
	},
	ledger.NamesKind: {
		Everyone: `family names names.name names.of names.split names.published names.source names.date names.by names.why names.native
			names.protection names.treaty names.common names.address names.sensitive.*`,
	},
	ledger.PlacesKind: {
		Everyone: `places places.name places.place.* places.extent`,
		Staff:    `places.sensitive.*`,
	},
	ledger.PublicKind:   {Staff: `*`}, // it quotes what is withheld
	ledger.WorkFileKind: {Staff: `*`}, // the public sees none of it
	ledger.MappingKind:  {Staff: `*`}, // it lies outside the ledger
}

var decided = sync.OnceValue(func() (all [ledger.MappingKind + 1]map[string]Shown) {
	for k := range all {
		m := map[string]Shown{}
		below := map[string]Shown{}
		for to, paths := range decisions[ledger.FileKind(k)] {
			for _, p := range strings.Fields(paths) {
				if group, ok := strings.CutSuffix(p, "*"); ok {
					below[group] = to
					m[strings.TrimSuffix(group, ".")] = to
				} else {
					m[p] = to
				}
			}
		}
		for _, f := range ledger.FieldsOf(ledger.FileKind(k)) {
			for group, to := range below {
				if _, own := m[f.Path]; !own && strings.HasPrefix(f.Path, group) {
					m[f.Path] = to
				}
			}
		}
		all[k] = m
	}
	return all
})

// ShownTo says to whom the field at a dotted path may be shown; numbers of
// entries are passed over. An imported column is decided with its list.
func ShownTo(k ledger.FileKind, path string) Shown {
	m := decided()[k]
	if s, ok := m[path]; ok {
		return s
	}
	if k == ledger.RecordKind && strings.HasPrefix(path, "import.") {
		path = "import"
	}
	return m[withoutNumbers(path)]
}

// hides reports whether a record of a class, as this museum holds it, is shown
// without the field at a dotted path.
func (v *View) hides(path string, c Class) bool {
	switch ShownTo(ledger.RecordKind, path) {
	case Everyone:
	case Gathered:
		if !c.Dated() {
			return true
		}
	case Located:
		if c != Open {
			return true
		}
	default:
		return true
	}
	return c != Open && len(v.more) > 0 && slices.ContainsFunc(v.more, func(p string) bool {
		path := withoutNumbers(path)
		return path == p || strings.HasPrefix(path, p+".")
	})
}

func withoutNumbers(path string) string {
	if !strings.ContainsAny(path, "0123456789") {
		return path
	}
	parts := strings.Split(path, ".")
	parts = slices.DeleteFunc(parts, func(p string) bool { return strings.Trim(p, "0123456789") == "" })
	return strings.Join(parts, ".")
}

// DecidedPaths are the paths that decisions.go names in one kind of file, in
// order.
func DecidedPaths(k ledger.FileKind) []string { return slices.Sorted(maps.Keys(decided()[k])) }
