package quality

import "strings"

// The lists below are facts: the values of published vocabularies, in their
// order, and other words for them. Sources: the DCMI Type Vocabulary of
// 2010-10-11; TDWG, rs.tdwg.org commit 82f166e (establishmentMeans,
// degreeOfEstablishment, pathway; labels with synonyms are theirs); Darwin Core
// list of terms of 2026-05-26 (classes, for basisOfRecord); rs.gbif.org commit
// 93c0996 (basis_of_record, occurrence_status, type_status). Values of the
// vocabularies of sex and taxon rank, and other words without a source beside
// them, are from memory.

var dcmiVocabulary = newVocabulary(vocabulary{
	values: strings.Fields("Collection Dataset Event Image InteractiveResource MovingImage PhysicalObject Service Software Sound StillImage Text"),
}, func() map[string]string {
	return map[string]string{
		"Collection": dcmi("Collection"), "Dataset": dcmi("Dataset"), "Event": dcmi("Event"), "Image": dcmi("Image"),
		"InteractiveResource": dcmi("InteractiveResource"), "MovingImage": dcmi("MovingImage"), "PhysicalObject": dcmi("PhysicalObject"),
		"Service": dcmi("Service"), "Software": dcmi("Software"), "Sound": dcmi("Sound"), "StillImage": dcmi("StillImage"), "Text": dcmi("Text"),
	}
})

// dcmi are the addresses of a DCMI type.
func dcmi(name string) string {
	return "http://purl.org/dc/dcmitype/" + name + "|https://purl.org/dc/dcmitype/" + name + "|dcmitype:" + name + "|dctype:" + name
}

// basisVocabulary holds the classes of Darwin Core by their names; MaterialCitation
// and the kinds of specimen and observation are classes too.
var basisVocabulary = newVocabulary(vocabulary{
	values: strings.Fields("PreservedSpecimen FossilSpecimen LivingSpecimen MaterialSample MaterialEntity MaterialCitation HumanObservation MachineObservation " +
		"Occurrence Organism Event Taxon Identification GeologicalContext MeasurementOrFact ResourceRelationship Location"),
}, func() map[string]string {
	return map[string]string{
		"PreservedSpecimen":  "Espécime Preservado|Espécimen preservado|保存標本|preserved specimens|preserved spec.|herbarium specimen|http://rs.tdwg.org/dwc/dwctype/PreservedSpecimen",
		"FossilSpecimen":     "Espécime Fóssil|Espécimen fósil|化石標本|http://rs.tdwg.org/dwc/dwctype/FossilSpecimen",
		"LivingSpecimen":     "Espécime Vivo|Espécimen vivo|生体標本|http://rs.tdwg.org/dwc/dwctype/LivingSpecimen",
		"HumanObservation":   "Observação por Humano|Observación humana|人による観察|http://rs.tdwg.org/dwc/dwctype/HumanObservation",
		"MachineObservation": "Observação por Máquina|Observación con máquina|機械観測|http://rs.tdwg.org/dwc/dwctype/MachineObservation",
		"MaterialSample":     "Amostra|Muestra|試料|Sample|http://rs.tdwg.org/dwc/dwctype/MaterialSample",
		"Occurrence":         "Ocorrência|オカレンス|http://rs.tdwg.org/dwc/dwctype/Occurrence",
		"Taxon":              "http://rs.tdwg.org/dwc/dwctype/Taxon",
	}
})

// statusVocabulary: detected and notDetected are the words of Darwin Core
// since 2026 for the same two values.
var statusVocabulary = newVocabulary(vocabulary{values: []string{"present", "absent"}}, func() map[string]string {
	return map[string]string{
		"present": "1|detected|presence|extant|presente|présent|http://rs.gbif.org/vocabulary/gbif/occurrence_status/present",
		"absent":  "0|not detected|absence|ausente|http://rs.gbif.org/vocabulary/gbif/occurrence_status/absent",
	}
})

var meansVocabulary = newVocabulary(vocabulary{
	values: strings.Fields("native nativeReintroduced introduced introducedAssistedColonisation vagrant uncertain nativeEndemic"),
	iri:    "http://rs.tdwg.org/dwcem/values/", concept: "e",
}, func() map[string]string {
	return map[string]string{
		"native":                         "indigenous|native (indigenous)",
		"nativeReintroduced":             "native: reintroduced|reintroduced",
		"introduced":                     "alien|exotic|non-native|nonindigenous|introduced (alien, exotic, non-native, nonindigenous)",
		"introducedAssistedColonisation": "introduced: assisted colonisation|assisted colonisation|assisted colonization|introducedAssistedColonization",
		"vagrant":                        "casual|vagrant (casual)",
		"uncertain":                      "unknown|cryptogenic|uncertain (unknown, cryptogenic)",
		"nativeEndemic":                  "native: endemic|endemic",
	}
})

// degreeVocabulary: managed, unestablished and spreading are the groups above
// the TDWG values in the second vocabulary that the standard names as
// authority (from memory; published validation data take spreading).
var degreeVocabulary = newVocabulary(vocabulary{
	values:   strings.Fields("native captive cultivated released failing casual reproducing established colonising invasive widespreadInvasive"),
	accepted: []string{"managed", "unestablished", "spreading"},
	iri:      "http://rs.tdwg.org/dwcdoe/values/", concept: "d",
}, func() map[string]string {
	return map[string]string{
		"native":             "native (category A)|category A",
		"captive":            "captive (category B1)|category B1|in captivity",
		"cultivated":         "cultivated (category B2)|category B2|in cultivation",
		"released":           "released (category B3)|category B3",
		"failing":            "failing (category C0)|category C0",
		"casual":             "casual (category C1)|category C1",
		"reproducing":        "reproducing (category C2)|category C2",
		"established":        "established (category C3)|category C3|naturalised|naturalized",
		"colonising":         "colonising (category D1)|category D1|colonizing",
		"invasive":           "invasive (category D2)|category D2",
		"widespreadInvasive": "widespread invasive (category E)|category E|widespread invasive",
		"managed":            "managed", "unestablished": "unestablished", "spreading": "spreading",
	}
})

var pathwayVocabulary = newVocabulary(vocabulary{
	values: strings.Fields("biologicalControl erosionControl fisheryInTheWild hunting landscapeImprovement conservationOrWildlifeManagement releasedForUse " +
		"otherIntentionalRelease agriculture aquacultureMariculture publicGardenZooAquaria pet farmedAnimals forestry fur horticulture ornamentalNonHorticulture " +
		"research liveFoodLiveBait otherEscape contaminantNursery contaminateBait foodContaminant contaminantOnAnimals parasitesOnAnimals contaminantOnPlants " +
		"parasitesOnPlants seedContaminant timberTrade transportationHabitatMaterial fishingEquipment containerBulk hitchhikersAirplane hitchhikersShip " +
		"machineryEquipment people packingMaterial ballastWater hullFouling vehicles otherTransport waterwaysBasinsSeas tunnelsBridges naturalDispersal " +
		"releaseInNature escapeFromConfinement transportContaminant transportStowaway corridor unaided intentional unintentional corridorAndDispersal"),
	iri: "http://rs.tdwg.org/dwcpw/values/", concept: "p",
}, func() map[string]string {
	return map[string]string{
		"agriculture":                   "agriculture (including biofuel feedstocks)",
		"publicGardenZooAquaria":        "botanic garden/zoo/aquaria|botanic garden/zoo/aquaria (excluding domestic aquaria)|botanic garden",
		"pet":                           "pet/aquarium/terrarium species|pet/aquarium/terrarium species (including live food for such species)",
		"farmedAnimals":                 "farmed animals (including animals left under limited control)",
		"forestry":                      "forestry (including reforestation)",
		"fur":                           "fur farms",
		"ornamentalNonHorticulture":     "ornamental purpose other than horticulture",
		"research":                      "research and ex-situ breeding|research and ex-situ breeding (in facilities)",
		"liveFoodLiveBait":              "live food and live bait",
		"otherEscape":                   "other escape from confinement",
		"contaminantNursery":            "contaminant nursery material",
		"contaminateBait":               "contaminated bait|contaminant bait",
		"foodContaminant":               "food contaminant (including of live food)",
		"contaminantOnAnimals":          "contaminant on animals (except parasites, organisms transported by host/vector)",
		"parasitesOnAnimals":            "parasites on animals (including organisms transported by host and vector)",
		"contaminantOnPlants":           "contaminant on plants (except parasites, species transported by host/vector)",
		"parasitesOnPlants":             "parasites on plants (including species transported by host and vector)",
		"transportationHabitatMaterial": "transportation of habitat material|transportation of habitat material (soil, vegetation, wood etc)",
		"fishingEquipment":              "angling/fishing equipment",
		"hitchhikersAirplane":           "hitchhikers in or on airplane",
		"hitchhikersShip":               "hitchhikers on ship/boat|hitchhikers on ship/boat (excluding ballast water and hull fouling)",
		"people":                        "people and their luggage/equipment|people and their luggage/equipment (in particular tourism)",
		"packingMaterial":               "organic packing material|organic packing material, in particular wood packaging",
		"ballastWater":                  "ship/boat ballast water",
		"hullFouling":                   "ship/boat hull fouling",
		"vehicles":                      "vehicles (car, train, etc.)",
		"otherTransport":                "other means of transport",
		"waterwaysBasinsSeas":           "interconnected waterways/basins/seas",
		"tunnelsBridges":                "tunnels and land bridges",
		"naturalDispersal":              "natural dispersal across borders of invasive alien organisms",
		"transportContaminant":          "contaminant|transport – contaminant",
		"transportStowaway":             "stowaway|transport – stowaway",
		"corridorAndDispersal":          "corridor and dispersal",
	}
})
