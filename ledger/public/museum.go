package public

import (
	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// museum is the museum's files without what nobody may see.
func (v *View) museum() *book.Museum {
	m := *v.full.Museum
	m.Findings = nil
	m.Museum = v.settings()
	m.People = m.People.Map(v.person)
	if !v.initials.none() {
		m.Names = m.Names.Map(func(n ledger.NameEntry) ledger.NameEntry {
			n.By.Text, n.Source.Text = v.initials.names(n.By.Text), v.initials.text(n.Source.Text)
			return n
		})
	}
	return &m
}

// settings is blotter.yaml without what is the staff's.
func (v *View) settings() ledger.Museum {
	m := v.full.Museum.Museum
	m.Severity, m.Blocks, m.Sensitive, m.Checks = nil, nil, ledger.Stricter{}, ledger.Checks{}
	return m
}

// person is what everybody may know of a person in people.yaml.
func (v *View) person(p ledger.Person) ledger.Person {
	p.Email = ledger.Leaf{}
	if perhapsLiving(&p) {
		p.Born = ledger.Leaf{}
	}
	if p.Initials.Text == "yes" || v.today != nil && v.initials.asked(p.Name.Text) != nil {
		p.Initials.Text = "yes"
		p = ledger.Person{Name: ledger.Leaf{Text: v.initials.of(p.Name.Text)}, Initials: p.Initials}
	}
	return p
}

// surelyDead is the year before which nobody was born who lives: the greatest
// age that is known is 122 years (common knowledge, no source), and this year
// only grows safer.
const surelyDead = 1900

// perhapsLiving reports whether a person may be alive: people.yaml has no
// death, and no birth so long ago that there must have been one. Neither day
// nor year of such a birth is shown.
func perhapsLiving(p *ledger.Person) bool {
	if p.Died.Set() {
		return false
	}
	born := dates.Read(p.Born.Text, dates.Ask)
	return !born.Known() || born.OpenEnd || born.Last.Year() >= surelyDead
}
