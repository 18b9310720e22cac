package render

import (
	"context"

	"blotter/ledger/public"
	"blotter/render/page"
)

// AssembleStaff makes the Input of a site in which everything is shown, for
// the museum's own staff; each of its pages says so.
func AssembleStaff(ctx context.Context, s Sources) (*Input, error) {
	v := public.ForStaff(s.Book)
	in := s.input(v)
	in.Marks = public.Of(s.Book).Why
	in.Work = s.Work
	if s.History == nil {
		return in, nil
	}
	return in, s.tell(ctx, in, v, nil)
}

// staffNotice is what every page of the staff's site begins with.
func (s *shelf) staffNotice() page.Notice {
	return page.Notice{Kind: page.WithheldNotice, Word: page.Said(s.lang.StaffOnlyWord), Text: []page.Part{said(s.lang.StaffOnly)}}
}

// mark says on the staff's page of a sheet why the public does not see all of
// it, and how much is shown.
func (x *sheet) mark() []page.Part {
	if x.in.Marks == nil {
		return nil
	}
	w := x.in.Marks(x.r)
	if w == nil {
		return nil
	}
	text := page.Fill(x.lang.StaffMark, w.Reason(), w.Class.Category())
	if w.Name != "" {
		text += " " + page.Fill(x.lang.StaffMarkName, w.Name)
	}
	return []page.Part{said(text)}
}
