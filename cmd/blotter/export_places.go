package main

import (
	"context"
	"math"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/darwincore"
	"blotter/ledger/exchange"
)

// spotWriter writes specimens on a map.
type spotWriter interface {
	Write(s *exchange.Spot) error
	Close() error
}

func exportGeoJSON(ctx context.Context, x *exporting) error {
	m := x.Data.Museum
	about := []ledger.KV{{Key: "title", Value: m.Site.Title.Text}, {Key: "publisher", Value: m.Museum.Name.Text}, {Key: "license", Value: darwincore.LicenceAddress(m.Site.Licence.Text)},
		{Key: "date", Value: x.Data.Date.In(x.Data.Zone).Format("2006-01-02")}, {Key: "revision", Value: x.Data.Revision}}
	if x.Full {
		about = append(about, ledger.KV{Key: "for", Value: x.desk.opts.text("for")})
	}
	return x.places(ctx, exchange.NewGeoJSON(x.Out, about))
}

func exportGPX(ctx context.Context, x *exporting) error {
	m := x.Data.Museum
	about := exchange.AboutGPX{Name: m.Site.Title.Text, Museum: m.Museum.Name.Text, Licence: darwincore.LicenceAddress(m.Site.Licence.Text), Time: x.Data.Date}
	if x.Full {
		about.Name = strings.TrimPrefix(about.Name+", for "+x.desk.opts.text("for"), ", ")
	}
	return x.places(ctx, exchange.NewGPX(x.Out, about))
}

// places writes the sheets that have a place.
func (x *exporting) places(ctx context.Context, w spotWriter) error {
	nowhere := 0
	for s, err := range x.Sheets(ctx) {
		if err != nil {
			return err
		}
		spot := x.spot(s)
		if spot == nil {
			nowhere++
			continue
		}
		if err := w.Write(spot); err != nil {
			return err
		}
	}
	if nowhere > 0 {
		x.Said = "Without a place on the map, and so left out: " + count(nowhere, "sheet") + "."
	}
	return w.Close()
}

// spot is where a sheet stands on the map; nil: nowhere.
func (x *exporting) spot(s *darwincore.Sheet) *exchange.Spot {
	p := &s.Reading.Position
	if !p.Known {
		return nil
	}
	r := s.Record
	spot := &exchange.Spot{Number: string(s.Number), Lat: coreValue(s, "decimalLatitude"), Lon: coreValue(s, "decimalLongitude"),
		Metres: p.Metres, Height: coreHeight(s), Page: coreValue(s, "references")}
	if s.Withheld != nil && !x.Full && s.Withheld.Cell != nil {
		c := s.Withheld.Cell
		spot.Square = &exchange.Square{South: c.Lat - c.Degrees/2, West: c.Lon - c.Degrees/2, North: c.Lat + c.Degrees/2, East: c.Lon + c.Degrees/2}
		spot.Metres = math.Max(spot.Metres, c.Metres)
	}
	name, _ := s.Reading.Current()
	spot.Facts = []ledger.KV{
		{Key: "name", Value: name.Words},
		{Key: "family", Value: s.Museum.FamilyOf(name.Key(), r.Family.Text)},
		{Key: "collector", Value: r.Collector.Text},
		{Key: "coll_no", Value: r.CollNo.Text},
		{Key: "date", Value: r.Date.Text},
		{Key: "event_date", Value: coreValue(s, "eventDate")},
		{Key: "country", Value: r.Place.Country.Text},
		{Key: "province", Value: r.Place.Province.Text},
		{Key: "district", Value: r.Place.District.Text},
		{Key: "locality", Value: r.Place.Locality.Text},
	}
	if s.Withheld != nil && !x.Full {
		spot.Facts = append(spot.Facts, ledger.KV{Key: "withheld", Value: s.Withheld.WithheldInfo()})
	}
	if words := x.closed(s.Withheld); words != "" {
		spot.Facts = append(spot.Facts, ledger.KV{Key: exchange.NotAField, Value: words})
	}
	return spot
}

// coreTerms are the terms of the core by name.
var coreTerms = sync.OnceValue(func() map[string]*darwincore.Term {
	terms := map[string]*darwincore.Term{}
	for i := range darwincore.Occurrence.Terms {
		terms[darwincore.Occurrence.Terms[i].Name] = &darwincore.Occurrence.Terms[i]
	}
	return terms
})

// coreValue is the value of a term of the core, so that maps and archives give
// the same figures.
func coreValue(s *darwincore.Sheet, name string) string {
	return coreTerms()[name].Value(darwincore.Row{Sheet: s})
}

// coreHeight is the middle of the heights that the elevation may mean.
func coreHeight(s *darwincore.Sheet) string {
	e := &s.Reading.Elevation
	if !e.Known || math.IsInf(e.Metres, 0) || math.IsNaN(e.Metres) {
		return ""
	}
	return strconv.FormatFloat(math.Round(e.Metres*10)/10, 'f', -1, 64)
}
