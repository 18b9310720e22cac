package check

import (
	"math"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/land"
	"blotter/ledger/reading"
)

// The rules of this family ask package land, whose boundaries are rough and
// show who holds a place today: they warn, and nothing is ever changed.
var landRules = []Rule{
	{Code: "position-country", Severity: ledger.Warning,
		Says: "A position lies in the country that the record names, or no more than 3 km outside (checks: country_buffer).",
		Why:  "Country or position is misread, or the border was another then. The borders are Natural Earth's, about 2018 and good to a kilometre or two; they show who holds a place, not who claims it. Buffer: TDWG data quality tests, VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT.",
		By:   positionCountry},
	{Code: "position-turned", Severity: ledger.Warning,
		Says: "A position lies where its record says, without latitude and longitude changing places or a sign being turned.",
		Why:  "Such a slip is proposed, never mended: only the label knows. TDWG data quality tests, AMENDMENT_COORDINATES_TRANSPOSED.",
		By:   positionTurned},
	{Code: "position-province", Severity: ledger.Warning,
		Says: "A position lies in the province that the record names, or no more than 3 km outside (checks: country_buffer).",
		Why:  "Province or position is misread, or the province had other borders then. Only provinces that the boundaries have are looked at. Buffer: TDWG data quality tests, VALIDATION_COORDINATESSTATEPROVINCE_CONSISTENT.",
		By:   positionProvince},
	{Code: "position-sea", Severity: ledger.Warning,
		Says: "The position of a plant that does not live in the sea lies on land, or no more than 3 km outside (checks: country_buffer).",
		Why:  "Small islands and skerries are missing from the boundaries; else the position is misread. A record with a depth is not looked at. Buffer: TDWG data quality tests, VALIDATION_COORDINATESTERRESTRIALMARINE_CONSISTENT.",
		By:   positionSea},
	{Code: "position-centre", Severity: ledger.Warning,
		Says: "A position within 5 km of the middle of its country (checks: centre_radius) has an uncertainty of at least half the square root of the country's area.",
		Why:  "The middle is what is put when nothing but the country is known. TDWG data quality tests, ISSUE_COORDINATES_CENTEROFCOUNTRY; countries of less than a hundred times the circle are left out.",
		By:   positionCentre},
}

// site is the point of a record and the countries that it names.
type site struct {
	d        *reading.Reading
	lat, lon float64
	leaf     ledger.Leaf // what the point was read from
	field    string
	codes    []string // of today; none when the record names none that is known
}

// siteOf is false when there is no point, or it is 0, 0, which has a finding
// of its own.
func siteOf(d *reading.Reading) (site, bool) {
	p := &d.Position
	if !p.Known || p.Lat == 0 && p.Lon == 0 {
		return site{}, false
	}
	s := site{d: d, lat: p.Lat, lon: p.Lon}
	s.leaf, s.field = positionLeaf(d)
	s.codes = countriesOf(d)
	return s, true
}

// positionLeaf is where the position that holds stands.
func positionLeaf(d *reading.Reading) (ledger.Leaf, string) {
	if d.Position.FromHand {
		return d.Position.ByHand.Is, "read.position.is"
	}
	return d.Record.Place.Position, "place.position"
}

// countriesOf are the codes of the countries that a record names: a person's
// reading of it goes before the words.
func countriesOf(d *reading.Reading) []string {
	if h := d.Country.ByHand; h != nil {
		if is, ok := land.Country(h.Is.Text); ok {
			return is.Codes
		}
	}
	if is, ok := land.Country(d.Country.Words); ok {
		return is.Codes
	}
	return nil
}

// buffer is how far outside a point may lie: the setting and its own radius.
func (s site) buffer(set *Settings) float64 {
	return set.CountryBuffer + s.d.Position.Radius()
}

// outside is the metres to the nearest of the countries; 0 inside one.
func (s site) outside() (metres float64, known bool) {
	metres = math.Inf(1)
	for _, c := range s.codes {
		if d, ok := land.Outside(s.lat, s.lon, c); ok {
			known = true
			if metres = min(metres, d); metres == 0 {
				break
			}
		}
	}
	return metres, known
}

// astray reports whether the point lies outside the countries named, by how
// much, and where it is drawn. A point at sea off one of them is not astray.
func (s site) astray(set *Settings) (metres float64, where land.Where, yes bool) {
	metres, known := s.outside()
	if !known || metres <= s.buffer(set) {
		return 0, where, false
	}
	where, on := land.At(s.lat, s.lon)
	if on && where.Metres > 0 && metres <= land.Zone {
		return 0, where, false
	}
	for _, c := range s.codes {
		if on && land.MayMean(c, where.Country, s.year()) {
			return 0, where, false
		}
	}
	return metres, where, true
}

// year is the first of the year of gathering; 0: not known.
func (s site) year() int {
	if !s.d.Date.Known {
		return 0
	}
	return s.d.Date.First.Year()
}

// country is what the record calls its country.
func (s site) country() string {
	if len(s.codes) == 1 {
		return called(s.codes[0])
	}
	return s.d.Country.Words
}

func positionCountry(d *reading.Reading, set *Settings, say say) {
	s, ok := siteOf(d)
	if !ok || len(s.codes) == 0 {
		return
	}
	metres, where, astray := s.astray(set)
	if !astray || len(s.repairs(set)) > 0 {
		return
	}
	message := "lies outside the country that the record names"
	if !hidden(d) {
		message = "lies " + howFar(metres) + " outside " + s.country() + lying(where) + ", as Natural Earth draws the borders of today"
	}
	s.say(say, "position-country", message)
}

// lying is where a point lies, as words go on.
func lying(w land.Where) string {
	name := called(w.Country)
	switch {
	case name == "":
		return ""
	case w.Metres > 0:
		return ", at sea off " + name
	}
	return ", in " + name
}

func positionTurned(d *reading.Reading, set *Settings, say say) {
	s, ok := siteOf(d)
	if !ok || len(s.codes) == 0 {
		return
	}
	if _, _, astray := s.astray(set); !astray {
		return
	}
	fits := s.repairs(set)
	if len(fits) == 0 {
		return
	}
	n := numberOf(d)
	if hidden(d) {
		say(at(s.leaf, s.field), words{"lies outside the country that the record names, and would fit if " + fits[0].What,
			lines("Look at the label.", accept(n, "position-turned"))})
		return
	}
	var hint []string
	for _, f := range fits {
		point := degrees(f.Lat) + ", " + degrees(f.Lon)
		hint = append(hint, "If the label bears it out: blotter set "+n+" position-read="+quoted(point)+" --why "+quoted(f.What))
	}
	say(at(s.leaf, s.field), words{"lies outside " + s.country() + ", and would fit if " + fits[0].What,
		lines(append(hint, accept(n, "position-turned"))...)})
}

// degrees is an angle as one types it, to a metre.
func degrees(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e5)/1e5, 'f', -1, 64)
}

// repairs are the points that fit the country named. When the record names
// several there are none.
func (s site) repairs(set *Settings) []land.Proposal {
	if len(s.codes) != 1 {
		return nil
	}
	return land.Repairs(s.lat, s.lon, s.codes[0], set.CountryBuffer)
}

func positionProvince(d *reading.Reading, set *Settings, say say) {
	province := stated(d.Record.Place.Province.Text)
	s, ok := siteOf(d)
	if !ok || province == "" {
		return
	}
	far, known := math.Inf(1), false
	for _, c := range s.codes {
		if m, ok := land.OutsideRegion(s.lat, s.lon, c, province); ok {
			far, known = min(far, m), true
		}
	}
	if !known || far <= s.buffer(set) {
		return
	}
	if _, _, astray := s.astray(set); astray {
		return
	}
	where, on := land.At(s.lat, s.lon)
	if on && where.Metres > set.CountryBuffer {
		return // at sea, which has a finding of its own
	}
	message := "lies outside the province that the record names"
	if !hidden(d) {
		message = "lies " + howFar(far) + " outside " + province
		if where.Region != "" {
			message += ", in " + where.Region
		}
		message += ", as Natural Earth draws the regions"
	}
	s.say(say, "position-province", message)
}

// seaFamilies are flowering plants of the sea; algae are marked by their depth.
var seaFamilies = map[string]bool{"Zosteraceae": true, "Posidoniaceae": true, "Cymodoceaceae": true, "Ruppiaceae": true, "Hydrocharitaceae": true}

func positionSea(d *reading.Reading, set *Settings, say say) {
	s, ok := siteOf(d)
	if !ok || d.Record.Depth.Set() || seaFamilies[strings.TrimSpace(d.Record.Family.Text)] {
		return
	}
	if metres, known := s.outside(); known && metres == 0 {
		return
	}
	far := land.Ashore(s.lat, s.lon)
	if far <= s.buffer(set) {
		return
	}
	if _, _, astray := s.astray(set); astray {
		return
	}
	message := "lies at sea"
	if !hidden(d) {
		message += ", " + howFar(far) + " from the nearest land"
	}
	s.say(say, "position-sea", message+"; small islands may be missing from what it is compared with")
}

func positionCentre(d *reading.Reading, set *Settings, say say) {
	s, ok := siteOf(d)
	if !ok || len(s.codes) != 1 {
		return
	}
	for _, c := range land.Centres(s.codes[0]) {
		if !c.Within(s.lat, s.lon, set.CentreRadius) {
			continue
		}
		area := land.Area(s.codes[0])
		if area < 100*math.Pi*set.CentreRadius*set.CentreRadius || statedUncertainty(d) >= math.Sqrt(area)/2 {
			return
		}
		message := "lies where the middle of the country is put when nothing else is known"
		if !hidden(d) {
			message = "lies within " + howFar(set.CentreRadius) + " of " + c.What + ", where a point is put when nothing but " + s.country() + " is known"
		}
		say(at(s.leaf, s.field), words{message, lines("If it was put for the country alone, state how uncertain it is: "+
			uncertain(d, math.Sqrt(area)/2), accept(numberOf(d), "position-centre"))})
		return
	}
}

// uncertain is the command that states an uncertainty.
func uncertain(d *reading.Reading, metres float64) string {
	return set(numberOf(d), "place.uncertainty", strconv.FormatFloat(math.Ceil(metres/1000), 'f', 0, 64)+" km")
}

// articled are the countries whose name takes an article.
var articled = map[string]bool{"US": true, "GB": true, "NL": true, "PH": true, "BS": true, "GM": true, "CF": true, "CD": true, "CG": true,
	"DO": true, "AE": true, "KY": true, "FK": true, "FO": true, "SB": true, "MH": true, "KM": true, "MV": true, "TC": true, "MP": true, "CK": true}

// called is a country's name in a sentence.
func called(alpha2 string) string {
	if articled[alpha2] {
		return "the " + land.Name(alpha2)
	}
	return land.Name(alpha2)
}

// say reports a finding that only the label can settle.
func (s site) say(say say, code, message string) {
	n := numberOf(s.d)
	say(at(s.leaf, s.field), words{message, lines("Look at the label and at a map. If it was misread: blotter set "+n+" position-read=\"LATITUDE, LONGITUDE\" --why TEXT",
		accept(n, code))})
}

// howFar is a distance in words: 850 m, 4.2 km, 120 km.
func howFar(metres float64) string {
	switch {
	case math.IsInf(metres, 1) || metres > land.Zone && metres >= 1e6:
		return "more than 1,000 km"
	case metres < 1000:
		return strconv.FormatFloat(math.Max(1, math.Round(metres/10)*10), 'f', 0, 64) + " m"
	case metres < 10_000:
		return strings.TrimSuffix(strconv.FormatFloat(metres/1000, 'f', 1, 64), ".0") + " km"
	}
	return strconv.FormatFloat(metres/1000, 'f', 0, 64) + " km"
}
