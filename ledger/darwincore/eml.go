package darwincore

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger/people"
)

// Title is the title of the data set: what blotter.yaml calls it, else the
// title of the site, else made of the museum's name.
func (d *Dataset) Title() string {
	m := &d.Museum.Museum
	return cmp.Or(m.Dataset.Title.Text, m.Site.Title.Text, "Herbarium of "+m.Name.Text)
}

// ID is the identifier of the data set: that of a registry, else a UUID made of
// the museum's code. It stays the same from one revision to the next.
func (d *Dataset) ID() string { return cmp.Or(d.Museum.Dataset.ID.Text, d.packageID()) }

func (d *Dataset) packageID() string { return d.pack }

// Creators are who made the data set, in the order of a citation.
func (d *Dataset) Creators() []string {
	if list := texts(d.Museum.Dataset.Creators); len(list) > 0 {
		return list
	}
	return []string{d.Museum.Name.Text}
}

// Day is the day of the revision, in the museum's zone.
func (d *Dataset) Day() string { return d.Date.In(d.Zone).Format("2006-01-02") }

// Citation is how to cite the data set: who, when, what, which version, where.
func (d *Dataset) Citation() string {
	out := strings.Join(d.Creators(), "; ") + " (" + d.Date.In(d.Zone).Format("2006") + "): " + strings.TrimRight(d.Title(), ".") + ". " + titled(d.Version()) + "."
	if m := d.Museum.Name.Text; !slices.Contains(d.Creators(), m) {
		out += " " + strings.TrimRight(m, ".") + "."
	}
	if at := cmp.Or(d.Museum.Dataset.ID.Text, d.ids.base); at != "" {
		out += " " + at
	}
	return out
}

// Version is which version of the ledger it is: the revision, where that may
// be cited, and the day.
func (d *Dataset) Version() string {
	if d.Revision == "" {
		return "version of " + d.Day()
	}
	return "revision " + d.Revision[:min(10, len(d.Revision))] + " of " + d.Day()
}

// titled is words with a capital.
func titled(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// AppendEML appends the description of the data set in the Ecological Metadata
// Language, version 2.2.0. packageId stays, pubDate is the day of the
// revision.
func (d *Dataset) AppendEML(b []byte, c *Coverage) []byte {
	m := &d.Museum.Museum
	w := emlWriter{bytes.NewBuffer(b), 1}
	w.WriteString(xml.Header + `<eml:eml xmlns:eml="https://eml.ecoinformatics.org/eml-2.2.0" packageId="` + d.packageID() + `" system="`)
	xml.EscapeText(w, []byte(cmp.Or(d.ids.base, "urn:uuid")))
	w.WriteString(`" scope="system" xml:lang="en">` + "\n")
	w.in("dataset", func() {
		if id := m.Dataset.ID.Text; id != "" {
			w.text("alternateIdentifier", id)
		}
		w.text("title", d.Title())
		for _, who := range d.Creators() {
			d.party(&w, "creator", who)
		}
		w.in("metadataProvider", func() { d.body(&w, true) })
		w.text("pubDate", d.Day())
		w.text("language", cmp.Or(m.Site.Language.Text, "en"))
		w.in("abstract", func() { w.text("para", cmp.Or(m.Dataset.Description.Text, d.describe(c))) })
		w.in("keywordSet", func() {
			for _, k := range []string{"herbarium", "preserved specimens", "Occurrence"} {
				w.text("keyword", k)
			}
		})
		w.in("additionalInfo", func() { w.text("para", "How to cite: "+d.Citation()) })
		d.rights(&w)
		if d.ids.base != "" {
			w.in("distribution", func() {
				w.in("online", func() { w.with("url", `function="information"`, d.ids.base) })
			})
		}
		d.coverage(&w, c)
		w.in("contact", func() { d.body(&w, true) })
		w.in("publisher", func() { d.body(&w, false) })
		w.in("methods", func() { d.methods(&w) })
	})
	w.WriteString("</eml:eml>\n")
	return w.Bytes()
}

// describe is the abstract of a museum that wrote none.
func (d *Dataset) describe(c *Coverage) string {
	out := fmt.Sprintf("%s herbarium specimens of %s", strconv.Itoa(c.Sheets), d.Museum.Name.Text)
	if c.Dated > 0 {
		out += fmt.Sprintf(", collected from %d to %d", c.First.Year(), c.Last.Year())
	}
	return out + ". Every name that a specimen was ever given is kept, oldest first, and the words of the labels stand beside what is read in them."
}

// body is the museum as a party of EML.
func (d *Dataset) body(w *emlWriter, reached bool) {
	m := &d.Museum.Museum
	w.text("organizationName", m.Name.Text)
	to := cmp.Or(m.Dataset.Contact.Text, m.Site.Contact.Text)
	switch {
	case !reached || to == "":
	case strings.Contains(to, "@") && !strings.ContainsAny(to, " /"):
		w.text("electronicMailAddress", to)
		to = ""
	case strings.HasPrefix(to, "https://") || strings.HasPrefix(to, "http://"):
		w.text("onlineUrl", to)
		to = ""
	}
	if id := m.Dataset.Institution.Text; id != "" {
		w.with("userId", `directory="`+directoryOf(id)+`"`, id)
	}
}

// directoryOf is where an identifier is looked up: the host of its address.
func directoryOf(id string) string {
	if scheme, rest, ok := strings.Cut(id, "://"); ok {
		host, _, _ := strings.Cut(rest, "/")
		return xmlText(scheme + "://" + host)
	}
	return "unknown"
}

// party is a creator: a person of people.yaml with the iD, any other person,
// or a body.
func (d *Dataset) party(w *emlWriter, element, words string) {
	w.in(element, func() {
		team := people.ReadTeam(words)
		if len(team.People) != 1 || len(team.Bodies) > 0 || words == d.Museum.Name.Text {
			w.text("organizationName", words)
			return
		}
		p := team.People[0]
		w.in("individualName", func() {
			if p.Given != "" {
				w.text("givenName", p.Given)
			}
			w.text("surName", strings.TrimSpace(p.Particle+" "+p.Family))
		})
		if id := d.orcidsOf(words); id != "" {
			w.with("userId", `directory="https://orcid.org"`, id)
		}
	})
}

// rights are the terms under which others may use the data.
func (d *Dataset) rights(w *emlWriter) {
	words := d.Museum.Site.Licence.Text
	if d.Partner != "" {
		w.in("intellectualRights", func() {
			w.text("para", "Made for "+d.Partner+". For every sensitive specimen: "+NotToBePublished+".")
		})
		return
	}
	if words == "" {
		w.in("intellectualRights", func() { w.text("para", "No licence is stated.") })
		return
	}
	w.in("intellectualRights", func() { w.text("para", "Licence: "+words) })
	if address := LicenceAddress(words); strings.HasPrefix(address, "https://") {
		w.in("licensed", func() {
			w.text("licenseName", words)
			w.text("url", address)
		})
	}
}

// methods are how the records are made.
func (d *Dataset) methods(w *emlWriter) {
	step := func(text string) {
		w.in("methodStep", func() { w.in("description", func() { w.text("para", text) }) })
	}
	if t := d.Museum.Dataset.Methods.Text; t != "" {
		step(t)
	}
	step("Verbatim terms have the words of the label to the letter. Dates, positions, heights and names are read from them by program; where a person read them, that reading goes before and says by whom and from what. Positions are on WGS84; the radius is what is stated, else the sum of its shares by the point-radius method.")
	if d.Partner == "" {
		step("Places of specimens at risk are withheld or given as the centre of a cell of a decimal grid; each such row says so in informationWithheld and dataGeneralizations.")
	}
}

// coverage is where, when and what.
func (d *Dataset) coverage(w *emlWriter, c *Coverage) {
	families := c.Families()
	if c.Placed == 0 && c.Dated == 0 && len(families) == 0 {
		return
	}
	w.in("coverage", func() {
		if c.Placed > 0 {
			w.in("geographicCoverage", func() {
				w.text("geographicDescription", c.where())
				w.in("boundingCoordinates", func() {
					for _, x := range []struct {
						name string
						v    float64
					}{{"west", c.West}, {"east", c.East}, {"north", c.North}, {"south", c.South}} {
						w.text(x.name+"BoundingCoordinate", strconv.FormatFloat(x.v, 'f', 6, 64))
					}
				})
			})
		}
		if c.Dated > 0 {
			w.in("temporalCoverage", func() {
				w.in("rangeOfDates", func() {
					w.in("beginDate", func() { w.text("calendarDate", c.First.String()) })
					w.in("endDate", func() { w.text("calendarDate", c.Last.String()) })
				})
			})
		}
		if len(families) > 0 {
			w.in("taxonomicCoverage", func() {
				for _, f := range families {
					w.in("taxonomicClassification", func() {
						w.text("taxonRankName", "family")
						w.text("taxonRankValue", f)
					})
				}
			})
		}
	})
}

// emlWriter writes elements, one a line.
type emlWriter struct {
	*bytes.Buffer
	depth int
}

func (w *emlWriter) indent() { w.WriteString(strings.Repeat("  ", w.depth)) }

func (w *emlWriter) in(element string, inner func()) {
	w.indent()
	w.WriteString("<" + element + ">\n")
	w.depth++
	inner()
	w.depth--
	w.indent()
	w.WriteString("</" + element + ">\n")
}

func (w *emlWriter) text(element, text string) { w.with(element, "", text) }

// with writes an element with attributes, which are XML already.
func (w *emlWriter) with(element, attributes, text string) {
	w.indent()
	w.WriteString("<" + element)
	if attributes != "" {
		w.WriteString(" " + attributes)
	}
	w.WriteString(">" + xmlText(text) + "</" + element + ">\n")
}

func xmlText(s string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(s))
	return b.String()
}
