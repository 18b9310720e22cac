package public

import "blotter/ledger"

// PeopleFile is what everybody may see of one version of people.yaml: of who
// asked for initials, then or now, nothing else.
func (v *View) PeopleFile(f *ledger.People) *ledger.People {
	out := &ledger.People{}
	for _, p := range f.People {
		if now := v.initials.people.Find(p.Name.Text); now != nil && now.Initials.Text == "yes" {
			p.Initials.Text = "yes"
		}
		if p.Initials.Text != "yes" {
			p.About.Text = v.initials.text(p.About.Text)
		}
		out.People = append(out.People, v.person(p))
	}
	return out
}

// NamesFile is what everybody may see of one version of a file of names/.
func (v *View) NamesFile(f *ledger.FamilyNames) *ledger.FamilyNames {
	out := &ledger.FamilyNames{Family: f.Family}
	for _, n := range f.Names {
		n.By.Text, n.Source.Text = v.initials.names(n.By.Text), v.initials.text(n.Source.Text)
		n.Sensitive.By.Text = v.initials.names(n.Sensitive.By.Text)
		out.Names = append(out.Names, n)
	}
	return out
}

// SettingsFile is the public part of one version of blotter.yaml: who keeps
// the ledger and how its words are to be read. What the staff check by and who
// has which numbers is left out, and so is how to reach them.
func (v *View) SettingsFile(m *ledger.Museum) *ledger.Museum {
	out := &ledger.Museum{Format: m.Format, Name: m.Name, Code: m.Code, Numbering: m.Numbering, Timezone: m.Timezone, Site: m.Site,
		PlaceLevels: m.PlaceLevels, Dates: m.Dates, Qualifiers: m.Qualifiers, Treated: m.Treated}
	out.Site.Contact = ledger.Leaf{}
	return out
}
