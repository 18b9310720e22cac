package main

import (
	"context"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/geodesy"
	"blotter/ledger/places"
	"blotter/ledger/waypoints"
)

// waypointFlags are those of an import of positions.
var waypointFlags = []*flag{flagPlaces, flagWhose, flagMetres, flagBy}

func areWaypoints(file string, info fs.FileInfo) bool {
	return info.Mode().IsRegular() && hasEnding(file, ".gpx")
}

// importWaypoints proposes the waypoints of a GPX file as positions of sheets
// that have none.
func importWaypoints(ctx context.Context, c *call, file string) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	f, err := os.Open(file)
	if err != nil {
		return stuck("%v", err)
	}
	defer f.Close()
	gpx, err := waypoints.Read(f)
	if err != nil {
		return stuck("%s: %v", filepath.Base(file), err)
	}
	name := filepath.Base(file)
	p := &placing{desk: d, name: name}
	for i := range gpx.Points {
		pt := &gpx.Points[i]
		x := spot{Point: *pt, what: "GPX waypoint " + nameOr(pt.Name, "in line "+itoa(pt.Line)) + " of " + name}
		x.metres, _ = pt.Metres()
		p.spots = append(p.spots, x)
	}
	head := fmt.Sprintf("%s: %s", name, count(len(gpx.Points), "waypoint"))
	if gpx.TrackPoints > 0 {
		head += fmt.Sprintf("; %s of %s, which place no sheet, since none has a time of day", count(gpx.TrackPoints, "point"), count(gpx.Tracks, "track"))
	}
	d.say("%s.", head)
	for i, bad := range gpx.Faults {
		if i == manyOfOneCode {
			d.say("  and %s more not taken", thousands(len(gpx.Faults)-i))
			break
		}
		d.say("%s", hang(fmt.Sprintf("  line %-5d not taken: ", bad.Line), bad.Why, d.Width))
	}
	return p.run(ctx)
}

func nameOr(name, otherwise string) string {
	if name == "" {
		return otherwise
	}
	return name
}

// placeByPictures proposes where photographs were taken as positions of sheets
// that have none: import DIR --positions.
func (p *picturing) placeByPictures(ctx context.Context) error {
	pl := &placing{desk: p.desk, name: p.name}
	foreign := 0
	for i := range p.shots {
		s := &p.shots[i]
		g := s.meta.GPS
		if !g.Known {
			continue
		}
		if d := strings.ToUpper(strings.NewReplacer("-", "", " ", "", "_", "").Replace(g.Datum)); d != "" && !strings.HasPrefix(d, "WGS84") {
			foreign++
			continue
		}
		stem := strings.TrimSuffix(filepath.Base(s.rel), filepath.Ext(s.rel))
		x := spot{what: "photograph " + s.rel, sheets: s.named, metres: g.Error}
		x.Point = waypoints.Point{Name: stem, Lat: g.Lat, Lon: g.Lon, Decimals: decimalsOf(g.Step), HDOP: g.DOP}
		if x.sheets == nil {
			x.sheets = s.coded
		}
		if math.IsNaN(x.metres) {
			x.metres, _ = x.Point.Metres()
		}
		switch {
		case s.meta.Taken.Known():
			x.Time = s.meta.Taken.In(p.desk.zone)
		case !g.At.IsZero():
			x.Time = g.At
		}
		pl.spots = append(pl.spots, x)
	}
	p.desk.say("%s: %s, %s with a position.", p.name, count(len(p.shots), "picture"), thousands(len(pl.spots)))
	if foreign > 0 {
		p.desk.say("%s with a position on another datum than WGS84, so not taken.", count(foreign, "picture"))
	}
	return pl.run(ctx)
}

// decimalsOf is how many decimals of a degree show a step, at most 6.
func decimalsOf(step float64) int {
	n := 0
	for ; n < 6 && step < 0.99*math.Pow10(-n); n++ {
	}
	return n
}

// spot is a place where somebody stood with a receiver.
type spot struct {
	waypoints.Point
	what   string          // for the words from:
	sheets []ledger.Number // that its name or barcode has
	metres float64         // how far off it may be, as it says; 0: it does not
}

// placing is one run that gives positions to sheets.
type placing struct {
	desk    *desk
	name    string
	spots   []spot
	matches []match
	lists   [4][]string // by the kinds below: lines to show
}

// What becomes of a spot that places no sheet.
const (
	hasPosition = iota
	ambiguous
	otherDay
	noGathering
)

// match is a sheet and where its plant was gathered.
type match struct {
	e        *book.Entry
	lat, lon float64
	decimals int
	metres   float64 // 0: nobody says
	from     string
	how      string // matched by
	when     time.Time
}

// run matches, shows, asks and enters.
func (p *placing) run(ctx context.Context) error {
	if typed := p.desk.opts.text("uncertainty"); typed != "" && !places.ReadLength(typed).Known() {
		return misuse("--uncertainty %q is not read as a length", typed).try(`--uncertainty "15 m"`)
	}
	b, err := book.Load(ctx, p.desk.source(), p.desk.loadOptions())
	if err != nil {
		return stuck("%v", err)
	}
	p.match(b)
	by, date, err := p.desk.signed("me")
	if err != nil {
		return err
	}
	var ns []ledger.Number
	ops := map[ledger.Number][]ledger.Op{}
	var rows [][]string
	for _, m := range p.matches {
		uncertainty := p.uncertainty(&m)
		is := strconv.FormatFloat(m.lat, 'f', m.decimals, 64) + ", " + strconv.FormatFloat(m.lon, 'f', m.decimals, 64)
		ns = append(ns, m.e.Number)
		ops[m.e.Number] = []ledger.Op{ledger.Set("read.position.is", is), ledger.Set("read.position.uncertainty", uncertainty), ledger.Set("read.position.by", by),
			ledger.Set("read.position.date", date), ledger.Set("read.position.from", m.from+", matched by "+m.how)}
		rows = append(rows, []string{string(m.e.Number), is, nameOr(uncertainty, "not said"), m.from + ", by " + m.how})
	}
	changes, err := p.desk.editSheets(ns, func(r *ledger.Record) ([]ledger.Op, error) {
		if r.Place.Position.Set() || r.Read.Position.Line > 0 { // one that cannot be read is a position too
			return nil, nil
		}
		return ops[ledger.Number(r.Specimen.Text)], nil
	})
	if err != nil {
		return err
	}
	p.show(rows)
	if len(changes) == 0 {
		p.desk.say("Nothing to enter.")
		return nil
	}
	if ok, err := p.desk.consent(ctx, "Write these positions as readings of "+by+" on "+count(len(changes), "sheet")+"?"); !ok {
		return err
	}
	r, err := p.desk.enter(ctx, entry{changes: changes, subject: "Positions of " + count(len(changes), "sheet") + " from " + p.name})
	if err != nil {
		return err
	}
	p.desk.report(r, "positions of "+count(len(changes), "sheet")+" from "+p.name)
	return nil
}

// unlimited is the day on which the error that was put on all civil receivers
// ended; a reading of later years under an open sky that says no error of its
// own is commonly given 30 m (guidance on Darwin Core's
// coordinateUncertaintyInMeters; from memory).
var unlimited = time.Date(2000, 5, 2, 4, 0, 0, 0, time.UTC)

const commonMetres = 30

// uncertainty is the radius that is written: --uncertainty, what the file says,
// or what is common for receivers of its time; "" when nobody knows.
func (p *placing) uncertainty(m *match) string {
	if typed := p.desk.opts.text("uncertainty"); typed != "" {
		return typed
	}
	metres := m.metres
	if metres == 0 && m.when.After(unlimited) {
		metres = commonMetres
	}
	if metres == 0 {
		return ""
	}
	return strconv.FormatFloat(math.Ceil(metres), 'f', 0, 64) + " m"
}

// show lists what would be written and what would not.
func (p *placing) show(rows [][]string) {
	if len(rows) > 0 {
		p.desk.say("Would be written as a person's reading, since the label has no position: %s.", count(len(rows), "sheet"))
		p.desk.table("  ", rows[:min(len(rows), manyOfOneCode)])
		if n := len(rows) - manyOfOneCode; n > 0 {
			p.desk.say("  and %s more", thousands(n))
		}
	}
	for kind, title := range []string{"Have a position, which stays", "More than one sheet or place it could be, so not taken", "The number agrees and the day does not, so not taken", "No gathering found"} {
		list := p.lists[kind]
		if len(list) == 0 {
			continue
		}
		p.desk.say("%s (%s):", title, thousands(len(list)))
		for i, line := range list {
			if i == manyOfOneCode {
				p.desk.say("  and %s more", thousands(len(list)-i))
				break
			}
			p.desk.say("%s", hang("  ", line, p.desk.Width))
		}
	}
}

// note adds a line to one of the lists.
func (p *placing) note(kind int, format string, args ...any) {
	p.lists[kind] = append(p.lists[kind], fmt.Sprintf(format, args...))
}

// howFar says how far a spot is from where a sheet has its position.
func howFar(e *book.Entry, m *match) string {
	if !e.Positioned {
		return "its position cannot be read"
	}
	d := geodesy.Distance(e.Lat, e.Lon, m.lat, m.lon)
	if d < 10_000 {
		return thousands(int(math.Round(d))) + " m apart"
	}
	return thousands(int(math.Round(d/1000))) + " km apart"
}
