package public

// Person is words that name people as everybody may see them: those who asked
// for it by initials. It is for names that stand in no record, such as the
// author of a commit.
func (v *View) Person(words string) string { return v.initials.names(words) }
