package main

import (
	"bufio"
	"context"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"strconv"
	"strings"

	"blotter/ledger/archive"
	"blotter/ledger/dates"
	"blotter/ledger/quality"
)

func qualityCommand() *command {
	return &command{
		Name: "quality", Family: famAsk, Synopsis: "FILE",
		Says: "Runs the TDWG data quality tests on the rows of a table or an archive.",
		Notes: []string{
			"FILE is CSV, TSV or a Darwin Core archive (zip or folder) whose headings are Darwin Core terms, with or without their prefix; - reads what is piped in. No ledger is needed and nothing is changed: an amendment only proposes.",
			"--format csv gives one line for each row and test, with the columns row, Label, Response.status, Response.result and Response.comment; json the same as one object a line. Without it a summary says what to mend. Tests that need a taxonomic service answer EXTERNAL_PREREQUISITES_NOT_MET.",
		},
		Examples: []example{
			{"blotter quality occurrence.txt", "what to mend, most rows first"},
			{"blotter quality archive.zip --tests VALIDATION_EVENTDATE_STANDARD,AMENDMENT_EVENTDATE_STANDARDIZED --format csv", "each answer of two tests"},
			{"blotter quality sheets.csv --param bdqval:earliestValidDate=1700-01-01", "with another limit"},
		},
		Args:  []argument{{"FILE", "the table or archive"}},
		Flags: joinFlags([]*flag{flagTests, flagParam}, askFlags),
		Kin:   []string{"check", "import", "read"}, Complete: "files",
		Run: runQuality,
	}
}

func runQuality(ctx context.Context, c *call) error {
	if len(c.args) != 1 {
		return misuse("which file? One at a time").try("blotter quality occurrence.txt")
	}
	suite, labels, err := c.qualitySuite()
	if err != nil {
		return err
	}
	format, err := c.qualityFormat()
	if err != nil {
		return err
	}
	rows, err := c.qualityRows(c.args[0])
	if err != nil {
		return err
	}
	defer rows.Close()
	columns := quality.ColumnsOf(rows.Heads)
	if columns.Known() == 0 {
		return misuse("no column of %s is a Darwin Core term that a test looks at", c.args[0]).try("Headings are wanted such as eventDate, dwc:eventDate or http://rs.tdwg.org/dwc/terms/eventDate; the file has: " + strings.Join(rows.Heads, ", "))
	}
	out := bufio.NewWriterSize(c.Out, 64<<10)
	switch format {
	case "csv":
		err = qualityCSV(ctx, suite, labels, rows, columns, out)
	case "json":
		err = c.qualityJSON(ctx, suite, labels, rows, columns, out)
	default:
		tally := quality.NewTally(suite)
		err = suite.Stream(ctx, columns, rows.Read, func(row *quality.Row, line int, rs []quality.Response) error {
			tally.Add(row, line, rs)
			return nil
		})
		if err == nil {
			c.qualitySummary(tally, columns.Known())
		}
	}
	if err = errors.Join(err, out.Flush()); err != nil && ctx.Err() == nil {
		return stuck("%v", err)
	}
	return err
}

// qualityRows opens the file; - is standard input.
func (c *call) qualityRows(name string) (*archive.Rows, error) {
	if name == "-" {
		rows, err := archive.OpenText("standard input", io.NopCloser(c.In))
		if err != nil {
			return nil, stuck("%v", err)
		}
		return rows, nil
	}
	rows, err := archive.OpenRows(inDir(c.Dir, name))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, stuck("there is no file %s", name)
	case err != nil:
		return nil, stuck("%v", err)
	}
	return rows, nil
}

// qualitySuite is the tests and parameters that were typed, and the label of
// each test: the standard's, or the one of an earlier draft that was typed.
func (c *call) qualitySuite() (*quality.Suite, []string, error) {
	asked := map[*quality.Test]string{}
	var tests []*quality.Test
	for _, list := range c.opts.list("tests") {
		for label := range strings.SplitSeq(list, ",") {
			if label = strings.TrimSpace(label); label == "" {
				continue
			}
			t, ok := quality.TestOf(label)
			if !ok {
				return nil, nil, unknownTest(label)
			}
			if tests = append(tests, t); !strings.EqualFold(label, t.Label) {
				asked[t] = label
			}
		}
	}
	params := map[string]string{}
	for _, p := range c.opts.list("param") {
		name, value, ok := strings.Cut(p, "=")
		if !ok {
			return nil, nil, misuse("--param %s lacks =; for example bdqval:earliestValidDate=1700-01-01", p)
		}
		params[name] = value
	}
	y, m, d := c.Now().Date()
	suite, err := quality.NewSuite(tests, params, dates.DayOf(y, int(m), d))
	if err != nil {
		return nil, nil, misuse("%v", err)
	}
	labels := make([]string, len(suite.Tests()))
	for i, t := range suite.Tests() {
		if labels[i] = t.Label; asked[t] != "" {
			labels[i] = asked[t]
		}
	}
	return suite, labels, nil
}

func unknownTest(label string) error {
	var labels []string
	for _, t := range quality.Tests() {
		labels = append(labels, strings.ToLower(t.Label))
	}
	f := misuse("no test has the label %q", label)
	if near := nearest(label, labels); near != "" {
		f = misuse("no test has the label %q; did you mean %s?", label, strings.ToUpper(near))
	}
	return f.try("The labels are those of the TDWG standard, such as VALIDATION_EVENTDATE_STANDARD.")
}

func (c *call) qualityFormat() (string, error) {
	switch f := c.opts.text("format"); {
	case c.opts.on("json"):
		return "json", nil
	case f == "":
		return "text", nil
	case contains([]string{"text", "csv", "json"}, f):
		return f, nil
	default:
		return "", misuse("--format %s is not known; it is one of text, csv, json", f)
	}
}

// qualityCSV writes one line for each row and test.
func qualityCSV(ctx context.Context, suite *quality.Suite, labels []string, rows *archive.Rows, columns quality.Columns, out io.Writer) error {
	w := csv.NewWriter(out)
	if err := w.Write([]string{"row", "Label", "Response.status", "Response.result", "Response.comment"}); err != nil {
		return err
	}
	n := 0
	err := suite.Stream(ctx, columns, rows.Read, func(_ *quality.Row, _ int, rs []quality.Response) error {
		n++
		number := strconv.Itoa(n)
		for i, r := range rs {
			if err := w.Write([]string{number, labels[i], string(r.Status), r.Result, r.Comment}); err != nil {
				return err
			}
		}
		return nil
	})
	w.Flush()
	return errors.Join(err, w.Error())
}

// answerJSON is one response as --format json prints it.
type answerJSON struct {
	Row     int               `json:"row"`
	Label   string            `json:"Label"`
	Status  quality.Status    `json:"Response.status"`
	Result  string            `json:"Response.result,omitempty"`
	Comment string            `json:"Response.comment,omitempty"`
	Changes map[string]string `json:"changes,omitempty"`
}

// qualityJSON writes one object a line for each row and test.
func (c *call) qualityJSON(ctx context.Context, suite *quality.Suite, labels []string, rows *archive.Rows, columns quality.Columns, out io.Writer) error {
	to := *c.env
	to.Out = out
	n := 0
	return suite.Stream(ctx, columns, rows.Read, func(_ *quality.Row, _ int, rs []quality.Response) error {
		n++
		for i, r := range rs {
			a := answerJSON{Row: n, Label: labels[i], Status: r.Status, Result: r.Result, Comment: r.Comment}
			for _, change := range r.Changes {
				if a.Changes == nil {
					a.Changes = map[string]string{}
				}
				a.Changes[change.Term.String()] = change.Value
			}
			if err := to.printJSON(a); err != nil {
				return err
			}
		}
		return nil
	})
}
