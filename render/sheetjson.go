package render

import (
	"encoding/json"
	"fmt"
	"math"

	"blotter/ledger"
	"blotter/render/page"
)

// sheetJSON is a specimen as data: the words as written, and the readings
// beside them under names of their own.
type sheetJSON struct {
	Number   string        `json:"number"`
	Page     string        `json:"page,omitempty"`
	Revision string        `json:"revision,omitempty"`
	Changed  string        `json:"changed,omitempty"`
	Name     string        `json:"name,omitempty"`     // as determined
	Accepted string        `json:"accepted,omitempty"` // by the museum's list, when that is another
	Family   string        `json:"family,omitempty"`
	Fate     string        `json:"fate,omitempty"`
	Withheld string        `json:"withheld,omitempty"`
	Staff    bool          `json:"staff_only,omitempty"`
	Record   [][2]string   `json:"record"` // field and words, in the order of the record
	Read     *readJSON     `json:"read,omitempty"`
	Names    []opinionJSON `json:"names,omitempty"`
}

type readJSON struct {
	Date        string   `json:"date,omitempty"` // ISO 8601: a day, month, year or interval
	Latitude    *float64 `json:"latitude,omitempty"`
	Longitude   *float64 `json:"longitude,omitempty"`
	Uncertainty float64  `json:"uncertainty_metres,omitempty"`
	Elevation   *float64 `json:"elevation_metres,omitempty"`
}

type opinionJSON struct {
	Name  string `json:"name"`
	Kind  string `json:"kind"`
	By    string `json:"by,omitempty"`
	Date  string `json:"date,omitempty"`
	State string `json:"state"`
}

// staffFields stand in no file of the site.
var staffFields = map[string]bool{"sic": true, "checked": true, "import": true, "sensitive": true}

func (x *sheet) json() ([]byte, error) {
	j := sheetJSON{Number: string(x.e.Number), Name: x.e.Name, Fate: x.d.Fate, Staff: x.in.Book.Staff(), Family: x.in.Book.Museum.FamilyOf(x.currentKey(x.e), x.e.Family)}
	if a := x.in.Book.Museum.Renamed(x.e); a != nil {
		j.Accepted = a.Given.Name.Text
	}
	if x.site.Base != "" {
		j.Page = x.site.Base + string(sheetAddress(x.e.Number)) + ".html"
	}
	if rv := x.story.Last; rv.Known() {
		j.Revision, j.Changed = rv.Short(), rv.When.Format("2006-01-02")
	}
	if x.held {
		j.Withheld = string(x.hold.Reason)
	}
	r := x.r
	if x.held {
		r = x.why.Filled()
	}
	for _, kv := range ledger.Flatten(r) {
		top := kv.Key
		for i := range top {
			if top[i] == '.' {
				top = top[:i]
				break
			}
		}
		if staffFields[top] && !x.in.Book.Staff() {
			continue
		}
		j.Record = append(j.Record, [2]string{kv.Key, x.shownLeaf(kv.Key, kv.Value)})
	}
	j.Read = x.readings()
	for i := range x.d.Opinions {
		o := &x.d.Opinions[i]
		date := o.Date.Read.ISO()
		if !o.Date.Read.Known() && x.held {
			date = x.opinionDay(o)
		}
		j.Names = append(j.Names, opinionJSON{o.Name.Words, o.Kind.String(), x.shownAs(o.Given.By.Text), date, o.State.String()})
	}
	b, err := json.MarshalIndent(j, "", " ")
	if err != nil {
		return nil, fmt.Errorf("write %s.json: %w", x.e.Number, err)
	}
	return append(b, '\n'), nil
}

// shownLeaf is the words of a field; a person who asked for it is named by
// initials here too.
func (x *sheet) shownLeaf(key, words string) string {
	if !x.initialled {
		return page.Visible(words)
	}
	if p := x.in.Book.Museum.People.Find(words); p != nil && p.Initials.Text == "yes" {
		return initials(p.Name.Text)
	}
	return page.Visible(x.veiled(words))
}

func (x *sheet) readings() *readJSON {
	r := &readJSON{}
	if x.d.Date.Known {
		r.Date = x.d.Date.Read.ISO()
	}
	if p := x.d.Position; p.Known {
		lat, lon := rounded(p.Lat, 7), rounded(p.Lon, 7) // a centimetre
		r.Latitude, r.Longitude, r.Uncertainty = &lat, &lon, rounded(p.Radius(), 1)
	}
	if e := x.d.Elevation; e.Known {
		r.Elevation = &e.Metres
	}
	return r
}

// rounded is v to some decimals, so that the last bits of a reckoning, which
// machines may differ in, stand in no file.
func rounded(v float64, decimals int) float64 {
	p := math.Pow10(decimals)
	return math.Round(v*p) / p
}
