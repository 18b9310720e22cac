package mids

import (
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

// places of the elements, for asking records.
var (
	number, museum, name, object    = Place("PhysicalSpecimenID"), Place("Organization"), Place("Name"), Place("ObjectType")
	licence, modified               = Place("License"), Place("Modified")
	words, position, agent, date    = Place("QualitativeLocation"), Place("QuantitativeLocation"), Place("CollectingAgent"), Place("DateCollected")
	collNo, media                   = Place("CollectingNumber"), Place("Media")
	museumID                        = Place("OrganizationID")
	agentID, placeID, byID, mediaID = Place("CollectingAgentID"), Place("GeographicalLocalityID"), Place("IdentifiedByID"), Place("MediaID")
)

func (s *Set) add(at int, given bool) {
	if given {
		*s |= 1 << at
	}
}

// OfEntry asks a record of a Book, as the archive would give it: entered means
// that the history has it. A ledger has no field for the identifier of a name; it is
// lacking everywhere. Words for none do not count, but
// s.d. and s.n. do, as the standard has it.
func OfEntry(e *book.Entry, m *book.Museum, entered bool) Set {
	var s Set
	s.add(number, e.Number != "")
	s.add(museum, m.Code.Set() || m.Museum.Name.Set())
	s.add(name, present(e.Name))
	s.add(object, e.Flags.Has(book.KeptSaid))
	s.add(licence, m.Site.Licence.Set())
	s.add(modified, entered)
	s.add(words, present(e.Country) || present(e.Province) || present(e.District) || present(e.Locality) || e.Flags.Has(book.PositionSaid))
	s.add(position, e.Positioned)
	s.add(agent, present(e.Collector))
	s.add(date, saysSo(e.Date))
	s.add(collNo, saysSo(e.CollNo))
	s.add(media, e.Flags.Has(book.Imaged))
	s.add(museumID, m.Dataset.Institution.Set())
	s.add(agentID, identified(m, e.Collector, e.With))
	s.add(placeID, e.Positioned && e.Uncertainty > 0)
	s.add(byID, identified(m, append([]string{e.By}, e.People...)...))
	s.add(mediaID, e.Flags.Has(book.Imaged))
	return s
}

func present(words string) bool { return reading.AbsenceOf(words) == reading.Present }

// saysSo reports whether there are words, or the word that the label has none.
func saysSo(words string) bool {
	a := reading.AbsenceOf(words)
	return a == reading.Present || a == reading.None
}

// identified reports whether people.yaml has an identifier of somebody whom
// any of the words name.
func identified(m *book.Museum, words ...string) bool {
	for _, w := range words {
		for _, p := range m.People.FindAll(w) {
			if p != nil && p.ORCID.Set() && p.Initials.Text != "yes" {
				return true
			}
		}
	}
	return false
}
