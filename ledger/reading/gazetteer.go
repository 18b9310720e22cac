package reading

import (
	"blotter/ledger"
	"blotter/ledger/georeference"
	"blotter/ledger/places"
)

// Gazetteer knows the places of places.yaml that have a position, so that
// localities can be reckoned from them.
func Gazetteer(named []ledger.NamedPlace) *georeference.Gazetteer {
	list := make([]georeference.Place, 0, len(named))
	for i := range named {
		n := &named[i]
		list = append(list, georeference.Place{
			Name: n.Name.Text, Country: n.Place.Country.Text, Province: n.Place.Province.Text, District: n.Place.District.Text,
			Said: SaidOf(n.Place, places.ReadPosition(n.Place.Position.Text)), Extent: n.Extent.Text,
		})
	}
	return georeference.NewGazetteer(list)
}

// Reckoned is the point and radius of a record's locality, where neither the
// label nor a person gives a position that can be read: the program's
// reckoning, never the collector's word. It is not Known when there is a
// position.
func (d *Reading) Reckoned(g *georeference.Gazetteer) georeference.Estimate {
	p := d.Record.Place
	if d.Position.Known {
		return georeference.Estimate{Why: "there is a position"}
	}
	if AbsenceOf(p.Locality.Text) != Present {
		return georeference.Estimate{Why: "there is no locality"}
	}
	return g.Reckon(p.Locality.Text, georeference.Within{Country: p.Country.Text, Province: p.Province.Text, District: p.District.Text})
}
