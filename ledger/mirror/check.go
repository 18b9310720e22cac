package mirror

import (
	"context"

	"blotter/ledger/gitrepo"
)

// Standing is what Check found.
type Standing struct {
	Objects int
	Commits int    // in the mirror; 0 when nothing is kept of it
	Behind  int    // commits of the ledger that it lacks
	Anew    Reason // why the next run would make it anew
}

// Check looks through every object of the mirror in target for what is
// withheld now, in any version, and for anything that no run put there;
// nothing is changed. The error is a *Leaked or a *Foreign.
func (j *Job) Check(ctx context.Context, target *gitrepo.Bare) (*Standing, error) {
	ids, old, err := j.standing(ctx, target)
	if err != nil {
		return nil, err
	}
	s, err := j.survey(ctx)
	if err != nil {
		return nil, err
	}
	secrets, err := s.secrets(ctx)
	if err != nil {
		return nil, err
	}
	x := newInspector(secrets, old)
	x.led = map[gitrepo.ObjectID]bool{}
	if err := target.Each(ctx, x.object); err != nil {
		return nil, err
	}
	if err := x.end(ctx); err != nil {
		return nil, err
	}
	tip, err := target.Tip(ctx)
	if err != nil {
		return nil, err
	}
	other := firstOther(ids, func(id gitrepo.ObjectID) bool { return x.led[id] || id.Hex() == tip })
	if other != "" {
		return nil, &Foreign{"objects that its branch does not lead to, for example " + other}
	}
	w := &writer{survey: s, target: target, state: newState()}
	out := &Standing{Objects: x.objects, Behind: j.History.Len()}
	if out.Anew, err = w.goOn(ctx, old, ids); err != nil {
		return nil, err
	}
	if old != nil {
		out.Commits = len(old.commits)
		for id := range w.place {
			if _, ok := old.commits[id]; ok {
				out.Behind--
			}
		}
	}
	return out, nil
}
