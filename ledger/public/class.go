package public

// Class is how strictly a record is withheld. The four classes above Open are
// the categories of sensitivity 4 to 1 of Chapman 2020 (Current Best Practices
// for Generalizing Sensitive Species Occurrence Data, tables 5 to 7): a
// greater Class is the stricter.
type Class uint8

const (
	Open    Class = iota // not withheld
	Low                  // category 4: a square of 0.001 degree
	Medium               // category 3: a square of 0.01 degree
	High                 // category 2: a square of 0.1 degree; no day, no collector's number
	Extreme              // category 1: country and province alone
)

// ClassOf is the class of a category as a record writes it. Anything but 2, 3
// and 4, nothing at all included, is held as strictly as 1.
func ClassOf(category string) Class {
	switch category {
	case "4":
		return Low
	case "3":
		return Medium
	case "2":
		return High
	}
	return Extreme
}

// Category is the class as a record writes it: "1" to "4"; "" for Open.
func (c Class) Category() string { return [...]string{"", "4", "3", "2", "1"}[min(c, Extreme)] }

// Degrees is the side of the square in which the place is shown; 0 when it is
// not shown at all, as for Extreme, or as it is, as for Open.
func (c Class) Degrees() float64 { return [...]float64{0, 0.001, 0.01, 0.1, 0}[min(c, Extreme)] }

// Dated reports whether the day, the collector's number and the district of a
// record of this class are shown.
func (c Class) Dated() bool { return c < High }
