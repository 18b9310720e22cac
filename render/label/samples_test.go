package label

import "strings"

// samples are labels of every kind, to be looked at: TRY=FILE.pdf go test -run Show.
var samples = []struct {
	name, record, settings string
	parts                  int
	with                   func(*Input)
}{
	{name: "sketch", record: sketch},
	{name: "short", record: `specimen: LK7-0000021
entry: full
family: Betulaceae
collector: K. Moldstad
coll_no: s.n.
date: July 1931
place: {country: Norway, district: Voss, locality: Raundalen}
determinations:
  - {name: Betula nana L., by: K. Moldstad, date: 1931, from: label}
writings:
  - {on_sheet: label, text: "Betula nana, Raundalen, July 1931"}
`, with: func(in *Input) { in.Typist, in.Typed = "Tiril Aune", 2026 }},
	{name: "treated", record: `specimen: LK7-0000077
entry: full
family: Orchidaceae
collector: unknown
date: s.d.
place: {country: Norge, province: Hordaland, locality: Vossevangen}
cautions: ["treated, stamped", spiny]
determinations:
  - {name: Orchis maculata L., by: unsigned, date: s.d.}
`},
	{name: "withheld", record: `specimen: LK7-0000733
entry: full
family: Orchidaceae
collector: Signe Rask
with: [Ove Bannister, Tiril Aune, Jón Á. Þórsson, María Núñez de la Peña, S. Bannister]
coll_no: 1207a
date: 3–4 July 2024
place:
  country: Norway
  province: Vestland
  district: Voss
  locality: Steep calcareous slope below the old quarry, about 300 m N of the bridge
  position: "60.70342, 6.65120"
  datum: WGS84
  uncertainty: 25 m
  gps_accuracy: 4 m
  elevation: 512 m
  elevation_by: map
habitat: Open birch wood, grazed by sheep
substrate: calcareous schist
associates: [Dryas octopetala L., Saxifraga aizoides, Carex capillaris]
description: Lip crimson, spotted; scent of vanilla in the evening
phenology: [bud, flower]
abundance: rare
population: 12
permit: County Governor of Vestland 2024/118
project: Meadows of Raundalen
sensitive: {why: at risk from collecting, category: 2, review: 2031}
determinations:
  - {name: Gymnadenia conopsea (L.) R.Br., by: Signe Rask, date: 2024-07-04}
`, with: func(in *Input) { in.Withheld = true; in.Sheet, in.Sheets = 1, 2 }},
	{name: "cultivated", record: `specimen: LK7-0000951
entry: full
family: Lamiaceae
collector: Ove Bannister
coll_no: "88"
date: 12 August 2023
place: {country: Norway, province: Vestland, district: Voss, locality: Lauvkroken, position: 60°37'41"N 6°24'52"E, datum: WGS84, gps_accuracy: 5 m}
habitat: not recorded
origin: cultivated
garden: Lauvkroken Museum, herb garden, bed 3
source_place: cuttings from Mølster, 2019
description: Whole plant smells of peppermint
phenology: [flower]
determinations:
  - {name: Mentha x piperita L., by: Ove Bannister, date: 2023}
`, settings: "habits:\n  labels:\n    language: nb\n"},
	{name: "formula", record: `specimen: LK7-0000952
entry: full
family: Salicaceae
collector: Signe Rask
coll_no: "1311"
date: 2.vi.2024
place: {country: Norway, province: Vestland, locality: "Mjølfjell, along the river", elevation: 630 m, elevation_by: altimeter}
habitat: Gravel bank
description: Shrub 1.5 m high, catkins before the leaves
phenology: [flower]
project: Willows of the fells
determinations:
  - {name: Salix aurita L. × Salix lapponum L. × Salix myrsinifolia Salisb. subsp. borealis (Fr.) Hyl., by: Signe Rask, date: 2024-06-02}
`, settings: "habits:\n  labels:\n    headings:\n      - {project: Willows of the fells, lines: [FLORA OF THE FELLS, \"Voss, Aurland and Ulvik\"]}\n"},
	{name: "letters", record: `specimen: LK7-0000953
entry: full
family: Poaceae
collector: Þóra Ægisdóttir
coll_no: "9"
date: 6. júlí 2022
place: {country: Ísland, locality: "Ásbyrgi, við Botnstjörn; Ελλάδα, Κρήτη; Łódź, Dvořák, ő ű ş ț ğ", elevation: "≈ 40 m"}
habitat: "Meadow; soil pH 5.5–6.0, ♂ & ♀ plants ≥ 3 m apart, ½ shaded"
description: "Spikelets 4.2 × 1.1 mm, glumes ± equal, “as in the type”"
determinations:
  - {name: Poa sp. 3, by: Þóra Ægisdóttir, date: 2022}
`},
	{name: "unnamed", record: `specimen: LK7-0000954
entry: full
collector: Tiril Aune
coll_no: "3"
date: 1 May 2026
place: {country: Norway, locality: Evanger}
habitat: Roadside
`, with: func(in *Input) { in.Copy = true }},
	{name: "tall", record: `specimen: LK7-0001188
entry: full
family: Asteraceae
collector: Signe Rask
coll_no: "1400"
date: 9.viii.2025
place: {country: Norway, province: Vestland, district: Voss, locality: "` + strings.Repeat("from the station 2.4 km up the valley along the track, then 300 m W over the bridge to the scree below the cliff; ", 12) + `then back"}
habitat: Scree
determinations:
  - {name: Hieracium alpinum agg., by: Signe Rask, date: 2025-08-09}
`},
	{name: "two parts", parts: 2, record: `specimen: LK7-0001189
entry: full
family: Asteraceae
collector: Signe Rask
coll_no: "1401"
date: 9.viii.2025
place: {country: Norway, province: Vestland, district: Voss, locality: "` + strings.Repeat("from the station 2.4 km up the valley along the track, then 300 m W over the bridge to the scree below the cliff; ", 26) + `then back"}
habitat: Scree
determinations:
  - {name: Hieracium alpinum agg., by: Signe Rask, date: 2025-08-09}
`},
}
