package exchange

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// What a heading can stand for besides a field of the record.
const (
	asLatitude  = "latitude"
	asLongitude = "longitude"
	asDay       = "day"
	asMonth     = "month"
	asYear      = "year"
	asName      = "name" // of the plant
	asGenus     = "genus"
	asEpithet   = "epithet"
	asAuthors   = "authors"
	asBy        = "by" // who named it
	asNamed     = "named"
	asWhy       = "why"
	asSheetNo   = "sheet number"
	asKey       = "key"
	asLowest    = "lowest"
	asHighest   = "highest"
	asZone      = "zone"
	asEasting   = "easting"
	asNorthing  = "northing"
)

// meaning is what a column of a heading usually holds.
type meaning struct {
	is    string // a field or one of the words above
	unit  string
	first bool // before other columns of the same meaning: words as written before those worked over
	read  bool // a reading beside the words of another column
}

// darwinCore are the terms of the Darwin Core list of 2026-05-26 that have a
// home in a record, by their names folded.
var darwinCore = map[string]meaning{
	"recordedby": {is: "collector"}, "recordnumber": {is: "coll_no"},
	"verbatimeventdate": {is: "date", first: true}, "eventdate": {is: "date", read: true}, "eventremarks": {is: "read.date.why"},
	"year": {is: asYear}, "month": {is: asMonth}, "day": {is: asDay},
	"country": {is: "place.country", first: true}, "countrycode": {is: "place.country"}, "stateprovince": {is: "place.province"}, "county": {is: "place.district", first: true}, "municipality": {is: "place.district"},
	"verbatimlocality": {is: "place.locality", first: true}, "locality": {is: "place.locality"},
	"verbatimcoordinates": {is: "place.position", first: true}, "decimallatitude": {is: asLatitude, read: true}, "decimallongitude": {is: asLongitude},
	"geodeticdatum": {is: "place.datum"}, "coordinateuncertaintyinmeters": {is: "place.uncertainty", unit: "m"},
	"verbatimelevation": {is: "place.elevation", first: true}, "minimumelevationinmeters": {is: asLowest, unit: "m"}, "maximumelevationinmeters": {is: asHighest}, "verbatimdepth": {is: "depth"},
	"habitat": {is: "habitat"}, "associatedtaxa": {is: "associates"}, "organismremarks": {is: "description"}, "reproductivecondition": {is: "phenology"},
	"preparations": {is: "kept_as"}, "individualcount": {is: "population"}, "projecttitle": {is: "project"},
	"catalognumber": {is: asSheetNo}, "othercatalognumbers": {is: "further_numbers"}, "occurrenceid": {is: asKey},
	"verbatimidentification": {is: asName, first: true}, "verbatimscientificname": {is: asName, first: true}, "scientificname": {is: asName}, "previousidentifications": {is: asName},
	"identifiedby": {is: asBy}, "dateidentified": {is: asNamed}, "identificationremarks": {is: asWhy}, "family": {is: "family"}, "genus": {is: asGenus}, "specificepithet": {is: asEpithet},
	"occurrenceremarks": {is: "remarks"}, "degreeofestablishment": {is: "origin"},
}

// everyday are headings as people write them, folded, in English, German,
// French, Spanish, Italian, Portuguese, Dutch, Norwegian, Danish and Swedish: common practice, no source.
var everyday = merge(map[string]string{
	"collector":         "collector collectors coll collectedby leg legit sammler finder gesammeltvon legitsammler collecteur recolteur recoltepar colector colectores recolector colectadopor recolectadopor samler innsamler samletav innsamletav funnetav finner insamlare insamladav raccoglitore legitore raccoltoda verzamelaar verzamelddoor coletor coletores coletadopor colhidopor indsamler indsamletaf insamlatav",
	"with":              "with cocollectors addcoll additionalcollectors mit mitsammler avec con sammenmed medsamler tillsammansmed e met en com medsamlere",
	"coll_no":           "collectionnumber collectornumber collectorno collno collectionno collectorsnumber fieldnumber fieldno sammelnummer sammelnr sammlernummer feldnummer feldnr numerocollecteur numeroderecolte norecolte numerodecolector nocolector nodecolecta ndecolecta nodecolector numerodecolecta innsamlingsnummer innsamlingsnr samlernummer samlernr feltnummer feltnr insamlingsnummer collnr collectorsno numerodiraccolta numeroraccolta nraccolta nodiraccolta verzamelnummer collectienummer collectienr numerodecoleta numerocoleta nocoleta ndecoleta numerodocoletor indsamlingsnummer indsamlingsnr insamlingsnr fieldnumbers",
	"date":              "date datecollected collectiondate collectingdate datum funddatum sammeldatum datumdesfundes funddat datederecolte datecollecte fecha fechadecolecta fechaderecoleccion fechacolecta dato funndato innsamlingsdato samledato fundetdato insamlingsdatum data datadiraccolta dataraccolta verzameldatum vinddatum datumverzameld datadecoleta datacoleta datadecolheita indsamlingsdato fynddatum datumforfynd",
	"place.country":     "country land pays pais staat paese stato nazione landet",
	"place.province":    "state province region bundesland kanton provinz departement etat provincia estado fylke landsdel landskap regione provincie gewest amt lan",
	"place.district":    "district landkreis kreis bezirk gemeinde commune arrondissement municipio comuna kommune herred kommun comune gemeente concelho distrito herad socken sogn fylkeskommun",
	"place.locality":    "locality location place site fundort fundstelle lokalitat ort ortsangabe localite lieu lieuderecolte station localidad lugar sitio lokalitet sted funnsted stedsnavn voksested finnested findested findesteder lokal fyndplats fyndort localita luogo luogodiraccolta vindplaats vindplaatsomschrijving plaats locatie localidade local sitiodecoleta findsted",
	"place.position":    "coordinates coordinate position latlong latlon koordinaten koordinate coordonnees coordenadas koordinater koordinat utm mgrs gridreference gridref rutenett coordinaten coordinaat",
	"place.datum":       "geodeticdatum kartendatum kartdatum datumgeodesique datumgeodesico geodatisk",
	"place.uncertainty": "uncertainty coordinateuncertainty accuracy unscharfe genauigkeit prazision precision incertitude incertidumbre noyaktighet presisjon koordinatpresisjon noggrannhet incertezza precisione onzekerheid nauwkeurigheid incerteza precisao usikkerhed nojagtighed osakerhet",
	"place.elevation":   "elevation elev elevm elevft elevationm elevationft altitude alt altitudem hohe hohem hoehe meereshohe seehohe hohenlage hoheunn hohemunn hohemnn hoehemunn hoehemnn meereshohem mun m unn mnn altitud altura alturam altitudm elevacion hoyde hoydem moh hoh hoydeoverhavet hojd hojdm quota altitudine quotam altitudinem hoogte hoogtem zeehoogte hojde hojdem hojdoverhavet mohavet",
	"habitat":           "habitat standort biotop lebensraum milieu biotope ecologie ecologia ambiente okologi naturtype vokseplass biotopp vaxtplats stazione ambientehabitat standplaats biotoop ambientes levested vaxtmiljo",
	"substrate":         "substrate substrat substrato soil boden sol suelo jordbunn underlag geology geologie suolo bodem ondergrond jordbund jordman",
	"host":              "host wirt wirtspflanze hote hospedero hospedante vert vertsplante ospite piantaospite gastheer waardplant hospedeiro vaert vaertsplante vardvaxt",
	"associates":        "associates association associatedspecies begleitarten begleitflora begleitpflanzen especesassociees plantesassociees especiesasociadas ledsagere folgearter foljearter specieassociate begeleidendesoorten especiesassociadas ledsagearter",
	"description":       "description beschreibung descripcion beskrivelse beskrivning planthabit habitus descrizione beschrijving omschrijving descricao",
	"phenology":         "phenology phanologie phenologie fenologia fenologi floweringfruiting fenologie bloei",
	"abundance":         "abundance haufigkeit abondance frequence abundancia frecuencia mengde hyppighet hyppighed abbondanza frequenza talrijkheid frequencia",
	"remarks":           "remarks notes note comments comment bemerkungen bemerkung anmerkung anmerkungen notiz notizen remarques observations commentaires notas observaciones comentarios merknad merknader merknadar kommentar kommentarer bemerkninger anmarkning anteckningar osservazioni annotazioni opmerkingen opmerking aantekeningen observacoes notasobservacoes bemaerkninger bemaerkning",
	"family":            "family familie famille familia familj famiglia famili",
	"accession":         "accession accessionnumber accessionno zugangsnummer akzession numerodentree numeroingreso tilvekst tilvekstnummer aksesjon aksesjonsnummer journalnummer numerodiingresso aanwinstnummer numerodeentrada accessionsnummer tilgangsnummer",
	"former_herbarium":  "formerherbarium exherb exherbarium ausherbar herbierdorigine herbariodeorigen fraherbarium",
	"project":           "project projekt projet proyecto prosjekt progetto projeto",
	"permit":            "permit genehmigung permis permiso tillatelse tillstand permesso autorizzazione vergunning licenca autorizacao",
	"further_numbers":   "oldnumber formernumber othernumbers altenummer frureenummer frueherenummer anciennumero numeroantiguo gammeltnummer gammeltnr gmlnr tidligerenummer numerovecchio vecchionumero oudnummer numeroantigo tidligerenr gammaltnummer",
	asLatitude:          "latitude lat breite breitengrad geographischebreite latitud bredde breddegrad nordbredde latitudine verbatimlatitude breedtegraad breedte breddgrad",
	asLongitude:         "longitude lon long lng lange laenge langengrad laengengrad geographischelange longitud lengde lengdegrad ostlengde verbatimlongitude langd longitudine lengtegraad lengte langdgrad laengdegrad",
	asZone:              "utmzone zone sone utmsone zona huso utmfeld",
	asEasting:           "easting utmeast utme ost rechtswert utmost ostverdi este oest",
	asNorthing:          "northing utmnorth utmn nord hochwert utmnord nordverdi norte",
	asDay:               "tag jour dia dag giorno dias",
	asMonth:             "monat mois mes maned manad manednr mese maand maaned",
	asYear:              "jahr annee ano aar ar anno jaar aarstal artal",
	asName:              "name names taxon taxa species speciesname plantname scientificnames latinname latin determination determinations identification identifications earliernames earlierdeterminations pflanzenname artname wissenschaftlichername lateinischername wissname bestimmung bestimmungen nom nomscientifique nomlatin espece taxonnom nombre nombrecientifico especie artsnavn latinsknavn vitenskapelignavn vitskapelegnamn navn namn art bestemmelse bestemmelser latinsktnavn vetenskapligtnamn taxonname nomescientifico nomelatino specie nome wetenschappelijkenaam latijnsenaam soort soortnaam naam plantnaam nomecientifico videnskabeligtnavn artensnamn artnamn determinazione determinazioni determinatie determinacao",
	asGenus:             "gattung genre genero slekt slegt slakte geslacht genere slaegt slakt genera",
	asEpithet:           "epithet artepithet epithete epiteto artsepitet epitetospecifico soortepitheton specifiekepitheton specificepithet artepitet speciesepithet",
	asAuthors:           "author authors authority scientificnameauthorship autor autoren auteur auteurs autores autorer forfatter auktor autore autori auteursnaam autoresdonome auktorer autornavn",
	asBy:                "determiner determinedby det detby detr identifier bestimmer bestimmtvon determinavit determinateur determinepar identifiepar determinador determinadopor identificadopor bestemtav bestemmer bestemmerav bestemdav detav bestvon bestav bestimmtdurch determinatore determinatoda determinatodal identificatoda gedetermineerddoor determinator gedetdoor bestamdav bestemtaf determinadorpor",
	asNamed:             "detdate datedet determinationdate datedetermined identificationdate bestimmungsdatum detdatum bestimmtam datededetermination datedetermination fechadeterminacion fechadedeterminacion fechaidentificacion bestemtdato bestemmelsesdato detdato bestdato datadideterminazione datadeterminazione determinatiedatum datadedeterminacao datadeterminacao bestamningsdatum bestemmelsesdag detdata",
	asWhy:               "detnotes determinationremarks detremarks",
	asSheetNo:           "barcode sheetno sheetnumber specimenno specimennumber cataloguenumber catalogueno museumnumber museumno herbariumno herbariumnumber inventorynumber inventoryno inventarnummer inventarnr katalognummer katalognr herbarnummer herbarnr belegnummer belegnr strichcode numerodinventaire noinventaire numerocatalogue numerodeherbier codebarres numerodecatalogo numerodeinventario numerodeherbario codigodebarras arknummer arknr katalognummerark museumsnummer museumsnr herbarienummer herbarienr strekkode streckkod inventarienummer numerodinventario numerodicatalogo codiceabarre inventarisnummer catalogusnummer herbariumnummer registratienummer numerodetombo tombo numerodocatalogo herbarienummerark herbariet stregkode",
	asKey:               "id uuid guid recordid no nr number runningno runningnumber lfdnr laufendenummer nummer numero num n lopenr lopenummer numerocorrelativo lopnr nprogressivo progressivo numeroprogressivo volgnummer volgnr numerodeordem lobenr lobenummer",
})

// merge turns lists of headings into one table.
func merge(lists map[string]string) map[string]string {
	all := map[string]string{}
	for is, heads := range lists {
		for _, h := range strings.Fields(heads) {
			all[h] = is
		}
	}
	return all
}

// meaningOf is what a heading usually means; false when it is not known. A
// Darwin Core term is known with its prefix or address too.
func meaningOf(head string) (meaning, bool) {
	local := head
	if strings.Contains(head, "://") || strings.HasPrefix(head, "dwc:") || strings.HasPrefix(head, "dcterms:") {
		local = head[strings.LastIndexAny(head, "/#:")+1:]
	}
	if m, ok := darwinCore[fold(local)]; ok {
		return m, true
	}
	bare, unit := unitIn(head)
	for _, h := range []string{fold(head), fold(bare)} {
		if is, ok := everyday[h]; ok {
			m := meaning{is: is, unit: unit}
			if unit == "" && (strings.HasPrefix(h, "moh") || strings.HasPrefix(h, "hoh") || strings.HasSuffix(h, "nn")) {
				m.unit = "m"
			}
			return m, true
		}
	}
	return meaning{}, false
}

// unitIn takes a unit off the end of a heading: Elev_(ft.), Höhe [m], Alt. m.
func unitIn(head string) (bare, unit string) {
	words := strings.FieldsFunc(head, func(r rune) bool { return strings.ContainsRune(" _()[].,", r) })
	if len(words) < 2 {
		return head, ""
	}
	last := len(words) - 1
	switch strings.ToLower(words[last]) {
	case "m", "meter", "metres", "meters", "metre", "mètres", "metros":
		unit = "m"
	case "ft", "feet", "fuß", "fuss":
		unit = "ft"
	default:
		return head, ""
	}
	return strings.Join(words[:last], " "), unit
}

// fold keeps the letters and figures of a heading, in lower case and without
// their marks.
func fold(s string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(strings.ToLower(s)) {
		switch {
		case r == 'ø':
			b.WriteByte('o')
		case r == 'æ':
			b.WriteString("ae")
		case r == 'ß':
			b.WriteString("ss")
		case r == '#' || r == '№' || r == 'º' && strings.HasPrefix(strings.ToLower(s), "n"):
			b.WriteString("no") // Coll#, Nº
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		}
	}
	return b.String()
}
