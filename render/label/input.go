package label

import (
	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

// Input is a record and all else that its papers need.
type Input struct {
	Record  *ledger.Record
	Reading *reading.Reading
	Museum  *ledger.Museum // name and code
	Habits  ledger.Habits  // of the museum, WithStandard applied

	// Family is what the record says, or names/ of its name; "" unknown.
	Family string
	// Known is what names/ says of the name that is shown: its authors, where
	// the words have none, and its family; "" unknown. nil: there is no names/.
	Known func(words string) (authors, family string)
	// On is the day whose name is shown; 0: as the settings say.
	On dates.Day
	// Withheld says that the exact place may not become public, by the
	// record's own mark or the name's.
	Withheld bool
	// Sheet i of Sheets: when the specimen is mounted on several; 0: one only.
	Sheet, Sheets int
	// Draft prints what is not ready, with DRAFT across.
	Draft bool
	// Copy marks a label for a duplicate.
	Copy bool
	// Issued makes it the label of an exsiccata, the same for every set; nil:
	// the label of the specimen.
	Issued *ledger.IssuedSeries
	// Typist and Typed are who typed the record and in which year, for the
	// heading of a transcript; "" and 0: not known.
	Typist string
	Typed  int
}

// Number is the specimen's.
func (in *Input) Number() ledger.Number { return ledger.Number(in.Record.Specimen.Text) }
