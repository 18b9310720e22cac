package main

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// ownCode has the units that the data count to their state and ISO 3166-1
// gives a code of its own, by geographic unit.
var ownCode = map[string]string{
	"GLP": "GP", "MTQ": "MQ", "GUF": "GF", "REU": "RE", "MYT": "YT", // France
	"NSV": "SJ", "BVT": "BV", // Norway
	"CCK": "CC", "CXR": "CX", // Australia
}

// ownName has those that only the name tells.
var ownName = map[string]string{
	"NL Bonaire": "BQ", "NL St. Eustatius": "BQ", "NL Saba": "BQ", "NL Sint Eustatius": "BQ",
}

// drawn settles units that the data give no code, by the state they are drawn
// as: the code and others that claim the place. An empty code: drawn as
// nobody's. What is claimed by whom: the layer disputed_borders of the same
// data and common knowledge, from memory.
var drawn = map[string][]string{
	"SOL": {"SO"},                                   // Somaliland
	"CYN": {"CY"},                                   // the north of Cyprus
	"ESB": {"CY", "GB"},                             // sovereign bases on Cyprus
	"WSB": {"CY", "GB"},                             //
	"USG": {"CU", "US"},                             // Guantanamo Bay
	"CLP": {"FR"},                                   // Clipperton
	"KAS": {"", "IN", "PK"},                         // Siachen Glacier
	"KAB": {"KZ", "RU"},                             // Baikonur
	"PGA": {"", "CN", "VN", "PH", "MY", "TW", "BN"}, // Spratly Islands
	"PFA": {"CN", "VN", "TW"},                       // Paracel Islands
	"KOS": {"XK", "RS"},
	"TWN": {"TW", "CN"},
}

// claimed has units with a code that another country claims too.
var claimed = map[string][]string{
	"RU Crimea": {"UA"}, "RU Sevastopol": {"UA"},
	"MA Oued el Dahab": {"EH"}, "MA Laâyoune - Boujdour - Sakia El Hamra": {"EH"}, "MA Guelmim - Es-Semara": {"EH"},
	"EH Western Sahara": {"MA"},
}

// within has the names of wider units that geographic units stand for.
var within = map[string]string{
	"ENG": "England", "SCT": "Scotland", "WLS": "Wales", "NIR": "Northern Ireland",
	"BFR": "Flanders", "BWR": "Wallonia", "BHF": "Federation of Bosnia and Herzegovina", "BIS": "Republika Srpska",
	"IRK": "Kurdistan", "SRV": "Vojvodina", "TZZ": "Zanzibar", "PNB": "Bougainville", "ACB": "Barbuda",
	"JQI": "Johnston Atoll", "MQI": "Midway Islands", "DQI": "Jarvis Island", "WQI": "Wake Island", "BQI": "Navassa Island", "LQI": "Palmyra Atoll",
}

// misspelt has slips of the data in names that labels bear.
var misspelt = map[string]string{
	"FR Seien-et-Marne": "Seine-et-Marne", "FR Haute-Rhin": "Haut-Rhin", "IT Crotene": "Crotone", "IT Oristrano": "Oristano",
	"IT Aoste": "Aosta", "IT Turin": "Torino", "SE Orebro": "Örebro", "DK Sjaælland": "Sjælland", "IE Laoighis": "Laois",
}

// parted takes Jan Mayen, which the data count to a county of Norway, out as a
// unit of its own.
func parted(units []*unit) []*unit {
	var island *unit
	for _, u := range units {
		if u.code != "NO" {
			continue
		}
		var keep [][]vertex
		for _, r := range u.rings {
			if r[0].lon > -5 || r[0].lat < 60 {
				keep = append(keep, r)
				continue
			}
			if island == nil {
				island = &unit{id: u.id, code: "SJ", name: "Jan Mayen"}
			}
			island.rings = append(island.rings, r)
		}
		u.rings = keep
	}
	if island != nil {
		units = append(units, island)
	}
	return units
}

// settle gives units their codes and names and puts them in order.
func settle(units []*unit) {
	for _, u := range units {
		if c, ok := ownCode[u.gu]; ok {
			u.code = c
		} else if c, ok := ownName[u.code+" "+u.name]; ok {
			u.code = c
		}
		if cs, ok := drawn[u.gu]; ok {
			u.code, u.also = cs[0], cs[1:]
		} else if cs, ok := drawn[u.adm0]; ok {
			u.code, u.also = cs[0], cs[1:]
		}
		if cs, ok := claimed[u.code+" "+u.name]; ok {
			u.also = cs
		}
		if n, ok := misspelt[u.code+" "+u.name]; ok {
			u.name = n
		}
		label, _, _ := strings.Cut(u.woeLabel, ",")
		for _, n := range []string{u.name, u.woeName, label, u.gn, within[u.gu]} {
			n = strings.NewReplacer("|", "/", ";", ",").Replace(strings.TrimSpace(mended(n)))
			if n != "" && !strings.Contains(n, "Ã") && !slices.ContainsFunc(u.names, func(h string) bool { return strings.EqualFold(h, n) }) {
				u.names = append(u.names, n)
			}
		}
		if u.name == "" {
			u.names = append([]string{""}, u.names...)
		}
	}
	slices.SortStableFunc(units, func(a, b *unit) int {
		return cmp.Or(cmp.Compare(a.code, b.code), cmp.Compare(a.name, b.name), cmp.Compare(a.id, b.id))
	})
}

// windows1252 has the signs of Windows-1252 that are not at their place in
// Unicode, from 0x80.
var windows1252 = []rune("€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ")

// mended takes back what made JihomoravskÃ½ of Jihomoravský: UTF-8 read as
// Windows-1252.
func mended(s string) string {
	var b []byte
	for _, r := range s {
		if i := slices.Index(windows1252, r); i >= 0 {
			r = rune(0x80 + i)
		}
		if r > 0xff {
			return s
		}
		b = append(b, byte(r))
	}
	if t := string(bytes.ToValidUTF8(b, []byte("\ufffd"))); !strings.Contains(t, "\ufffd") {
		return t
	}
	return s
}

// list is units.txt: a unit a line, the code as drawn, others that claim it,
// its name and its other names.
func list(units []*unit) []byte {
	var b bytes.Buffer
	b.WriteString("# Made by ledger/land/pack from Natural Earth (public domain), one unit a line in the order of shapes.bin:\n")
	b.WriteString("# country as drawn | others that claim it | name | other names\n")
	for _, u := range units {
		name, others := "", u.names
		if len(u.names) > 0 {
			name, others = u.names[0], u.names[1:]
		}
		fmt.Fprintf(&b, "%s|%s|%s|%s\n", u.code, strings.Join(u.also, " "), name, strings.Join(others, ";"))
	}
	return b.Bytes()
}
