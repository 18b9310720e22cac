package land

// Proposal is another point that the figures of a point may have meant.
type Proposal struct {
	Lat, Lon float64
	What     string // what is changed: "latitude and longitude change places"
}

// changes are the slips that are tried, in the order they are proposed.
var changes = []struct {
	what           string
	swap, lat, lon bool // swapped first, then signs turned
}{
	{"the sign of the longitude is turned", false, false, true},
	{"the sign of the latitude is turned", false, true, false},
	{"both signs are turned", false, true, true},
	{"latitude and longitude change places", true, false, false},
	{"latitude and longitude change places, the sign of the longitude is turned", true, false, true},
	{"latitude and longitude change places, the sign of the latitude is turned", true, true, false},
	{"latitude and longitude change places, both signs are turned", true, true, true},
}

// Repairs gives the points that come from a point by swapping its latitude and
// longitude or turning signs and lie in a country or within so many metres of
// it; none when the point itself does. Which slip it was, if any, only the
// label can tell. A latitude beyond 90 is taken too, if swapped it is none.
func Repairs(lat, lon float64, alpha2 string, within float64) []Proposal {
	if d, known := Outside(lat, lon, alpha2); known && d <= within {
		return nil
	}
	var out []Proposal
	for _, c := range changes {
		p := Proposal{lat, lon, c.what}
		if c.swap {
			p.Lat, p.Lon = p.Lon, p.Lat
		}
		if c.lat {
			p.Lat = -p.Lat
		}
		if c.lon {
			p.Lon = -p.Lon
		}
		if d, known := Outside(p.Lat, p.Lon, alpha2); known && d <= within && !had(out, p) && (p.Lat != lat || p.Lon != lon) {
			out = append(out, p)
		}
	}
	return out
}

func had(ps []Proposal, p Proposal) bool {
	for _, o := range ps {
		if o.Lat == p.Lat && o.Lon == p.Lon {
			return true
		}
	}
	return false
}
