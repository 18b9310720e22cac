package main

import (
	"fmt"

	"blotter/ledger"
	"blotter/ledger/treatment"
)

// judgeClimate adds to a line of readings what the logger's table says against
// the museum's band, as its note.
func (l *lining) judgeClimate(fields []ledger.KV) ([]ledger.KV, error) {
	if l.file.Kind.Name != "climate" || l.event != "measured" || len(l.also) != 1 || fieldOf(fields, "note") != "" {
		return fields, nil
	}
	band := ledger.WithStandard(l.museum).Climate
	say := func(what, unit string, humid bool, low, high ledger.Leaf) (string, error) {
		log, err := treatment.Read(l.also[0].new, treatment.Options{Zone: l.zone, Humidity: humid})
		if err != nil {
			return "", err
		}
		c := treatment.ClimateOf(log.Readings, figureOf(low), figureOf(high), l.zone)
		words := fmt.Sprintf("%s %s to %s %s: %d of %s outside", what, low.Text, high.Text, unit, c.Outside, count(c.Days, "day"))
		if c.Outside > 0 {
			words += fmt.Sprintf(", longest %.1f h from %s", c.Longest.To.Sub(c.Longest.From).Hours(), c.Longest.From.In(l.zone).Format("2006-01-02 15:04"))
		}
		words += fmt.Sprintf(", greatest swing in 24 h %.1f %s", c.Swing, unit)
		for i, m := range c.Missing {
			if i == 3 {
				return words + fmt.Sprintf(", and %d more", len(c.Missing)-3), nil
			}
			words += fmt.Sprintf(", nothing from %s to %s", m.From.In(l.zone).Format("2006-01-02 15:04"), m.To.In(l.zone).Format("2006-01-02 15:04"))
		}
		return words, nil
	}
	warm, err := say("temperature", "°C", false, band.TemperatureMin, band.TemperatureMax)
	if err != nil {
		return nil, stuck("%s: %v", l.opts.text("from"), err)
	}
	damp, err := say("humidity", "%", true, band.HumidityMin, band.HumidityMax)
	if err != nil {
		damp = "no humidity was read"
	}
	return append(fields, ledger.KV{Key: "note", Value: warm + "; " + damp}), nil
}
