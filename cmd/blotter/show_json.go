package main

import (
	"blotter/ledger"
	"blotter/ledger/reading"
)

// recordJSON is a record for programs: every field by its path, and what
// stands and is read.
func (d *desk) recordJSON(v sheetVersion, told *whereabouts) any {
	read := reading.Of(v.record, reading.ConventionsOf(d.museum))
	s := d.standing(v.record)
	fields := map[string]string{}
	for _, kv := range ledger.Flatten(v.record) {
		fields[kv.Key] = kv.Value
	}
	out := struct {
		Number    ledger.Number     `json:"number"`
		Path      string            `json:"path"`
		Name      string            `json:"name"`
		Canonical string            `json:"canonical_name"`
		Accepted  string            `json:"accepted_name,omitempty"`
		From      string            `json:"from_day,omitempty"`
		Until     string            `json:"until_day,omitempty"`
		Lat       *float64          `json:"latitude,omitempty"`
		Lon       *float64          `json:"longitude,omitempty"`
		Radius    *float64          `json:"uncertainty_m,omitempty"`
		Parts     []partTold        `json:"parts,omitempty"`
		Reckoned  *reckonedTold     `json:"reckoned,omitempty"`
		Elevation *float64          `json:"elevation_m,omitempty"`
		Fate      string            `json:"fate,omitempty"`
		State     *stateTold        `json:"state,omitempty"`
		Filed     *filedTold        `json:"filed,omitempty"`
		Printed   []printedTold     `json:"printed,omitempty"`
		MIDS      int               `json:"mids_level"`
		Lacks     []string          `json:"mids_lacks"`
		Fields    map[string]string `json:"fields"`
	}{Number: v.number, Path: v.path, Name: s.words, Canonical: s.key, Fate: read.Fate, State: told.state(), Filed: told.place(), Printed: told.printed(), Fields: fields}
	given := d.midsOf(read)
	out.MIDS, out.Lacks = given.Level(), []string{}
	for _, e := range given.Lacks().Elements() {
		out.Lacks = append(out.Lacks, e.Name)
	}
	if len(s.steps) > 0 {
		out.Accepted = s.steps[len(s.steps)-1].of
	}
	if read.Date.Known {
		out.From, out.Until = read.Date.First.String(), read.Date.Last.String()
	}
	if p := read.Position; p.Known {
		out.Lat, out.Lon, out.Radius, out.Parts = degrees(p.Lat), degrees(p.Lon), metresOf(p.Metres), partsTold(p.Estimate)
	} else if e := read.Reckoned(d.gazetteer()); e.Known {
		out.Reckoned = &reckonedTold{e.From, *degrees(e.Lat), *degrees(e.Lon), *metresOf(e.Metres), partsTold(e)}
	}
	if read.Elevation.Known {
		out.Elevation = &read.Elevation.Metres
	}
	return out
}
