package check_test

import (
	"fmt"

	"pgregory.net/rapid"
)

// drawRecord is a record that has much in common with others: few collectors
// in some spellings, numbers that mostly run with the dates, few names and
// places, and numbers of other records.
func drawRecord(r *rapid.T, n string) string {
	pick := func(label string, list ...string) string { return rapid.SampledFrom(list).Draw(r, label) }
	no := rapid.IntRange(1, 9).Draw(r, "no") + 45
	date := fmt.Sprintf("%d.vii.2025", no-40)
	if rapid.IntRange(0, 3).Draw(r, "odd date") == 0 {
		date = pick("date", "14.vii.2025", "15.vii.1925", "2025-05-07", "5/7/2025", "3/4/1934", "s.d.", "1925")
	}
	text := fmt.Sprintf("specimen: %s\nentry: full\ncollector: %s\ncoll_no: \"%d%s\"\ndate: %s\nplace:\n  country: %s\n  province: %s\n",
		n, pick("collector", "Signe Rask", "S. Rask", "Rask, Solveig", "Ove Bannister", "Signe Rask & Ove Bannister"), no, pick("suffix", "", "", "a"),
		date, pick("country", "Norway", "Norway", "Kenya"), pick("province", "Vestland", "Finnmark"))
	if p := pick("position", "", "", "60.7, 6.6", "70.1, 25.3", "-1.0, 37.1"); p != "" {
		text += "  position: " + p + "\n  datum: WGS84\n"
	}
	if o := pick("origin", "", "wild", "cultivated"); o != "" {
		text += "origin: " + o + "\n"
	}
	text += "phenology: [" + pick("phenology", "flower", "fruit") + "]\n"
	other := fmt.Sprintf("LK7-%07d", rapid.IntRange(1, 12).Draw(r, "other"))
	switch rapid.IntRange(0, 6).Draw(r, "link") {
	case 0:
		text += "same_gathering: [" + other + "]\n"
	case 1:
		text += "shares_sheet: [" + other + "]\n"
	case 2:
		text += "further_numbers: [" + pick("further", "O-V 123456", "O-V 123457") + "]\n"
	case 3:
		text += "parts:\n  - {part: sheet}\n  - {part: box, number: " + pick("part", "LK7-F-0031", other) + "}\n"
	}
	text += fmt.Sprintf("determinations:\n  - {name: %s, by: %s, date: s.d.}\n",
		pick("name", "Ranunculus acris L.", "Ranunculus acris subsp. pumilus", "Caltha palustris L.", "Caltha palustris", "Ranuculus acris L.", "indet.", "Mentha x piperita L."), pick("by", "Signe Rask", "Signe Raske"))
	if f := pick("family", "", "", "Ranunculaceae", "Ranunculacae", "Compositae"); f != "" {
		text += "family: " + f + "\n"
	}
	if rapid.IntRange(0, 2).Draw(r, "type") == 0 {
		text += "types:\n  - {status: " + pick("status", "isotype", "holotype", "holotype", "lectotype", "isolectotype") + ", of: " + pick("of", "Ranunculus pumilus Wahlenb.", "Ranunculus pumilus") + ", basis: " + pick("basis", "label", "label", "suspected") + "}\n"
	}
	return text
}
