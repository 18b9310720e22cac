package quality

import (
	"strconv"
	"strings"
)

// Status is Response.status in the standard's words.
type Status string

// The statuses.
const (
	Ran        Status = "RUN_HAS_RESULT"
	Amended    Status = "AMENDED"
	FilledIn   Status = "FILLED_IN"
	NotAmended Status = "NOT_AMENDED"
	Internal   Status = "INTERNAL_PREREQUISITES_NOT_MET"
	External   Status = "EXTERNAL_PREREQUISITES_NOT_MET"
)

// Results of validations and issues.
const (
	Compliant      = "COMPLIANT"
	NotCompliant   = "NOT_COMPLIANT"
	PotentialIssue = "POTENTIAL_ISSUE"
	NotIssue       = "NOT_ISSUE"
	NotReported    = "NOT_REPORTED" // of a measure that did not run
)

// Change is one value that an amendment proposes.
type Change struct {
	Term  Term
	Value string
}

// Response is what a test says of a row. Result is a word for validations and
// issues, a number for measures, and for amendments a JSON object of term and
// proposed value, in the order in which the published answers have them.
type Response struct {
	Status  Status
	Result  string
	Comment string
	Changes []Change
}

// Proposes reports whether the response is an amendment that proposes a value.
func (r Response) Proposes() bool { return r.Status == Amended || r.Status == FilledIn }

func compliant(why string) Response { return Response{Status: Ran, Result: Compliant, Comment: why} }
func notCompliant(why string) Response {
	return Response{Status: Ran, Result: NotCompliant, Comment: why}
}
func internal(why string) Response   { return Response{Status: Internal, Comment: why} }
func external(why string) Response   { return Response{Status: External, Comment: why} }
func notAmended(why string) Response { return Response{Status: NotAmended, Comment: why} }

// complies is COMPLIANT or NOT_COMPLIANT, each with its reason.
func complies(ok bool, why, whyNot string) Response {
	if ok {
		return compliant(why)
	}
	return notCompliant(whyNot)
}

func amended(why string, changes ...Change) Response {
	return Response{Status: Amended, Result: object(changes), Comment: why, Changes: changes}
}

func filledIn(why string, changes ...Change) Response {
	return Response{Status: FilledIn, Result: object(changes), Comment: why, Changes: changes}
}

func measured(n int, why string) Response {
	return Response{Status: Ran, Result: strconv.Itoa(n), Comment: why}
}

// object writes changes as a JSON object.
func object(changes []Change) string {
	var b strings.Builder
	b.WriteByte('{')
	for i, c := range changes {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteString(`"` + c.Term.String() + `":`)
		writeJSON(&b, c.Value)
	}
	b.WriteByte('}')
	return b.String()
}

// writeJSON writes s as a JSON string; letters stay as they are.
func writeJSON(b *strings.Builder, s string) {
	b.WriteByte('"')
	for _, c := range strings.ToValidUTF8(s, "\ufffd") {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c < ' ':
			b.WriteString(`\u00`)
			b.WriteByte("01"[c>>4])
			b.WriteByte("0123456789abcdef"[c&15])
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
}
