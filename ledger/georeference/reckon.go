package georeference

import (
	"math"
	"strings"

	"blotter/ledger/geodesy"
	"blotter/ledger/places"
)

// Reckon is the point and radius of a locality in words, from the places that
// it names; not Known, with Why, when it names none that is known or leaves
// its distance open. What it gives is the program's and nobody's observation.
func (g *Gazetteer) Reckon(locality string, in Within) Estimate {
	if g.Len() == 0 {
		return Estimate{Why: "places.yaml names no place with a position"}
	}
	o := ReadOffset(locality)
	if len(o.Warnings) > 0 {
		return Estimate{Why: o.Warnings[0].Message}
	}
	switch o.Relation {
	case Away:
		return g.away(o, in)
	case Between:
		if e := g.between(o, in); e.Known {
			return e
		}
	case Near:
		if s, _ := g.find(o.From, in); s != nil {
			return Estimate{Why: "near " + s.Name + " gives no distance"}
		}
	}
	return g.at(locality, in)
}

// away reckons distances from a place.
func (g *Gazetteer) away(o Offset, in Within) Estimate {
	s, why := g.find(o.From, in)
	if s == nil && o.Before != "" {
		if t, _ := g.find(o.Before, in); t != nil && (o.From == "" || continues(o.From)) {
			s = t
		}
	}
	if s == nil {
		if o.From == "" {
			why = quoted(o.Before) + " is not a place of places.yaml with a position"
		}
		return Estimate{Why: why}
	}
	e := s.start()
	others := e.Metres
	if s.extent.Known() {
		others += s.extent.Max
		e.add(Extent, s.extent.Max, s.Name+" reaches that far from its middle ("+s.Extent+")", s.Name, s.Extent)
	} else {
		e.unsaid(Extent, "how large "+s.Name+" is", s.Name)
	}
	e.From = o.words() + " " + s.Name
	switch {
	case len(o.Legs) == 1 && o.Legs[0].Heading.Name == "":
		e.ring(o.Legs[0])
	case o.ByRoad:
		e.byRoad(o)
	case len(o.Legs) == 1:
		e.straight(o.Legs[0], others)
	case rightAngled(o.Legs):
		e.legs(o, false)
	default:
		e.legs(o, true)
	}
	return e
}

// start is an estimate at the place itself, with the shares of its position.
func (s *site) start() Estimate {
	e := s.point
	e.Parts = append([]Part(nil), e.Parts...)
	e.Unsaid = append([]Part(nil), e.Unsaid...)
	return e
}

// half is the error of a distance: half of its range and of the unit it is
// written to.
func (l Leg) half() float64 { return (l.Distance.Max-l.Distance.Min)/2 + l.Distance.Error }

const whyDistance = "the distance is written to half of the unit it counts in"

// straight is one distance in one direction.
func (e *Estimate) straight(l Leg, others float64) {
	d := l.Distance.Mid()
	e.Lat, e.Lon = geodesy.Destination(e.Lat, e.Lon, l.Heading.Bearing, d)
	e.add(Distance, l.half(), whyDistance)
	others += l.half()
	alone := DirectionError(d, 0, l.Heading.Half)
	why := l.Heading.Name + " may be " + figure(l.Heading.Half) + "° off to each side, which by itself is " + Metres(alone)
	e.add(Direction, DirectionError(d, others, l.Heading.Half)-others, why)
}

// DirectionError is the error in metres of a point at a distance of metres in
// a direction that may be half degrees off to each side, where everything else
// adds up to others metres.
func DirectionError(metres, others, half float64) float64 {
	far := metres + others
	e2 := metres*metres + far*far - 2*metres*far*math.Cos(half*math.Pi/180)
	return math.Sqrt(max(0, e2))
}

// ring is a distance without a direction: all around the place.
func (e *Estimate) ring(l Leg) {
	e.add(Distance, l.half(), whyDistance)
	e.add(Direction, l.Distance.Mid(), "no direction is named, so it may lie on any side")
}

// rightAngled reports whether there are two distances along the main points,
// one north or south and one east or west.
func rightAngled(legs []Leg) bool {
	if len(legs) != 2 || len(legs[0].Heading.Name) != 1 || len(legs[1].Heading.Name) != 1 {
		return false
	}
	return math.Mod(math.Abs(legs[0].Heading.Bearing-legs[1].Heading.Bearing), 180) == 90
}

// legs goes one distance after the other. At right angles the directions are
// exact and the errors of the distances go together as a right-angled
// triangle; otherwise every direction counts.
func (e *Estimate) legs(o Offset, directions bool) {
	var square, sum, turned float64
	for _, l := range o.Legs {
		d := l.Distance.Mid()
		e.Lat, e.Lon = geodesy.Destination(e.Lat, e.Lon, l.Heading.Bearing, d)
		square += l.half() * l.half()
		sum += l.half()
		turned += DirectionError(d, 0, l.Heading.Half)
	}
	if !directions {
		e.add(Distance, math.Sqrt(square), "the distances are written to half of the unit they count in; at right angles they go together as the sides of a triangle")
		return
	}
	e.add(Distance, sum, "the distances are written to half of the unit they count in")
	e.add(Direction, turned, "the directions may be off to each side, each by itself")
}

// byRoad is a distance along a road, a river or a path: the place lies no
// further off in a straight line, and how much nearer a map would say. The
// point is the middle of the smallest circle about all places within that
// distance and that direction (our reckoning, no source).
func (e *Estimate) byRoad(o Offset) {
	l := o.Legs[0]
	if len(o.Legs) > 1 {
		e.Known, e.Why = false, "several distances by road cannot be reckoned without a map"
		return
	}
	d := l.Distance.Mid()
	r := d / 2
	if c := math.Cos(l.Heading.Half * math.Pi / 180); c > 0 {
		r = d / (2 * c)
	}
	e.Lat, e.Lon = geodesy.Destination(e.Lat, e.Lon, l.Heading.Bearing, r)
	e.add(Distance, l.half(), whyDistance)
	e.add(Road, r, "measured by road, which is no straight line: it lies anywhere from the place itself to "+Metres(d)+" off, "+figure(l.Heading.Half)+"° to each side of "+l.Heading.Name)
}

// between is the middle of two places.
func (g *Gazetteer) between(o Offset, in Within) Estimate {
	a, why := g.find(o.From, in)
	if a == nil {
		return Estimate{Why: why}
	}
	b, why := g.find(o.And, in)
	if b == nil {
		return Estimate{Why: why}
	}
	e := a.start()
	if b.point.Metres > e.Metres {
		p := b.start()
		e.Metres, e.Parts, e.Unsaid = p.Metres, p.Parts, p.Unsaid
	}
	metres, bearing := geodesy.Inverse(a.point.Lat, a.point.Lon, b.point.Lat, b.point.Lon)
	e.Lat, e.Lon = geodesy.Destination(a.point.Lat, a.point.Lon, bearing, metres/2)
	e.From = "the middle between " + a.Name + " and " + b.Name
	e.add(Distance, metres/2, "half of the way between the two")
	wide := a
	if b.extent.Max > a.extent.Max {
		wide = b
	}
	e.add(Extent, wide.extent.Max, wide.Name+" reaches that far from its middle ("+wide.Extent+")", wide.Name, wide.Extent)
	for _, s := range []*site{a, b} {
		if !s.extent.Known() {
			e.unsaid(Extent, "how large "+s.Name+" is", s.Name)
		}
	}
	return e
}

// at is a place itself: the smallest of those that the locality names between
// its commas.
func (g *Gazetteer) at(locality string, in Within) Estimate {
	var best *site
	why := "no place of places.yaml is named in it"
	for rest := locality; rest != ""; {
		part := segment(rest)
		if cut := strings.IndexAny(rest, ",;()[]:\n"); cut >= 0 {
			rest = rest[cut+1:]
		} else {
			rest = ""
		}
		if after, ok := cutAny(part, atWords); ok {
			part = after
		}
		s, _ := g.find(part, in)
		if s == nil {
			continue
		}
		if !s.extent.Known() {
			why = "how large " + s.Name + " is stands nowhere"
			continue
		}
		if best == nil || s.extent.Max < best.extent.Max {
			best = s
		}
	}
	if best == nil {
		return Estimate{Why: why}
	}
	e := best.start()
	e.From = best.Name
	e.add(Extent, best.extent.Max, best.Name+" reaches that far from its middle ("+best.Extent+")", best.Name, best.Extent)
	return e
}

// words are the distances and directions: 1.2 km NE of; 2.8 mi S and 1.2 mi E of.
func (o Offset) words() string {
	var out []string
	for _, l := range o.Legs {
		s := distance(l.Distance)
		if o.ByRoad {
			s += " by road"
		}
		if l.Heading.Name != "" {
			s += " " + l.Heading.Name
		}
		out = append(out, s)
	}
	of := " of"
	if o.Legs[0].Heading.Name == "" {
		of = " from"
	}
	return strings.Join(out, " and ") + of
}

// distance is a distance in its own unit.
func distance(l places.Length) string {
	u := l.Unit.Metres()
	s := figure(l.Min / u)
	if l.Max != l.Min {
		s += " to " + figure(l.Max/u)
	}
	if l.Unit == places.NoUnit {
		return s + " m"
	}
	return s + " " + l.Unit.String()
}
