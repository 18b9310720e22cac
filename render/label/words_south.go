package label

var french = Language{
	Code: "fr",
	Det:  "dét.", Conf: "conf.", NotThis: "non", As: "sous le nom", Indet: "indét.", DuplicateOf: "Double de {1}", Duplicate: "Double", Draft: "BROUILLON",
	With: "avec", Associates: "avec", On: "sur", Depth: "profondeur", PlantsSeen: "{1} plantes vues", PlantsTaken: "{1} prélevées",
	Cultivated: "cult.", Escaped: "échappé des cultures", Planted: "planté", OriginFrom: "origine :",
	Permit: "autorisation", Project: "projet", Fieldbook: "carnet {1}, p. {2}", FieldbookVol: "carnet {1}", FieldbookPag: "carnet, p. {1}", NumberWord: "n°",
	SheetOf: "Planche {1} sur {2}", PartOf: "étiquette {1} sur {2}",
	Caution:          "ATTENTION :",
	TreatedAssumed:   "vu son âge, probablement traité au poison : peut contenir du mercure ou de l’arsenic",
	TreatedPerhaps:   "peut-être traité au poison : peut contenir du mercure ou de l’arsenic",
	NotToBePublished: "lieu exact à ne pas publier",
	Transcript:       "Transcription de l’étiquette", TranscriptOf: "Transcription de l’étiquette de {1}", TypedBy: "saisie par {1}, {2}", TypedIn: "saisie {1}",
	Phenology:   map[string]string{"bud": "en bouton", "flower": "en fleur", "fruit": "en fruit", "seed": "en graine", "cones": "avec cônes", "spores": "avec spores", "capsules": "avec capsules", "sterile": "stérile"},
	Abundance:   map[string]string{"rare": "rare", "occasional": "occasionnel", "frequent": "fréquent", "common": "commun", "abundant": "abondant", "dominant": "dominant"},
	ElevationBy: map[string]string{"map": "carte", "gps": "GPS", "altimeter": "altimètre", "model": "modèle de terrain", "label": "étiquette"},
	Cautions: map[string]string{
		"toxic":            "toxique",
		"spiny":            "épineux",
		"treated, tested":  "traité au poison (testé) : peut contenir du mercure ou de l’arsenic",
		"treated, stamped": "traité au poison (tamponné) : peut contenir du mercure ou de l’arsenic",
		"treated, assumed": "supposé traité au poison : peut contenir du mercure ou de l’arsenic",
	},
}

var spanish = Language{
	Code: "es",
	Det:  "det.", Conf: "conf.", NotThis: "no", As: "como", Indet: "indet.", DuplicateOf: "Duplicado de {1}", Duplicate: "Duplicado", Draft: "BORRADOR",
	With: "con", Associates: "con", On: "sobre", Depth: "profundidad", PlantsSeen: "{1} plantas vistas", PlantsTaken: "{1} recolectadas",
	Cultivated: "cult.", Escaped: "escapada de cultivo", Planted: "plantada", OriginFrom: "origen:",
	Permit: "permiso", Project: "proyecto", Fieldbook: "libreta {1}, p. {2}", FieldbookVol: "libreta {1}", FieldbookPag: "libreta, p. {1}", NumberWord: "n.º",
	SheetOf: "Pliego {1} de {2}", PartOf: "etiqueta {1} de {2}",
	Caution:          "PRECAUCIÓN:",
	TreatedAssumed:   "por su edad, probablemente tratado con veneno: puede contener mercurio o arsénico",
	TreatedPerhaps:   "quizá tratado con veneno: puede contener mercurio o arsénico",
	NotToBePublished: "lugar exacto: no publicar",
	Transcript:       "Transcripción de la etiqueta", TranscriptOf: "Transcripción de la etiqueta de {1}", TypedBy: "escrita por {1}, {2}", TypedIn: "escrita {1}",
	Phenology:   map[string]string{"bud": "en botón", "flower": "en flor", "fruit": "en fruto", "seed": "con semillas", "cones": "con conos", "spores": "con esporas", "capsules": "con cápsulas", "sterile": "estéril"},
	Abundance:   map[string]string{"rare": "rara", "occasional": "ocasional", "frequent": "frecuente", "common": "común", "abundant": "abundante", "dominant": "dominante"},
	ElevationBy: map[string]string{"map": "mapa", "gps": "GPS", "altimeter": "altímetro", "model": "modelo del terreno", "label": "etiqueta"},
	Cautions: map[string]string{
		"toxic":            "tóxica",
		"spiny":            "espinosa",
		"treated, tested":  "tratado con veneno (comprobado): puede contener mercurio o arsénico",
		"treated, stamped": "tratado con veneno (sellado): puede contener mercurio o arsénico",
		"treated, assumed": "se supone tratado con veneno: puede contener mercurio o arsénico",
	},
}
