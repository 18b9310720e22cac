package quality

import "math"

// degreesInRange makes the test whether a coordinate is a number up to most
// degrees either way.
func degreesInRange(t Term, most float64, span string) func(*input) Response {
	return func(in *input) Response {
		v, ok := number(in.value(t))
		if !ok {
			return internal(emptyOr(in, t, "is no number"))
		}
		return complies(math.Abs(v) <= most, t.String()+" is "+span, t.String()+" is not "+span)
	}
}

// notZero asks whether the coordinates are not both 0, which stands for
// unknown far more often than for the Gulf of Guinea.
func notZero(in *input) Response {
	lat, lon, why := in.coordinates()
	if why != "" {
		return internal(why)
	}
	return complies(lat != 0 || lon != 0, "the coordinates are not both 0", "both coordinates are 0")
}

// coordinates are the decimal coordinates as numbers, unchecked; why says what
// is missing.
func (in *input) coordinates() (lat, lon float64, why string) {
	lat, ok := number(in.value(dwcDecimalLatitude))
	if !ok {
		return 0, 0, emptyOr(in, dwcDecimalLatitude, "is no number")
	}
	lon, ok = number(in.value(dwcDecimalLongitude))
	if !ok {
		return 0, 0, emptyOr(in, dwcDecimalLongitude, "is no number")
	}
	return lat, lon, ""
}

// onEarth reports whether the coordinates are a point.
func onEarth(lat, lon float64) bool { return math.Abs(lat) <= 90 && math.Abs(lon) <= 180 }

// uncertaintyInRange asks whether the uncertainty is 1 m to half the way
// around the world.
func uncertaintyInRange(in *input) Response {
	if in.empty(dwcCoordinateUncertainty) {
		return internal("dwc:coordinateUncertaintyInMeters is empty")
	}
	v, ok := validUncertainty(in.value(dwcCoordinateUncertainty))
	_ = v
	return complies(ok, "dwc:coordinateUncertaintyInMeters is from 1 to 20037509", "dwc:coordinateUncertaintyInMeters is not a number from 1 to 20037509")
}

// validUncertainty reads an uncertainty in metres that may be one: half the
// equator, 20,037,509 m, is the most.
func validUncertainty(s string) (float64, bool) {
	v, ok := number(s)
	return v, ok && v >= 1 && v <= 20037509
}
