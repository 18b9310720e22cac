package page

import (
	"strconv"
	"strings"
)

// Language is the table of fixed words of one language: everything that the
// site says which is not a value. A text with {1}, {2} is filled by Fill.
type Language struct {
	Code string // BCP 47, for the lang attribute

	// The five absences.
	NoneOnLabel, NotLegible, NotYetTyped, WithheldColon, NotRead, WithheldReason string

	// The frame of every page.
	SkipLink, NavLabel, TrailLabel, JumpLabel, FootLabel, Families, Collectors, Places string
	Years, AtoZ, WhatChanged, Search, SearchButton, HowToRead, Data, Feed              string
	AsMarkdown, AsJSON, FootShown, FootShownDay, FootSheets                            string

	// Search.
	SearchLabel, SearchHint, SearchNoScript, SearchNoHits, SearchHits string

	// Blocks.
	FiguresWord, OnSheet, InHand, FullSize, ImageOf, PhotographBy string

	// Specimen: opening.
	SpecimenTitle, DetAs, NamedAsBy, NamedAs, NotYetNamed, NotYetNamedFamily, NamedSoBy, NamedSo, RenamedSince, FiledBy, AgreedBy, QualifierLine string
	QualifierAs, CoverName, Withdrawn, JumpLabelBlock, JumpPlace, JumpGathering, JumpCite, Name1                                                 string
	NameN                                                                                                                                        string

	// Specimen: notices.
	CautionWord, CautionOwn, CautionTreated, CautionPerhaps, CautionPoison, WithdrawnWord, TypeNoticeWord, TypeOf, TypePossible                                                                                                                        string
	TypeSaid, DisputedNotice, DisputedOpen, WithheldWord, WithheldNothing, StaffOnlyWord, StaffOnly, StaffMark, StaffMarkName, WithheldSquare, WithheldNoPlace, PicturesHeld1, PicturesHeldN, SizeOf, WithheldReview, WithheldCategory, NotNamedStands string

	// Specimen: names.
	NamesGiven, NobodyNamed, OnTheLabel, Named, NamedAnew, NamedAgain, Agrees, NamedNot, LeftUnnamed                                           string
	RenamedBar, InListSince, Stands, Earlier, OfDuplicate, MistakeWord, EnteredByMistake, Unsigned, NoDay, DayWithheld, EnteredBy, EnteredByOn string
	Before, SeenAs, PartWord, SourceWord, AfterSource, CouldNotReadName, Year1, YearN                                                          string
	Month1, MonthN, Day1, DayN                                                                                                                 string

	// Specimen: label.
	TheLabel, ReadAs, ReadBy, ReadFrom, NumberColon, DatumColon, With, Volume, PageWord string
	Fascicle, NoWord, About                                                             string

	// Specimen: place.
	ThePlace, NoPosition, NoMapWithheld, MapSquareOf, MapSquareSmall, SquareUncertain, MapHeldSquares, ShownAsSquare, ShownAsYear, LabelWords, MapSentenceError, MapRingSmall, MapErrorUnknown, MapErrorLarge                                string
	MapErrorCircle, MapMany, MapRest, MapSquares, NoPlaceWords, MorePlaces, MapHeading, MIDSLevel, MIDSNone, MIDSLacks, MIDSFigures, MIDSAt, MIDSBelow, Journeys, PlaceMiddle, PlaceExtent, HistoryCut, Place1, PlaceN, Reckoned, NotCounted string

	// Specimen: gathering, corrections, cite.
	SameGathering, Duplicates, MadeWord, SentTo, OnHand, TheirNumber, FurtherSheets, SharesSheet                                                 string
	Corrections, CorrDay, CorrField, CorrBefore, CorrAfter, CorrReason, CorrBy, CorrCaption                                                      string
	NothingBefore, NoReason, DecidedReason, ChangedWithheld, FieldWithheld, MoreCorrections, Revision, Cite, SpecimenWord, CiteRevision, CiteDay string
	LicenceLine                                                                                                                                  string

	// Lists.
	SoNamedNow, SoNamedOnce, NamedNoFurther, BearsNow1, BearsNow, BearsOnce1, BearsOnce, BearsNone                                             string
	BoreOnce, FormerOnly, WasName, RenamedRow, RenamedSinceRow, SinceYear, PlaceWithheldRow, PlaceWithheldTail, TypeWord, DateNotKnown, FromTo string
	Sheets1, SheetsN, SheetsWord, HeldCount, PlacesWithheldWord, NamesWord, Genera, Genus1                                                     string
	GenusN, InGenera, Synonyms, StatusAccepted, StatusSynonym, StatusNotListed, ByYear, ByMonth, ByNumber, NumbersOf                           string
	ByFamily, Year, Month, Decade, ChartMost, ChartNone, ChartEven, ChartUnknown                                                               string

	// People, places, years.
	NumberSeries, SeriesYear, SeriesOne, SeriesBack, CollectedByThem, NamedByThem, InTheParty, EarlierByThem string
	EarlierN, PartyN, SpellingsMet, LifeYears, BornYear, DiedYear, CollectedN, CollectedYears                string
	NamesStand, NamedN, PartsOf, CollectedHere, CollectorsHere, FromHere, FromHere1, CollectedThatYear       string
	InAll                                                                                                    string

	// Front and what changed.
	LastChanges, WaysIn, OwnPages, CiteAll, AllSheets, FrontEmpty, NamesInFamilies, Family1              string
	FamilyN, Collector1, CollectorN, AnewThisYear, NotYetPublished, More1, MoreN, MoreFamilies           string
	KindNew, KindNamed, KindAgreed, KindCorrected, KindAnnotated, KindWithdrawn, NothingChanged, Change1 string
	ChangeN, EventNamed, EventAgreed, EventNew, NotFoundTitle, NotFoundText, NowAt, NowAtTitle           string

	// How to read, data.
	HowVoices, HowDate, HowDay, HowStands, HowRenamed, HowEarlier, HowAbsences, HowPhrase              string
	HowNone, HowIllegible, HowUntyped, HowWithheld, HowUnread, HowNamesSet, HowNames, DataJSON         string
	Download, DataArchive, DataBytes, DataSum, DataCite, DataMarkdown, DataFeed, DataSitemap, DataSite string

	Months    [12]string
	MonthsAbb [12]string
	And       string

	Kinds      map[string]string // words of fixed values: fates, what was seen, sources, notes
	MIDS       map[string]string // information elements of MIDS by their names in the standard
	Ranks      map[string]string // rank markers, and "genus", "species", as the thing they name
	Qualifiers map[string]string // what a qualifier usually means; {1} is the thing it doubts
	FieldName  map[string]string // fields of the record as shown, by dotted path
}

// Kind is a fixed value of a record in words; a value that the table does not
// have stands as it is.
func (l *Language) Kind(value string) string {
	if w, ok := l.Kinds[value]; ok {
		return w
	}
	return value
}

// Fill puts args in the places {1}, {2}, ... of a text of the table.
func Fill(text string, args ...string) string {
	if !strings.Contains(text, "{") {
		return text
	}
	for i, a := range args {
		text = strings.ReplaceAll(text, "{"+strconv.Itoa(i+1)+"}", a)
	}
	return text
}

// FillParts puts parts in the places {1}, {2}, ... of a text of the table.
func FillParts(text string, args ...[]Part) []Part {
	var out []Part
	for text != "" {
		i := strings.IndexByte(text, '{')
		if i < 0 || i+2 >= len(text) || text[i+2] != '}' {
			return append(out, Said(text))
		}
		if i > 0 {
			out = append(out, Said(text[:i]))
		}
		if n := int(text[i+1] - '1'); n >= 0 && n < len(args) {
			out = append(out, args[n]...)
		}
		text = text[i+3:]
	}
	return out
}

// Number writes n with a comma between thousands.
func Number(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0 && s[i-1] != '-'; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// Count is "1 sheet" or "14 sheets".
func Count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return Number(n) + " " + many
}
