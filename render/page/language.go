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
	NoneOnLabel, NotLegible, NotYetTyped, WithheldColon, NotRead string

	// Frame of every page.
	SkipLink, NavLabel, TrailLabel, JumpLabel                                     string
	Families, Collectors, Places, Years, AtoZ, WhatChanged, Search, SearchButton  string
	HowToRead, Data, Feed, AsMarkdown, AsJSON, FootShown, FootMadeFrom, FootLabel string
	SearchLabel, SearchHint, SearchNoScript, SearchNoHits, SearchHits, SearchNear string
	FiguresWord, Opens, OnSheet, InHand, FullSize, ImageOf                        string

	// Specimen page.
	SpecimenTitle, NotYetNamed, NotYetNamedFamily, NotYetNamedOrNumber                            string
	NamedSoBy, NamedSo, LabelNameBy, AgreedBy, QualifierLine, StandsByCurator                     string
	NamesGiven, NobodyNamed, TheLabel, ThePlace, SameGathering, Corrections, Cite                 string
	JumpNames, JumpLabelBlock, JumpPlace, JumpGathering, JumpCorrections, JumpCite                string
	OnTheLabel, Named, NamedAnew, Agrees, NamedNot, RenamedBar, Stands, Earlier, EnteredByMistake string
	Unsigned, NoDay, EnteredBy, EnteredNot, Before, SeenAs, PartWord, SourceWord, AtPlace         string
	ReadAs, ReadAsWithSpan, CouldNotReadName, ReadBy, Withdrawn, WithdrawnNotice, WithdrawnTo     string
	CautionWord, CautionTreated, CautionOwn, TypeOf, TypePossible, TypeSaid, WithheldWord         string
	WithheldNotice, WithheldNothing, WithheldReview, WithheldCategory, DisputedNotice, CoverName  string
	NoPosition, MapSmallRing, MapSentence, ChangedWithheld, Revision, CiteRevision, OldLabel      string
	CorrDay, CorrField, CorrBefore, CorrAfter, CorrReason, CorrBy, CorrCaption, NothingBefore     string
	Duplicates, SentTo, OnHand, FurtherSheets, SharesSheet, PartsTaken, SeenBy, NoReason          string
	LicenceLine, DataLine, StateLine                                                              string

	// Lists.
	SoNamedNow, SoNamedOnce, BearsNow, BearsOnce, BearsNone, NowName, WasName, PlaceWithheld      string
	TypeWord, DateNotKnown, ByYear, ByMonth, ByFamily, ByDecade, Sheets1, SheetsN, SheetsWord     string
	Year, Month, Decade, Family, Genera, NamesWord, NamedNoFurther, StatusAccepted, StatusSynonym string
	StatusNotListed, NamedByThem, CollectedHere, PartsOf, CollectorsHere, NumberSeries            string
	SpellingsMet, LifeYears, CollectedYears, Journeys, NoCollectorNumber, NowAt, NowAtTitle       string
	Front, FrontSentence, FrontEmpty, FrontOne, LastChanges, WaysIn, CiteAll, AllSheets           string
	MoreFamilies, ChartMost, ChartOne, NotFoundTitle, NotFoundText, Fall                          string
	KindNew, KindNamed, KindAgreed, KindCorrected, KindWithdrawn, KindAnnotated                   string

	Months    [12]string
	MonthsAbb [12]string
	And       string
	Kinds     map[string]string // words of fixed values: fate, type status, seen, basis
	FieldName map[string]string // names of record fields as shown, by dotted path
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
