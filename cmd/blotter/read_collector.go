package main

import (
	"strings"

	"blotter/ledger/people"
)

// collectorTold is the reading of who collected.
type collectorTold struct {
	readHead
	People []personTold `json:"people"`
	Bodies []string     `json:"bodies,omitempty"` // expeditions, museums: no persons
	Others bool         `json:"others,omitempty"` // et al.: somebody more, not named
	Number string       `json:"number,omitempty"` // the collector's number, when it stands in the same words
	words  string
}

// personTold is one person in reading order, as written.
type personTold struct {
	Text     string `json:"text"`
	Title    string `json:"title,omitempty"`
	Given    string `json:"given,omitempty"`
	Particle string `json:"particle,omitempty"`
	Family   string `json:"family,omitempty"`
	Suffix   string `json:"suffix,omitempty"`
	ORCID    string `json:"orcid,omitempty"` // the iD beside the name, if its check character is right
	Known    string `json:"known,omitempty"` // the name in people.yaml, when it is one person's
}

func (t *collectorTold) object() any { return t }

func readCollectorText(x *readDesk, text string) told {
	t := &collectorTold{readHead: headOf(text), People: []personTold{}}
	team := people.ReadTeam(text)
	t.Others, t.Number, t.Bodies = team.Others, team.Number, team.Bodies
	for _, w := range team.Warnings {
		t.warn(w.Code, w.Message)
	}
	for _, p := range team.People {
		one := personTold{Text: p.Text, Title: p.Title, Given: p.Given, Particle: p.Particle, Family: p.Family, Suffix: p.Suffix, ORCID: p.ORCID}
		if k := x.people.FindPerson(p); k != nil {
			one.Known = k.Name.Text
		} else if len(x.people.All) > 0 {
			t.warn("person-unlisted", p.String()+" is not in people.yaml, or may be one of several")
		}
		t.People = append(t.People, one)
	}
	switch {
	case len(t.People) > 0:
		t.words = "read as " + teamWords(t)
	case team.None != people.Stated:
		t.words = noneSaid(team.None == people.NotRecorded, team.None == people.Illegible)
		if t.Number != "" {
			t.words += "; number " + t.Number
		}
	default:
		if len(t.Bodies) > 0 {
			t.words = "read as no person: " + strings.Join(t.Bodies, "; ")
			return t
		}
		t.Error = "no person can be read in these words"
	}
	return t
}

// teamWords are the persons in order, then the number.
func teamWords(t *collectorTold) string {
	var all []string
	for _, p := range t.People {
		name := people.Person{Given: p.Given, Particle: p.Particle, Family: p.Family, Suffix: p.Suffix}.String()
		if p.Known != "" && p.Known != name {
			name += " (" + p.Known + ")"
		}
		all = append(all, name)
	}
	s := strings.Join(all, "; ")
	if t.Others {
		s += "; and others"
	}
	if t.Number != "" {
		s += "; number " + t.Number
	}
	return s
}

func (t *collectorTold) lines() []string { return t.linesWith(t.words) }
