package check

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Settings are the thresholds of the rules: `checks:` of blotter.yaml, each
// by the name of its field in ledger.Checks. A new one takes a field there
// with its row in the table below it, a field here, and its default with the
// source in Standard; decode, FORMAT.md and caches follow.
//
// Of the sources, [BDQ] is the draft TDWG standard of tests of Biodiversity
// Data Quality: the default of the test named.
type Settings struct {
	NewFrom           float64   // year from which on rules for new material (NewOnly) hold
	CountryBuffer     float64   // metres outside a country or province
	CentreRadius      float64   // metres from a country's centre
	SamePositions     float64   // localities to one position
	ElevationMin      float64   // metres
	ElevationMax      float64   // metres
	DepthMax          float64   // metres
	UncertaintyMin    float64   // metres
	UncertaintyMax    float64   // metres
	GatheredFrom      dates.Day //
	DeterminedFrom    dates.Day //
	NamesFrom         dates.Day //
	FirstAge          float64   // years
	Speed             float64   // kilometres an hour
	SpeedEarly        float64   // kilometres an hour, before SpeedFrom
	SpeedFrom         float64   // year from which on Speed holds
	TravelHours       float64   // hours
	NeighbourDays     float64   // kilometres
	NumberOrder       float64   // days
	PileUp            float64   // times the expected share
	SeasonSheets      float64
	SeasonMonths      float64 // months
	IdleYears         float64 // years
	SpellingDistance  float64 // letters
	SynonymYears      float64 //
	UndeterminedYears float64 //

	// OneIn is habits.collecting.one_in: of how many plants seen one may be
	// taken; 0: not asked.
	OneIn float64
}

// Standard is what holds where a museum says nothing.
func Standard() Settings {
	return Settings{
		NewFrom:           2001,                      // our choice: since May 2000 hand-held receivers give metres (from memory), so a label of today has no reason to lack a datum
		CountryBuffer:     3000,                      // [BDQ] VALIDATION_COORDINATESCOUNTRYCODE_CONSISTENT
		CentreRadius:      5000,                      // [BDQ] ISSUE_COORDINATES_CENTEROFCOUNTRY
		SamePositions:     10,                        // our choice, no source
		ElevationMin:      -430,                      // [BDQ] VALIDATION_MINELEVATION_INRANGE
		ElevationMax:      8850,                      // [BDQ] VALIDATION_MAXELEVATION_INRANGE
		DepthMax:          11000,                     // [BDQ] VALIDATION_MAXDEPTH_INRANGE
		UncertaintyMin:    3,                         // Chapman & Wieczorek, Georeferencing Best Practices (2020), ch. 2: devices show 2-4 m under an open sky
		UncertaintyMax:    20037509,                  // [BDQ] VALIDATION_COORDINATEUNCERTAINTY_INRANGE: half the equator
		GatheredFrom:      dates.DayOf(1582, 11, 15), // [BDQ] VALIDATION_EVENTDATE_INRANGE
		DeterminedFrom:    dates.DayOf(1753, 1, 1),   // [BDQ] VALIDATION_DATEIDENTIFIED_INRANGE
		NamesFrom:         dates.DayOf(1753, 5, 1),   // International Code of Nomenclature (Shenzhen, 2018), Art. 13.1: 1 May 1753
		FirstAge:          10,                        // common practice, no source
		Speed:             80,                        // common practice, no source: by road; 20 on foot or by boat
		SpeedEarly:        20,                        // common practice, no source: on foot or by boat
		SpeedFrom:         1900,                      // our choice, no source
		TravelHours:       8,                         // our choice, no source
		NeighbourDays:     1000,                      // common practice, no source
		NumberOrder:       1,                         // common practice, no source
		PileUp:            3,                         // common practice, no source
		SeasonSheets:      20,                        // our choice, no source
		SeasonMonths:      3,                         // our choice, no source
		IdleYears:         20,                        // our choice, no source
		SpellingDistance:  2,                         // common practice, no source
		SynonymYears:      5,                         // common practice, no source
		UndeterminedYears: 10,                        // common practice, no source
		OneIn:             oneIn(&ledger.Museum{}),   // ledger/standard.yaml says from where
	}
}

// SettingsOf are a museum's thresholds. A value that cannot be read counts as
// not given; Decode has a finding for it.
func SettingsOf(m *ledger.Museum) Settings {
	s := Standard()
	given, to := reflect.ValueOf(m.Checks), reflect.ValueOf(&s).Elem()
	for i := range to.NumField() {
		field := given.FieldByName(to.Type().Field(i).Name)
		if !field.IsValid() {
			continue // a habit
		}
		l := field.Interface().(ledger.Leaf)
		words := strings.TrimSpace(l.Text)
		switch p := to.Field(i).Addr().Interface().(type) {
		case *float64:
			if v, err := strconv.ParseFloat(words, 64); err == nil {
				*p = v
			}
		case *dates.Day:
			if r := dates.Read(words, dates.Ask); r.Known() && r.First == r.Last {
				*p = r.First
			}
		}
	}
	s.OneIn = oneIn(m)
	return s
}

// oneIn is a museum's habits.collecting.one_in; 0 when it cannot be read.
func oneIn(m *ledger.Museum) float64 {
	n, _ := strconv.ParseFloat(ledger.WithStandard(m).Collecting.OneIn.Text, 64)
	return n
}

// Key is a text that differs whenever a setting does.
func (s *Settings) Key() string { return fmt.Sprint(*s) }

// newDay is the day from which on rules for new material hold.
func (s *Settings) newDay() dates.Day { return dates.DayOf(int(s.NewFrom), 1, 1) }
