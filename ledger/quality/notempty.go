package quality

import "strings"

// notEmpty asks whether any of the terms acted upon says something.
func notEmpty(in *input) Response {
	for _, t := range in.test.ActedUpon {
		if !in.empty(t) {
			return compliant(t.String() + " says something")
		}
	}
	if len(in.test.ActedUpon) == 1 {
		return notCompliant(in.test.ActedUpon[0].String() + " is empty")
	}
	return notCompliant("all of them are empty")
}

// countryNotEmpty is notEmpty of country, but the high seas have none.
func countryNotEmpty(in *input) Response {
	switch {
	case !in.empty(dwcCountry):
		return compliant("dwc:country says something")
	case in.value(dwcCountryCode) == highSeas:
		return compliant("the high seas belong to no country")
	}
	return notCompliant("dwc:country is empty")
}

// issueNotEmpty raises an issue when the term says something.
func issueNotEmpty(in *input) Response {
	t := in.test.ActedUpon[0]
	if in.empty(t) {
		return Response{Status: Ran, Result: NotIssue, Comment: t.String() + " is empty"}
	}
	return Response{Status: Ran, Result: PotentialIssue, Comment: t.String() + " says something: look at it before use"}
}

// annotated raises an issue when the row comes with an annotation. There is no
// annotation system to ask, so only what stands in the row itself counts:
// bdqval:annotation or bdqval:annotationAlertIf, which is how the published
// validation data hand it over.
func annotated(in *input) Response {
	if system := in.parameter(bdqAnnotationSystem); system != "" && !strings.HasPrefix(system, "W3C Web Annotation") {
		return external("the annotation system " + system + " is not to be had here")
	}
	if given := in.parameter(bdqSourceAuthority); given != "" {
		return external("the source " + given + " is not to be had here")
	}
	there := false
	for _, t := range []Term{bdqAnnotation, bdqAnnotationAlertIf, oaHasTarget} {
		if !in.empty(t) {
			return Response{Status: Ran, Result: PotentialIssue, Comment: t.String() + " says something: read it before use"}
		}
		there = there || in.row.has[t]
	}
	if !there {
		return external("no annotation comes with the row, and no annotation system is to be had here")
	}
	return Response{Status: Ran, Result: NotIssue, Comment: "the row comes without annotation"}
}
