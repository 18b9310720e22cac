package treatment

import (
	"fmt"
	"time"
)

// Options are what Read cannot know from the file.
type Options struct {
	Zone    *time.Location // of times without an offset; nil is UTC
	Channel string         // the core's heading, a part of it, or its place among the channels from 1; "" lets the headings say
	Order   Order          // of dates in figures; AsWritten lets the log say
	Unit    Unit           // where the file says none
	// Comma says that of a table with commas between its cells and in its
	// figures, -30,5 is one figure; the reader sees it by the headings, if there
	// are any.
	Comma bool
	// Humidity reads the column of relative humidity in place of temperatures:
	// the readings' C are per cent then.
	Humidity bool
}

// Note is what was done with the file that somebody may want to know. Line is
// 0 when it is about all of it.
type Note struct {
	Line  int
	Words string
}

// Log is what a logger's file says.
type Log struct {
	Readings []Reading // in order of time, of the core; the warmest of several at one moment
	Channels []Channel // all columns of temperatures
	Core     []Channel // those that the readings are of
	Charset  string
	Order    Order // of dates in figures
	Missing  int   // rows without a reading: gaps, if they last
	Rows     int
	Notes    []Note
}

// LogError says where a file cannot be read and what to do.
type LogError struct {
	Line, Col int // from 1; 0 when it is about the whole file
	Words     string
	Hint      string // what to type or to mend
}

func (e *LogError) Error() string {
	at := "logger file: "
	if e.Line > 0 {
		at = fmt.Sprintf("logger file, line %d: ", e.Line)
		if e.Col > 0 {
			at = fmt.Sprintf("logger file, line %d, column %d: ", e.Line, e.Col)
		}
	}
	if e.Hint == "" {
		return at + e.Words
	}
	return at + e.Words + "; " + e.Hint
}

// noted bounds the notes about single lines.
const noted = 20

// Read reads the table of a temperature logger: cells parted by semicolons,
// tabs, commas, bars or blanks; decimal points or commas; date and time in one
// column or two, by year, month and day in any order, months in letters, 12 or
// 24 hours; °C or °F by heading, cell or a line before the table; lines of any
// kind before, between and after the rows; UTF-8, UTF-16 or Windows-1252.
//
// Several channels: the one wanted, else the one whose heading says core, else
// at each moment the warmest, which is the safe one. A row in which a channel
// that otherwise reads is missing is a missing reading: the warmest is not known.
//
// Dates in figures are read in the order in which they run as time does; when
// both orders do, the error says both. Without a unit figures are °C, the safe
// one as those of °F are higher down to -40; with any below that it is an error.
// Every error is a *LogError.
func Read(data []byte, o Options) (Log, error) {
	r := reader{o: o}
	var text string
	text, r.log.Charset = decode(data)
	r.lines = lines(text)
	if r.o.Zone == nil {
		r.o.Zone = time.UTC
	}
	for _, step := range []func() *LogError{r.open, r.columns, r.rowsOf, r.times} {
		if err := step(); err != nil {
			return Log{}, err
		}
	}
	return r.log, nil
}

type reader struct {
	o     Options
	log   Log
	lines []string
	l     layout
	first int // the first row, counted from 0
	names []string
	// paired: figures with a comma in a table with commas are two cells.
	paired bool
	sample [][]string
	// counted are the columns before the time that count rows: what has no
	// figure there is a line of the summary.
	counted []int
	rows    []row
	zoned   int32 // offset that the heading says, in seconds
	heads   bool  // it says one
	guessed bool  // nothing says the unit
}

func (r *reader) note(line int, format string, args ...any) {
	r.log.Notes = append(r.log.Notes, Note{line, fmt.Sprintf(format, args...)})
}
