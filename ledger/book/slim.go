package book

// What the entries have that have nothing of a part.
var (
	noSeldom       = &Seldom{}
	noSeldomJudged = &SeldomJudged{}
	unjudged       = &Judged{SeldomJudged: noSeldomJudged}
)

// newEntry is an empty entry, to be filled in and then made slim.
func newEntry() Entry {
	return Entry{&Shown{Seldom: &Seldom{}}, &Judged{SeldomJudged: &SeldomJudged{}}}
}

// slim gives up the parts in which nothing stands.
func (e *Entry) slim() {
	if s := e.Seldom; s.Fate == "" && s.Fates == nil && s.Types == nil && s.Images == nil && s.Sums == nil {
		e.Shown.Seldom = noSeldom
	}
	if j := e.SeldomJudged; j.Findings == nil && j.Sic == nil && j.Links == nil && j.Mark == (Mark{}) && j.Beside == nil && j.Since == nil && j.Permit == "" {
		e.Judged.SeldomJudged = noSeldomJudged
	}
}

// Entry is the entry that shows s and has nothing that the checks look at.
func (s *Shown) Entry() Entry {
	if s.Seldom == nil {
		s.Seldom = noSeldom
	}
	return Entry{s, unjudged}
}
