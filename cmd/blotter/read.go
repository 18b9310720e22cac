package main

import (
	"bufio"
	"context"
	"errors"
	"io"
	"strings"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/georeference"
	"blotter/ledger/reading"
)

// readKinds are the kinds of text that `blotter read` takes, and what reads
// each. Every reader has its file: read_date.go, read_position.go and so on.
var readKinds = []struct {
	kind, help string
	read       func(x *readDesk, text string) told
}{
	{"date", "when: 14.vii.1987, spring 1910, 3/4/1934", readDateText},
	{"position", "where, in figures: 60°42'12\"N 6°39'05\"E, a UTM or MGRS reference", readPositionText},
	{"elevation", "how high: 1200 ft., 500-600 m", readElevationText},
	{"name", "a plant's name with its authors and doubts", readNameText},
	{"collector", "who, and the collector's number: Rask & Bannister 1207", readCollectorText},
	{"place", "where, in words: a country, or 10 km NE of a place in places.yaml", readPlaceText},
}

func readCommand() *command {
	return &command{
		Name: "read", Family: famAsk, Synopsis: "KIND [TEXT]...",
		Says: "Shows how a text is taken: what is read in it, how sure that is, and what is doubtful.",
		Notes: []string{
			"Each TEXT is read by itself. Without any, every line of what is typed or piped in is, and with --json " +
				"each line gives one object: input, error (only when it could not be read), warnings, and by kind",
			"  date       first, last, edtf, readings",
			"  position   latitude, longitude, datum, uncertainty_m, parts, country, region, form",
			"  elevation  min_m, max_m, error_m",
			"  name       canonical, authorship, rank, qualifier, normal",
			"  collector  people, others, number",
			"  place      country, region, countries, latitude, longitude, uncertainty_m, parts, from",
			"Inside a ledger its settings, people.yaml and places.yaml are used; elsewhere there are none.",
		},
		Examples: []example{
			{"blotter read date 3/4/1934", "both days it may be, and how to settle it"},
			{`blotter read position "32V LN 615 300"`, "latitude and longitude, and how near"},
			{"blotter read name --json < names.txt", "one object for each line"},
		},
		Args:  []argument{{"KIND", readKindWords()}, {"TEXT", "what stands on the label; quote it"}},
		Flags: joinFlags([]*flag{flagDatum, flagOrder}, askFlags),
		Exits: []int{1},
		Kin:   []string{"check", "show", "new"},
		Kinds: readKindList(),
		Run:   runRead,
	}
}

func readKindList() []string {
	var kinds []string
	for _, k := range readKinds {
		kinds = append(kinds, k.kind)
	}
	return kinds
}

func readKindWords() string { return strings.Join(readKindList(), ", ") }

// told is what there is to say of one text.
type told interface {
	// object is what --json prints.
	object() any
	// lines are what is said on a screen, the first one the reading.
	lines() []string
	// unread reports whether the text could not be read.
	unread() bool
}

// readHead is what the objects of all kinds begin with.
type readHead struct {
	Input    string        `json:"input"`
	Error    string        `json:"error,omitempty"` // absent when read, and when words such as s.d. say that there is nothing
	Warnings []readWarning `json:"warnings"`
}

type readWarning struct {
	Code    string `json:"code"`
	Message string `json:"message"`
}

func headOf(input string) readHead {
	h := readHead{Input: input, Warnings: []readWarning{}}
	if strings.TrimSpace(input) == "" {
		h.Error = "nothing is written"
	}
	return h
}

func (h *readHead) warn(code, message string) {
	h.Warnings = append(h.Warnings, readWarning{code, message})
}

// refuse makes the first warning the reason why nothing was read.
func (h *readHead) refuse(otherwise string) {
	h.Error = otherwise
	if len(h.Warnings) > 0 {
		h.Error = h.Warnings[0].Message
	}
}

func (h *readHead) unread() bool { return h.Error != "" }

// linesWith are the lines of a reading: what is read, or why not, and then
// what else is doubtful.
func (h *readHead) linesWith(read string, more ...string) []string {
	if h.Error != "" {
		read = "not read: " + h.Error
	}
	out := append([]string{read}, more...)
	for _, w := range h.Warnings {
		if w.Message != h.Error {
			out = append(out, w.Message)
		}
	}
	return out
}

// readDesk is what a text is read by: the habits and files of the ledger we
// stand in, if any.
type readDesk struct {
	*call
	habits    reading.Conventions
	museum    *ledger.Museum          // nil outside a ledger
	gazetteer *georeference.Gazetteer // nil outside a ledger
	people    book.People
}

func runRead(_ context.Context, c *call) error {
	if len(c.args) == 0 {
		return misuse("read what kind of text: %s?", readKindWords()).try("blotter read date 3/4/1934")
	}
	var read func(*readDesk, string) told
	for _, k := range readKinds {
		if k.kind == c.args[0] {
			read = k.read
		}
	}
	if read == nil {
		return misuse("%q is no kind of text; the kinds are %s", c.args[0], readKindWords()).try("blotter read date 3/4/1934")
	}
	x, err := c.readDesk()
	if err != nil {
		return err
	}
	if texts := c.args[1:]; len(texts) > 0 {
		return x.answerTexts(texts, read)
	}
	return x.answerLines(read)
}

// answerTexts answers what was typed on the command line; a text that cannot
// be read is a finding.
func (x *readDesk) answerTexts(texts []string, read func(*readDesk, string) told) error {
	var failed bool
	for i, text := range texts {
		t := read(x, text)
		failed = failed || t.unread()
		if x.asksJSON() {
			if err := x.printJSON(t.object()); err != nil {
				return err
			}
			continue
		}
		if len(texts) > 1 {
			if i > 0 {
				x.say("")
			}
			x.say("%s", text)
		}
		for j, line := range t.lines() {
			indent := ""
			if j > 0 || len(texts) > 1 {
				indent = "  "
			}
			x.say("%s", hang(indent, line, x.Width))
		}
	}
	if failed {
		return errFindings
	}
	return nil
}

// answerLines answers every line of the input with one line, in order.
func (x *readDesk) answerLines(read func(*readDesk, string) told) error {
	in := bufio.NewReaderSize(x.In, 1<<16)
	out := bufio.NewWriterSize(x.Out, 1<<16)
	to := *x.env
	to.Out = out
	for {
		line, err := in.ReadString('\n')
		if err != nil && !errors.Is(err, io.EOF) {
			return stuck("read the input: %v", err)
		}
		if err != nil && line == "" {
			return out.Flush()
		}
		text := strings.ToValidUTF8(strings.TrimSuffix(strings.TrimSuffix(line, "\n"), "\r"), string(utf8.RuneError))
		t := read(x, text)
		if x.asksJSON() {
			if err := to.printJSON(t.object()); err != nil {
				return err
			}
		} else {
			to.say("%s: %s", text, strings.Join(t.lines(), "; "))
		}
		if in.Buffered() == 0 { // a person, or a program that waits, gets its answer at once
			if err := out.Flush(); err != nil {
				return err
			}
		}
	}
}
