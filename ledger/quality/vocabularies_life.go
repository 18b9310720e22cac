package quality

import "strings"

var sexVocabulary = newVocabulary(vocabulary{values: []string{"Female", "Male", "Hermaphrodite", "Indeterminate", "Mixed"}}, func() map[string]string {
	return map[string]string{
		"Female":        "f|fem|fem.|females|♀|femelle|hembra|weiblich|weibchen|feminino|fêmea|hunn|hona|hun|femmina|vrouwelijk",
		"Male":          "m|males|♂|mâle|macho|männlich|männchen|masculino|hann|hane|han|maschio|mannelijk",
		"Hermaphrodite": "⚥|hermaphroditic|hermafrodita|zwitter|bisexual|hermaphrodites",
		"Indeterminate": "undetermined|indeterminado|indéterminé|indet.",
	}
})

// rankVocabulary: the ranks of the ICN (Art. 3, 4) and those that zoologists
// and students of viruses use beside them, from the highest down.
var rankVocabulary = newVocabulary(vocabulary{
	values: strings.Fields("domain realm subrealm superkingdom kingdom subkingdom infrakingdom superphylum phylum subphylum infraphylum parvphylum " +
		"division subdivision superclass class subclass infraclass parvclass subterclass supercohort cohort subcohort gigaorder magnorder grandorder " +
		"mirorder superorder order nanorder hypoorder minorder suborder infraorder parvorder megafamily grandfamily superfamily epifamily family " +
		"subfamily infrafamily supertribe tribe subtribe infratribe suprageneric supragenericname genus subgenus infragenus infragenericname supersection " +
		"section subsection superseries series subseries aggregate speciesaggregate species nothospecies infraspecificname grex subspecies nothosubspecies " +
		"convariety infrasubspecificname proles race natio aberration morph variety nothovariety subvariety form subform pathovar biovar chemovar " +
		"morphovar phagovar serovar chemoform formaspecialis cultivargroup cultivar strain other unranked"),
}, func() map[string]string {
	return map[string]string{
		"kingdom":    "regn.|regnum|reino|règne|reich",
		"phylum":     "phyl.|filo|stamm",
		"division":   "div.|divisio|división",
		"class":      "cl.|classis|clase|classe|klasse",
		"order":      "ord.|ordo|orden|ordre|ordem|ordnung",
		"family":     "fam.|familia|família|famille|familie",
		"subfamily":  "subfam.|subfamilia|sous-famille|unterfamilie",
		"tribe":      "trib.|tribus|tribu|tribo",
		"genus":      "gen.|género|genre|gênero|gattung|slekt|släkte|genera",
		"subgenus":   "subgen.|subg.|subgénero|sous-genre|untergattung",
		"section":    "sect.|sectio|sección|sektion",
		"series":     "ser.|serie|série",
		"species":    "sp.|spec.|especie|espèce|espécie|art|specie|soort",
		"subspecies": "subsp.|ssp.|subespecie|sous-espèce|subespécie|unterart|underart|infraspecies",
		"variety":    "var.|varietas|variedad|variété|variedade|varietät|varietet",
		"subvariety": "subvar.|subvarietas",
		"form":       "f.|fo.|forma|forme",
		"subform":    "subf.|subforma",
		"cultivar":   "cv.|cultivated variety|sorte",
		"convariety": "convar.|convarietas",
		"unranked":   "rankless|no rank",
	}
})

// typeVocabulary: the identifiers of the type status list, written with a
// capital as the standard's published answers have them; the list's own small
// letters are accepted.
var typeVocabulary = newVocabulary(vocabulary{
	values: strings.Fields("Allolectotype Alloneotype Allotype Cotype Epitype Exepitype Exholotype Exisotype Exlectotype Exneotype Exparatype Exsyntype Extype " +
		"Hapantotype Holotype Iconotype Isolectotype Isoneotype Isosyntype Isotype Lectotype Neotype Notatype OriginalMaterial Paralectotype Paraneotype " +
		"Paratype Plastoholotype Plastoisotype Plastolectotype Plastoneotype Plastoparatype Plastosyntype Plastotype SecondaryType SupplementaryType Syntype " +
		"Topotype Type TypeSpecies TypeGenus Isoepitype Isoparatype"),
	accepted: strings.Fields("allolectotype alloneotype allotype cotype epitype exepitype exholotype exisotype exlectotype exneotype exparatype exsyntype extype " +
		"hapantotype holotype iconotype isolectotype isoneotype isosyntype isotype lectotype neotype notatype originalmaterial paralectotype paraneotype " +
		"paratype plastoholotype plastoisotype plastolectotype plastoneotype plastoparatype plastosyntype plastotype secondarytype supplementarytype syntype " +
		"topotype type typeSpecies typeGenus"),
}, typeWords)

// typeWords are the Latin, Romance and German endings and the abbreviations
// of each type status: holotypus, holotipo, holotypen, holo.
func typeWords() map[string]string {
	m := map[string]string{"Type": "typus|typ|tipo|typen"}
	for _, stem := range strings.Fields("Allolecto Alloneo Allo Co Epi Hapanto Holo Icono Isolecto Isoneo Isosyn Iso Lecto Neo Paralecto Paraneo Para Syn Topo Isoepi Isopara") {
		value := stem + "type"
		m[value] = stem + "typus|" + stem + "tipo|" + stem + "typ|" + stem + "typen|" + stem + "types|" + stem
	}
	return m
}

// typeParts makes both tests of typeStatus, which look at the first word of
// each part between bars: isotype of NAME | type of NAME.
func typeStandard(in *input) Response {
	if in.empty(dwcTypeStatus) {
		return internal("dwc:typeStatus is empty")
	}
	v := in.value(dwcTypeStatus)
	if v != trim(v) {
		return notCompliant("blanks stand before or after dwc:typeStatus")
	}
	for part := range strings.SplitSeq(v, "|") {
		word, _, _ := strings.Cut(trim(part), " ")
		if !typeVocabulary.holds(word) {
			return notCompliant("\"" + word + "\" is no type status of the list" + didYouMean(typeVocabulary, word))
		}
	}
	return compliant("each part begins with a type status of the list")
}

// standardType proposes the list's spelling for the first word of each part.
func standardType(in *input) Response {
	if in.empty(dwcTypeStatus) {
		return internal("dwc:typeStatus is empty")
	}
	parts := strings.Split(trim(in.value(dwcTypeStatus)), "|")
	for i, part := range parts {
		word, rest, more := strings.Cut(trim(part), " ")
		if !typeVocabulary.holds(word) {
			value, ok := typeVocabulary.meant(strings.TrimRight(word, ":;,"))
			if !ok {
				return notAmended("\"" + word + "\" has no one meaning in the list")
			}
			word = value
		}
		if parts[i] = word; more {
			parts[i] += " " + trim(rest)
		}
	}
	proposed := strings.Join(parts, " | ")
	if len(parts) == 1 {
		proposed = parts[0]
	}
	if proposed == in.value(dwcTypeStatus) || typeStandard(in).Result == Compliant {
		return notAmended("dwc:typeStatus is as the list has it already")
	}
	return amended("each part begins with a type status of the list", Change{dwcTypeStatus, proposed})
}
