package quality

import (
	"fmt"
	"strings"

	"blotter/ledger/dates"
)

// Suite is a choice of tests with the values of their parameters.
type Suite struct {
	tests    []*Test
	today    dates.Day
	defaults Row // parameters given for all rows
	counts   bool
}

// NewSuite makes a suite of the tests, in the order given; none means all.
// Parameters are values for all rows by the name of the parameter
// (bdqval:earliestValidDate or earliestValidDate); a column of that name in a
// row goes before. An error names what is no parameter.
func NewSuite(tests []*Test, parameters map[string]string, today dates.Day) (*Suite, error) {
	if len(tests) == 0 {
		tests = all
	}
	s := &Suite{tests: tests, today: today}
	for name, value := range parameters {
		t, ok := TermOf("bdqval:" + strings.TrimPrefix(name, "bdqval:"))
		if !ok || !t.Parameter() {
			return nil, fmt.Errorf("read parameter %s: no test has it", name)
		}
		s.defaults.Set(t, value)
	}
	for _, t := range tests {
		s.counts = s.counts || t.Type == Measure
	}
	return s, nil
}

// Tests are the tests of the suite, in order.
func (s *Suite) Tests() []*Test { return s.tests }

// Run runs every test on a row and appends their responses to out, in order.
// The measures that count other responses count those of this call.
func (s *Suite) Run(row *Row, out []Response) []Response {
	start := len(out)
	in := input{row: row, suite: s}
	for _, t := range s.tests {
		in.test = t
		out = append(out, in.respond())
	}
	if s.counts {
		in.so = out[start:]
		for i, t := range s.tests {
			if t.Type == Measure {
				in.test = t
				in.so[i] = in.respond()
			}
		}
	}
	return out
}

// Run runs one test on a row with the standard's parameters, or those in the
// row.
func Run(t *Test, row *Row, today dates.Day) Response {
	s := Suite{tests: []*Test{t}, today: today, counts: t.Type == Measure}
	return s.Run(row, nil)[0]
}

// input is one row as one test sees it.
type input struct {
	row   *Row
	suite *Suite
	test  *Test
	so    []Response // of all tests of the suite, for the measures that count them
}

// respond runs the test. What the row lacks is said before what the world
// lacks: an authority that is not to be had matters only to a row that could
// be tested.
func (in *input) respond() Response {
	r := in.test.run(in)
	a := in.test.Authority
	if a == nil || a.Service || r.Status == Internal {
		return r
	}
	if given := in.parameter(bdqSourceAuthority); given != "" && !a.is(given) {
		return external("the source authority " + given + " is not to be had here")
	}
	return r
}

// value is what the row says under a term, as it stands.
func (in *input) value(t Term) string { return in.row.values[t] }

// empty reports whether the row says nothing under a term.
func (in *input) empty(t Term) bool { return empty(in.row.values[t]) }

// parameter is the value of a parameter: the row's, else the one given for all
// rows, else the standard's default, else "".
func (in *input) parameter(t Term) string {
	if v := in.row.values[t]; !empty(v) {
		return trim(v)
	}
	if v := in.suite.defaults.values[t]; !empty(v) {
		return trim(v)
	}
	for _, p := range in.test.Parameters {
		if p.Name == t {
			return p.Default
		}
	}
	return ""
}
