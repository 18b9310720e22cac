package quality

// countValidations makes the measure that counts the validations of the row
// with certain answers.
func countValidations(why string, counts func(Response) bool) func(*input) Response {
	return func(in *input) Response {
		n, run := 0, 0
		for i, r := range in.so {
			if in.suite.tests[i].Type == Validation {
				run++
				if counts(r) {
					n++
				}
			}
		}
		if run == 0 {
			return Response{Status: Internal, Result: NotReported, Comment: "no validation was run"}
		}
		return measured(n, why)
	}
}

func hasResult(result string) func(Response) bool {
	return func(r Response) bool { return r.Status == Ran && r.Result == result }
}

func prerequisitesNotMet(r Response) bool { return r.Status == Internal || r.Status == External }

// amendmentsProposed counts the amendments that propose a value.
func amendmentsProposed(in *input) Response {
	n := 0
	for i, r := range in.so {
		if in.suite.tests[i].Type == Amendment && r.Proposes() {
			n++
		}
	}
	return measured(n, "amendments propose a value")
}
