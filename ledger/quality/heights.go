package quality

// heightInRange makes the test whether an elevation lies between two
// parameters.
func heightInRange(t Term) func(*input) Response {
	return func(in *input) Response {
		v, ok := number(in.value(t))
		if !ok {
			return internal(emptyOr(in, t, "is no number"))
		}
		ok, span := in.within(v, bdqMinimumValidElevation, bdqMaximumValidElevation)
		return complies(ok, t.String()+" is in "+span, t.String()+" is not in "+span)
	}
}

// depthInRange makes the same test of a depth, which is never negative.
func depthInRange(t Term) func(*input) Response {
	return func(in *input) Response {
		v, ok := number(in.value(t))
		if !ok || v < 0 {
			return internal(emptyOr(in, t, "is no number from 0 up"))
		}
		ok, span := in.within(v, bdqMinimumValidDepth, bdqMaximumValidDepth)
		return complies(ok, t.String()+" is in "+span, t.String()+" is not in "+span)
	}
}

// elevationsInOrder asks whether the minimum is not above the maximum.
func elevationsInOrder(in *input) Response {
	lo, okLo := number(in.value(dwcMinimumElevation))
	hi, okHi := number(in.value(dwcMaximumElevation))
	if !okLo || !okHi {
		return internal("dwc:minimumElevationInMeters or dwc:maximumElevationInMeters is empty or no number")
	}
	return complies(lo <= hi, "the minimum is not above the maximum", "the minimum elevation is above the maximum")
}

// depthsInOrder asks whether the minimum is not below the maximum in the
// water.
func depthsInOrder(in *input) Response {
	lo, okLo := number(in.value(dwcMinimumDepth))
	hi, okHi := number(in.value(dwcMaximumDepth))
	if !okLo || !okHi || lo < 0 || hi < 0 {
		return internal("dwc:minimumDepthInMeters or dwc:maximumDepthInMeters is empty or no number from 0 up")
	}
	return complies(lo <= hi, "the minimum is not more than the maximum", "the minimum depth is more than the maximum")
}
