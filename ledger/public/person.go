package public

import "strings"

// Person is words that name people as everybody may see them: those who asked
// for it by initials, and nobody by an address of mail, which some have for
// their name in git. It is for names that stand in no record, such as the
// author of a commit.
func (v *View) Person(words string) string {
	if strings.Contains(words, "@") && !v.staff {
		words = v.byMail(strings.Trim(words, "<> "))
	}
	return v.initials.names(words)
}

// byMail is the person of people.yaml who has an address; unsigned when nobody
// has it.
func (v *View) byMail(address string) string {
	for i := range v.full.Museum.People.All {
		if p := &v.full.Museum.People.All[i]; strings.EqualFold(p.Email.Text, address) {
			return p.Name.Text
		}
	}
	return "unsigned"
}
