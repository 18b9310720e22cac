package label

import (
	"strconv"
	"strings"
)

// Language is the fixed words of one language: all that stands on paper and
// is not a value of the record. {1}, {2} are filled by Fill. A new kind of
// paper adds its words here and to every table; a test asks for them.
type Language struct {
	Code string // BCP 47

	// Opinions.
	Det, Conf, NotThis, Indet string
	As                        string // "det. A, as NAME": the name was another then
	Duplicate, Draft          string
	DuplicateOf               string // {1} the number whose duplicate it is

	// The gathering.
	With         string // of other collectors: "with Ove Bannister"
	Associates   string // "with Trollius europaeus"
	On           string // substrate or host: "on Betula pubescens"
	Depth        string // "depth 0.8 m"
	PlantsSeen   string // of population: "60 plants seen"
	PlantsTaken  string
	Cultivated   string // "cult."
	Escaped      string
	Planted      string
	OriginFrom   string // "from cuttings from Mølster, 2019"
	Permit       string // "permit 2025/118"
	Project      string
	Fieldbook    string // {1} volume, {2} page
	FieldbookVol string // {1} volume, no page
	FieldbookPag string // {1} page, no volume
	NumberWord   string // "no." of an exsiccata

	// Parts.
	SheetOf string // "Sheet 1 of 2"
	PartOf  string // of a label in several parts: "label 1 of 2"

	// Cautions and what is not public.
	Caution          string // "CAUTION:"
	NotToBePublished string

	// Slips, type labels and labels of exsiccatae.
	NotLookedAt, DeterminedAs           string // of a changed name; "determined as NAME"
	NoSource                            string // of a changed name: nobody, no day and no source is on record
	FromPicture, FromDuplicate, FromDNA string // what the determiner looked at, when it was not the sheet
	TypeOf, PossibleType                string // "ISOTYPE of NAME"; {1} the status
	VerifiedBy                          string // "verified by M. Ostrander"
	SaidOnLabel, SeenInPicture          string // how a type is known
	SuspectedOnly, NotVerified          string
	EditedBy, Fascicle                  string // {1} the fascicle

	// Folders and packets.
	Cabinet, Folder         string // {1} its name, its number
	SheetsOne, SheetsMany   string // {1} how many
	NotYetNamed             string // of a cover: the sheets have no name
	GenusUnknown            string // they are named to the family
	NotToSpecies            string // they are named to the genus
	FamilyUnknown           string
	CultivatedOnes, TypesIn string // what a folder holds
	FragmentsOf             string // {1} the number: what a packet holds

	// Transcripts.
	Transcript   string // "Transcript of the label"
	TranscriptOf string // {1} year
	TypedBy      string // {1} person, {2} year
	TypedIn      string // {1} year: nobody is named

	// Fixed values of a record in words; what is not here stands as written.
	Phenology   map[string]string
	Abundance   map[string]string
	ElevationBy map[string]string
	Cautions    map[string]string
	Acts        map[string]string // kinds of annotations
}

// Languages are those that papers can speak, by code.
var languages = map[string]*Language{
	"en": &english, "nb": &norwegian, "sv": &swedish, "de": &german, "fr": &french, "es": &spanish, "la": &latin,
}

// LanguageCodes are the codes of all languages, English first.
var LanguageCodes = []string{"en", "nb", "sv", "de", "fr", "es", "la"}

// LanguageOf is the language of a code such as "nb" or "en-GB"; English where
// the code is none of LanguageCodes ("no" and "nn" are taken as nb).
func LanguageOf(code string) *Language {
	code, _, _ = strings.Cut(strings.ToLower(strings.TrimSpace(code)), "-")
	if code == "no" || code == "nn" {
		code = "nb"
	}
	if l := languages[code]; l != nil {
		return l
	}
	return &english
}

// Colon and Semicolon are the marks behind words; in French a no-break space
// stands before them (common practice of French printers, from memory).
func (l *Language) Colon() string     { return l.behind(":") }
func (l *Language) Semicolon() string { return l.behind(";") }

func (l *Language) behind(mark string) string {
	if l.Code == "fr" {
		return "\u00a0" + mark
	}
	return mark
}

// Fill puts args in the places {1}, {2}, ... of a text of the table.
func Fill(text string, args ...string) string {
	for i, a := range args {
		text = strings.ReplaceAll(text, "{"+strconv.Itoa(i+1)+"}", a)
	}
	return text
}
