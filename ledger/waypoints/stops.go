package waypoints

import (
	"math"
	"slices"
	"time"

	"blotter/ledger/geodesy"
)

// Stop is some points taken at one place within a short time.
type Stop struct {
	Points   []int // places in the list that Stops was given
	Lat, Lon float64
	Radius   float64 // metres from the middle to the farthest of them
	From, To time.Time
}

// Stops parts points that have a time, in whatever order, into stops: a point
// belongs to the stop before it when no more than gap lies between them and it
// is within reach metres of the first of that stop.
func Stops(points []Point, gap time.Duration, reach float64) []Stop {
	order := make([]int, 0, len(points))
	for i := range points {
		if !points[i].Time.IsZero() {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return points[a].Time.Compare(points[b].Time) })
	var out []Stop
	for _, i := range order {
		p := &points[i]
		if n := len(out); n > 0 && p.Time.Sub(out[n-1].To) <= gap {
			s := &out[n-1]
			if first := &points[s.Points[0]]; geodesy.Distance(first.Lat, first.Lon, p.Lat, p.Lon) <= reach {
				s.Points, s.To = append(s.Points, i), p.Time
				continue
			}
		}
		out = append(out, Stop{Points: []int{i}, From: p.Time, To: p.Time})
	}
	for i := range out {
		out[i].settle(points)
	}
	return out
}

// settle finds the middle and the radius of a stop.
func (s *Stop) settle(points []Point) {
	p0 := points[s.Points[0]]
	var lat, lon float64
	for _, i := range s.Points {
		lat += points[i].Lat - p0.Lat
		lon += math.Remainder(points[i].Lon-p0.Lon, 360)
	}
	n := float64(len(s.Points))
	s.Lat, s.Lon = p0.Lat+lat/n, math.Remainder(p0.Lon+lon/n, 360)
	for _, i := range s.Points {
		s.Radius = max(s.Radius, geodesy.Distance(s.Lat, s.Lon, points[i].Lat, points[i].Lon))
	}
}

// Metres is how far a reading of a receiver may be off: its dilution of
// precision times 5 m, a usual error of a civil receiver under an open sky
// (common practice, no source); ok is false when the point does not say it.
func (p *Point) Metres() (m float64, ok bool) {
	if math.IsNaN(p.HDOP) || p.HDOP <= 0 {
		return 0, false
	}
	return math.Ceil(p.HDOP * 5), true
}
