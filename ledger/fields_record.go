package ledger

// Words that several fields share.
const (
	shapeSum      = `^sha256:[0-9a-f]{64}$`
	meaningBy     = "Who, as written; the person is found through people.yaml. The word unsigned when no name stands there."
	meaningDay    = "When, as written, of any precision; s.d. when no date stands there."
	meaningWhyLet = "Why, in a sentence that a successor understands."
)

var recordFields = withReadings([]Field{
	{Path: "specimen", Need: Required, DwC: "catalogNumber", Example: "LK7-0000482", Shape: `^[A-Za-z0-9][A-Za-z0-9._-]*$`, ShapeWords: "letters, digits, dot, hyphen and underline, beginning with a letter or digit",
		Meaning: "The permanent number of the specimen. It is the name of the file, is never changed and never used twice."},
	{Path: "entry", Need: Required, Example: "full", Enum: []string{"stub", "draft", "full"},
		Meaning: "How far the record has come: stub (number, cover name, picture), draft (being typed), full (ready to publish)."},
	{Path: "kept_as", Need: Recommended, DwC: "preparations", Example: "sheet", Enum: []string{"sheet", "packet", "box", "jar", "slide"}, Open: true,
		Meaning: "How the specimen is kept."},
	{Path: "parts", Kind: Entries, Meaning: "The physical parts, only when there is more than one."},
	{Path: "parts.part", Need: Required, Example: "sheet 1 of 2", Meaning: "Which part this is."},
	{Path: "parts.number", Example: "LK7-F-0031", DwC: "otherCatalogNumbers", Meaning: "A number that this part bears itself."},
	{Path: "parts.where", Example: "fruit collection, drawer 12", Meaning: "Where this part lies, if not with the rest."},
	{Path: "parts.fate", Example: "used up 2019", DwC: "disposition", Meaning: "What became of this part, if it is not here."},
	{Path: "cover_name", Need: Recommended, Example: "Ranunculus acris", Meaning: "The name on the folder that the specimen was found in; no opinion of anybody's."},
	{Path: "family", DwC: "family", Example: "Ranunculaceae", Meaning: "The family on the cover, when names/ does not know the name."},
	{Path: "accession", Example: "2025-014", Meaning: "The accession with which the specimen came to the museum."},
	{Path: "collector", Need: WhenFull, DwC: "recordedBy", Example: "Signe Rask", Meaning: "Who collected it, as the label writes it; the person is found through people.yaml. Word for none: unknown."},
	{Path: "with", Kind: Texts, DwC: "recordedBy", Example: "Ove Bannister", Meaning: "Who else was there, one person an entry, as written."},
	{Path: "coll_no", Need: Recommended, DwC: "recordNumber", Example: "1207", Meaning: "The collector's own number for the gathering. Word for none: s.n."},
	{Path: "date", Need: WhenFull, DwC: "verbatimEventDate", Example: "14.vii.2025", Meaning: "When it was collected, to the letter as the label has it. Word for none: s.d."},
	{Path: "place", Kind: Group, Need: WhenFull, Meaning: "Where it grew, as the label writes it. A full record has at least one of its fields."},
	{Path: "place.country", Need: Recommended, DwC: "country", Example: "Norway", Meaning: "The country as written, or as it was called then; the country of today goes into read."},
	{Path: "place.province", Need: Recommended, DwC: "stateProvince", Example: "Vestland", Withheld: true, Meaning: "The level below the country; blotter.yaml has the museum's own word for it."},
	{Path: "place.district", DwC: "county", Example: "Voss", Withheld: true, Meaning: "The level below the province."},
	{Path: "place.locality", Need: Recommended, DwC: "verbatimLocality", Example: "1.2 km NE of Raundal chapel, above the track", Withheld: true, Meaning: "The place in words, from the nearest landmark. Habitat does not belong here."},
	{Path: "place.position", Need: Recommended, DwC: "verbatimCoordinates", Example: `60°42'12"N 6°39'05"E`, Withheld: true, Meaning: "Latitude and longitude, or a grid reference, to the letter as the collector gave it. One found later on a map goes into read."},
	{Path: "place.datum", Need: Recommended, DwC: "verbatimSRS", Example: "WGS84", Meaning: "The datum of the position as stated."},
	{Path: "place.gps_accuracy", Unit: "m", Example: "8 m", Meaning: "The accuracy that the device showed."},
	{Path: "place.uncertainty", Unit: "m", DwC: "coordinateUncertaintyInMeters", Example: "50 m", Meaning: "How far the true place may be from the position, as the label or the collector states it."},
	{Path: "place.position_by", DwC: "georeferenceSources", Example: "map 1:50 000", Withheld: true, Meaning: "How the collector found the position: gps, or which map with its scale."},
	{Path: "place.elevation", Need: Recommended, Unit: "m", DwC: "verbatimElevation", Example: "348 m", Withheld: true, Meaning: "Height above the sea with its unit, as written."},
	{Path: "place.elevation_by", Example: "map", Enum: []string{"map", "gps", "altimeter", "model", "label"}, Open: true, Meaning: "How the elevation was found."},
	{Path: "place.private", Example: "yes", Enum: []string{"yes"}, Meaning: "\"yes\" when it is a private garden or house: nothing of it finer than the district is published."},
	{Path: "habitat", Need: Recommended, DwC: "habitat", Example: "Unfertilised hay meadow on moraine", Withheld: true, Meaning: "What kind of place it grew in."},
	{Path: "substrate", Example: "calcareous schist", Meaning: "What it grew on: soil, rock, bark."},
	{Path: "host", DwC: "associatedTaxa", Example: "Betula pubescens", Meaning: "The plant it grew on, for parasites and epiphytes."},
	{Path: "depth", Unit: "m", DwC: "verbatimDepth", Example: "0.8 m", Meaning: "Depth under water with its unit, for water plants."},
	{Path: "associates", Kind: Texts, DwC: "associatedTaxa", Example: "Trollius europaeus", Meaning: "Plants seen growing with it, one name an entry."},
	{Path: "description", Need: Recommended, DwC: "organismRemarks", Example: "Perennial herb to 40 cm; petals clear yellow, fading on drying.", Meaning: "What the dried specimen no longer shows: size, colours, scent."},
	{Path: "phenology", Kind: Texts, Need: Recommended, DwC: "reproductiveCondition", Example: "flower", Enum: []string{"bud", "flower", "fruit", "seed", "cones", "spores", "capsules", "sterile"}, Open: true, Meaning: "What the specimen bears."},
	{Path: "abundance", DwC: "organismQuantity", Example: "occasional", Meaning: "How common it was there."},
	{Path: "population", DwC: "individualCount", Example: "60", Meaning: "How many plants were seen."},
	{Path: "taken", Example: "1", Meaning: "How many plants were taken."},
	{Path: "origin", Need: Recommended, DwC: "degreeOfEstablishment", Example: "wild", Enum: []string{"wild", "cultivated", "escaped", "planted", "unknown"}, Meaning: "Whether it grew by itself."},
	{Path: "garden", Example: "Lauvkroken Museum, rock garden, bed 3", Withheld: true, Meaning: "The garden that a cultivated plant was taken from."},
	{Path: "source_place", Example: "cuttings from Mølster, 2019", Withheld: true, Meaning: "The wild place that a cultivated plant came from."},
	{Path: "cautions", Kind: Texts, Example: "toxic", Enum: []string{"toxic", "spiny", "treated, tested", "treated, stamped", "treated, assumed"}, Open: true, Meaning: "What whoever handles it must know. Treated means with a poison such as mercuric chloride or arsenic; how it is known stands after the comma."},
	{Path: "permit", Example: "Voss municipality 2025/118", Meaning: "The permit it was collected under."},
	{Path: "project", DwC: "projectTitle", Example: "Meadows of Raundalen", Meaning: "The survey or project it was collected for."},
	{Path: "fieldbook", Kind: Group, Meaning: "Where the gathering stands in the collector's field book."},
	{Path: "fieldbook.volume", Example: "7", Meaning: "The volume."},
	{Path: "fieldbook.page", Example: "31", Meaning: "The page."},
	{Path: "further_numbers", Kind: Texts, DwC: "otherCatalogNumbers", Example: "old number 312", Meaning: "Old numbers and other herbaria's numbers; they need not be unique."},
	{Path: "former_herbarium", Example: "ex herb. K. Moldstad", Meaning: "The herbarium it came from. Its owner is not the collector."},
	{Path: "exsiccata", Kind: Group, Meaning: "The printed set in which the sheet was issued."},
	{Path: "exsiccata.series", Need: Required, Example: "Plantae Vossenses exsiccatae", Meaning: "The title of the set."},
	{Path: "exsiccata.fascicle", Example: "II", Meaning: "The part of the set."},
	{Path: "exsiccata.number", Example: "63", Meaning: "The number in the set."},
	{Path: "determinations", Kind: Entries, AppendOnly: true, Need: Recommended, Meaning: "Every opinion on what the plant is, oldest first. An older slip found later is inserted at its date."},
	{Path: "determinations.name", Need: Required, DwC: "verbatimIdentification", Example: "Ranunculus acris L.", Meaning: "The name as the slip has it: qualifier, agg., sp. 3, indet. included, authors or none."},
	{Path: "determinations.kind", Need: Recommended, DwC: "identificationVerificationStatus", Example: "det", Enum: []string{"det", "conf", "not", "name-change"}, Meaning: "det: named; conf: looked and agrees; not: looked and it is not that; name-change: nobody looked, the name changed by a publication. Without it: det."},
	{Path: "determinations.by", Need: Required, DwC: "identifiedBy", Example: "M. Ostrander", Meaning: meaningBy},
	{Path: "determinations.at", Example: "Fjellheim Museum", Meaning: "The institution of the determiner, as the slip has it."},
	{Path: "determinations.date", Need: Required, DwC: "dateIdentified", Example: "2026-11-02", Meaning: meaningDay},
	{Path: "determinations.from", Need: Recommended, Example: "slip", Enum: []string{"slip", "label", "list", "letter", "publication"}, Meaning: "What the opinion was read from."},
	{Path: "determinations.seen", Example: "sheet", Enum: []string{"sheet", "picture", "duplicate", "dna"}, Meaning: "What the determiner looked at."},
	{Path: "determinations.part", Example: "left-hand plant", Meaning: "The part of the sheet that the opinion is about, or admixture."},
	{Path: "determinations.source", DwC: "identificationReferences", Example: "regional flora, 2nd ed., p. 214", Meaning: "The work that was used, or that changed the name."},
	{Path: "determinations.why", DwC: "identificationRemarks", Example: "Beak and receptacle hairs", Meaning: "The grounds."},
	{Path: "determinations.mistake", Example: "typed on the wrong sheet; it belongs to 483", Meaning: "Why this entry should never have been made. It stays and is shown, and is never the current name."},
	{Path: "filed_under", Kind: Group, Meaning: "The name under which the curator files the specimen, only when it is not the current determination."},
	{Path: "filed_under.name", Need: Required, Example: "Ranunculus acris", Meaning: "The name on the cover it lies in."},
	{Path: "filed_under.by", Need: Required, Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "filed_under.date", Need: Required, Example: "2026-11-05", Meaning: meaningDay},
	{Path: "filed_under.why", Need: Required, Example: "two specialists disagree; kept with the rest of the series", Meaning: meaningWhyLet},
	{Path: "types", Kind: Entries, AppendOnly: true, Meaning: "Every statement that the specimen is a type. Type status belongs to a name, not to a determination."},
	{Path: "types.status", Need: Required, DwC: "typeStatus", Example: "isotype", Enum: []string{"holotype", "isotype", "lectotype", "isolectotype", "syntype", "isosyntype", "neotype", "isoneotype", "epitype", "isoepitype", "paratype", "type", "not a type"}, Open: true, Meaning: "The kind of type."},
	{Path: "types.of", Need: Required, Example: "Ranunculus pumilus Wahlenb.", Meaning: "The name that it is a type of."},
	{Path: "types.published", Need: Recommended, Example: "Flora Vossensis: 31 (1907)", Meaning: "Where that name was published."},
	{Path: "types.basis", Need: Recommended, Example: "verified", Enum: []string{"verified", "label", "picture", "suspected"}, Meaning: "How it is known. A suspected type is protected like a type and reads \"possible type\" in public."},
	{Path: "types.by", Need: Required, Example: "M. Ostrander", Meaning: meaningBy},
	{Path: "types.date", Need: Required, Example: "2026-11-02", Meaning: meaningDay},
	{Path: "types.part", Example: "right-hand plant", Meaning: "The part of the sheet that is the type."},
	{Path: "types.mistake", Example: "protologue cites another gathering", Meaning: "Why this entry should never have been made."},
	{Path: "annotations", Kind: Entries, AppendOnly: true, Meaning: "What was done or noted without giving a name."},
	{Path: "annotations.kind", Need: Required, Example: "material-removed", Enum: []string{"seen", "photographed", "material-removed", "label-copied", "question", "note"}, Meaning: "What kind of note it is. Questions are for the staff and are never published."},
	{Path: "annotations.what", Need: Recommended, Example: "one leaf for DNA", Meaning: "What was done or noted."},
	{Path: "annotations.by", Need: Required, Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "annotations.date", Need: Required, Example: "2026-03-02", Meaning: meaningDay},
	{Path: "annotations.from", Example: "slip", Enum: []string{"slip", "label"}, Meaning: "What it was read from, when it stands on the sheet already; then no slip is printed of it."},
	{Path: "duplicates", Kind: Entries, Meaning: "The other preparations of the same gathering."},
	{Path: "duplicates.made", Example: "3", Meaning: "How many were made."},
	{Path: "duplicates.on_hand", Example: "1", Meaning: "How many are still here."},
	{Path: "duplicates.sent", Example: "Fjellheim Museum", Meaning: "Where one was sent."},
	{Path: "duplicates.date", Example: "2026-02-01", Meaning: "When it was sent."},
	{Path: "duplicates.number", Example: "FM 20113", Meaning: "The number it bears there."},
	{Path: "same_gathering", Kind: Texts, Example: "LK7-0000483", Meaning: "Other numbers in this ledger from the same plant."},
	{Path: "shares_sheet", Kind: Texts, Example: "LK7-0000484", Meaning: "Other specimens mounted on the same sheet."},
	{Path: "images", Kind: Entries, Meaning: "Pictures of the specimen and of the living plant."},
	{Path: "images.file", Need: Required, DwC: "associatedMedia", Example: "images/LK7-0000482.jpg", Meaning: "A file of the ledger, a web address, or the address (file:///) of a file outside the ledger, which is never shown in public."},
	{Path: "images.shows", Need: Recommended, Example: "whole sheet", Meaning: "What is to be seen."},
	{Path: "images.photographer", Example: "Tiril Aune", Meaning: "Who took it."},
	{Path: "images.date", Example: "2026-03-02", Meaning: "When it was taken."},
	{Path: "images.licence", Example: "CC BY 4.0", Meaning: "Under which terms others may use it."},
	{Path: "images.checksum", Example: "sha256:e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855", Shape: shapeSum, ShapeWords: "sha256: and 64 figures from 0-9 and a-f", Meaning: "The checksum of the file."},
	{Path: "images.public", Example: "images/public/LK7-0000482.jpg", Meaning: "The copy that may be shown in public."},
	{Path: "images.safe", Example: "yes", Enum: []string{"yes"}, Meaning: "\"yes\" when it shows no label and no place, so that it may be published though the place is withheld."},
	{Path: "writings", Kind: Entries, Meaning: "Each label, tag, stamp and pencil note to the letter."},
	{Path: "writings.on_sheet", Example: "label", Meaning: "Which piece of writing it is, or where it stands."},
	{Path: "writings.text", Need: Required, Example: "Ran. acris, Raundal, 14/7 [?]", Withheld: true, Meaning: "Its words; [...] is unreadable, [?] doubtful."},
	{Path: "writings.hand", Example: "K. Moldstad", Meaning: "Whose hand it is, if known."},
	{Path: "remarks", DwC: "occurrenceRemarks", Example: "Mounted together with its seedlings.", Withheld: true, Meaning: "Whatever has no field of its own."},
	{Path: "read", Kind: Group, Meaning: "What a person reads in the words. A reading stands beside the words and never replaces them."},
	{Path: "read.date", Kind: Group, Meaning: "The date of collecting."},
	{Path: "read.country", Kind: Group, Meaning: "The country of today."},
	{Path: "read.person", Kind: Group, Meaning: "The collector."},
	{Path: "read.position", Kind: Group, Meaning: "The position, found on a map or by other means. It is never printed as the collector's."},
	{Path: "read.elevation", Kind: Group, Meaning: "The elevation."},
	{Path: "sic", Kind: Entries, Meaning: "Findings that somebody looked at and let stand."},
	{Path: "sic.code", Need: Required, Example: "date-two-ways", Meaning: "The code of the finding."},
	{Path: "sic.why", Need: Required, Example: "the label has it so", Meaning: meaningWhyLet},
	{Path: "sic.by", Need: Required, Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "sic.date", Need: Required, Example: "2026-11-05", Meaning: meaningDay},
	{Path: "checked", Kind: Group, Meaning: "The second reader, who compared the record with the label."},
	{Path: "checked.by", Need: Required, Example: "Ove Bannister", Meaning: meaningBy},
	{Path: "checked.date", Need: Required, Example: "2026-01-09", Meaning: meaningDay},
	{Path: "sensitive", Kind: Group, Meaning: "Why the exact place may not become public."},
	{Path: "sensitive.why", Need: Recommended, DwC: "informationWithheld", Example: "at risk from collecting", Meaning: meaningWhyLet},
	{Path: "sensitive.category", Need: Recommended, Example: "2", Enum: []string{"1", "2", "3", "4"}, Meaning: "1 most, 4 least sensitive."},
	{Path: "sensitive.review", Need: Recommended, Example: "2031", Meaning: "The year in which it is looked at again."},
	{Path: "sensitive.by", Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "sensitive.date", Example: "2026-11-05", Meaning: meaningDay},
	{Path: "sensitive.released", Kind: Group, Meaning: "That the place may become public again: it ends every mark that is not younger, on the record, its place and its names. The mark stays and is never taken out."},
	{Path: "sensitive.released.why", Need: Required, Example: "it was named wrongly at first", Meaning: meaningWhyLet},
	{Path: "sensitive.released.by", Need: Required, Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "sensitive.released.date", Need: Required, Example: "2031-02-01", Meaning: "When, as written. Without a date that can be read nothing is released."},
	{Path: "fate", Kind: Entries, AppendOnly: true, Meaning: "Each time the specimen was withdrawn or found again; the last one holds."},
	{Path: "fate.is", Need: Required, DwC: "disposition", Example: "lost", Enum: []string{"lost", "destroyed", "used-up", "exchanged", "transferred", "deaccessioned", "same-as", "mistake", "found"}, Meaning: "What became of it. mistake: a number typed wrongly, which no sheet ever bore."},
	{Path: "fate.to", Example: "Fjellheim Museum", Meaning: "Where it went, or with same-as the other number."},
	{Path: "fate.by", Need: Required, Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "fate.date", Need: Required, Example: "2026-11-05", Meaning: meaningDay},
	{Path: "fate.why", Need: Required, Example: "not in its folder at the inventory of 2026", Meaning: meaningWhyLet},
	{Path: "import", Kind: Pairs, DwC: "dynamicProperties", Example: "3 ex.", Withheld: true, Meaning: "Columns of an imported table that have no field of their own, each under its own name."},
})

// readValueFields are the fields of each reading below read.
var readValueFields = []Field{
	{Path: "is", Need: Required, Meaning: "What the person reads."},
	{Path: "uncertainty", Unit: "m", Example: "40 m", Meaning: "How far off it may be; for a position, metres."},
	{Path: "by", Need: Required, Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "date", Need: Required, Example: "2026-11-05", Meaning: "When the reading was made."},
	{Path: "from", Need: Recommended, Example: "field book, p. 12", Meaning: "What it was read from."},
	{Path: "why", Example: "the series before and after is of April", Meaning: "The grounds."},
}

// readIs has the Darwin Core term and an example for the value of each reading.
var readIs = []struct{ what, is, dwc, uncertainty, by, date, from, why string }{
	{"date", "1934-04-03", "eventDate", "", "", "", "", "eventRemarks"},
	{"country", "Norway", "country", "", "", "", "", "locationRemarks"},
	{"person", "Knut Moldstad", "recordedBy", "", "", "", "", ""},
	{"position", "60.7034, 6.6512", "verbatimCoordinates", "coordinateUncertaintyInMeters", "georeferencedBy", "georeferencedDate", "georeferenceSources", "georeferenceRemarks"},
	{"elevation", "348 m", "minimumElevationInMeters", "", "", "", "", "locationRemarks"},
}

// withReadings puts the fields of each reading after its group.
func withReadings(fs []Field) []Field {
	out := make([]Field, 0, len(fs)+len(readIs)*len(readValueFields))
	for _, f := range fs {
		out = append(out, f)
		for _, r := range readIs {
			if f.Path != "read."+r.what {
				continue
			}
			terms := []string{r.dwc, r.uncertainty, r.by, r.date, r.from, r.why}
			for i, v := range readValueFields {
				v.Path, v.DwC = f.Path+"."+v.Path, terms[i]
				if i == 0 {
					v.Example = r.is
				}
				v.Withheld = i <= 1 && (r.what == "position" || r.what == "elevation")
				out = append(out, v)
			}
		}
	}
	return out
}
