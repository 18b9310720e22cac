package quality

// assumedStatus proposes a default where neither a status nor a count stands.
// The expected response of the standard begins with a prerequisite that its
// own published answers do not use: a status that stands is NOT_AMENDED there.
func assumedStatus(in *input) Response {
	for _, t := range []Term{dwcOccurrenceStatus, dwcIndividualCount, dwcOrganismQuantity} {
		if !in.empty(t) {
			return notAmended(t.String() + " is not empty")
		}
	}
	assumed := in.parameter(bdqDefaultOccurrenceStatus)
	return filledIn(assumed+" is assumed", Change{dwcOccurrenceStatus, assumed})
}
