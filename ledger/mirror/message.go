package mirror

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// message says what a commit did, composed anew.
func (w *writer) message(ctx context.Context, s gitrepo.Step, moves []move) (string, error) {
	if len(s.Commit.Parents) > 1 {
		return w.together(ctx, s)
	}
	renumbered := history.Moves(s.Commit.Message)
	var done []history.Done
	var others []string
	shown := map[ledger.Number]bool{} // numbers of plants that everybody may see before and after
	for _, m := range moves {
		if m.name[0] == '/' {
			others = append(others, m.to)
			continue
		}
		n := ledger.Number(m.name)
		a, b, err := w.both(ctx, n, m.old, m.now)
		if err != nil {
			return "", err
		}
		shown[n] = a.ready() || b.ready()
		done = append(done, history.Done{Number: n, Act: actOfMove(renumbered, n, a, b)})
	}
	if len(done)+len(others) == 0 {
		return "Nothing altered that is public\n", nil
	}
	slices.SortFunc(done, func(a, b history.Done) int { return strings.Compare(string(a.Number), string(b.Number)) })
	text := history.Tell(done, others)
	lines := ""
	for i, m := range renumbered {
		switch {
		case !shown[m.From] || !shown[m.To]:
		case !m.Swap:
			lines += fmt.Sprintf("%s: %s %s\n", history.RenumberedKey, m.From, m.To)
		case i == 0 || renumbered[i-1] != (history.Move{From: m.To, To: m.From, Reason: m.Reason, Swap: true}):
			lines += fmt.Sprintf("%s: %s %s\n", history.SwappedKey, m.From, m.To)
		}
	}
	if lines != "" {
		text += "\n" + lines
	}
	return text, nil
}

// together is the message of a merge.
func (w *writer) together(ctx context.Context, s gitrepo.Step) (string, error) {
	var done []history.Done
	p := w.place[s.Commit.ID]
	for _, n := range w.History.Touched(p) {
		if !n.Valid() {
			continue
		}
		r, _ := w.History.At(p, n)
		a, b, err := w.both(ctx, n, formerOf(r), r.Blob)
		if err != nil {
			return "", err
		}
		done = append(done, history.Done{Number: n, Act: act(a, b)})
	}
	text := fmt.Sprintf("%d lines of work brought together\n", len(s.Commit.Parents))
	if len(done) > 0 {
		text += "\n" + history.Tell(done, nil)
	}
	return text, nil
}

// both reads a number's version before and after.
func (w *writer) both(ctx context.Context, n ledger.Number, old, now ledger.BlobID) (a, b *sheet, err error) {
	if a, err = w.read(ctx, n, old); err == nil {
		b, err = w.read(ctx, n, now)
	}
	return a, b, err
}

// actOfMove is act, of an entry that lets plants go on under other numbers.
func actOfMove(moves []history.Move, n ledger.Number, old, now *sheet) history.Act {
	if m, came := history.MovedFrom(moves, n); came && now.ready() {
		return history.Act{Word: "renumbered", Detail: "was " + string(m.From)}
	}
	if m, left := history.MovedTo(moves, n); left && old.ready() && !now.ready() {
		return history.Act{Word: "renumbered", Detail: "now " + string(m.To)}
	}
	return act(old, now)
}

// formerOf is the first version before a revision that is another: of a merge in
// which a person decided for the first parent's, that of the second.
func formerOf(r history.Revision) ledger.BlobID {
	for _, o := range r.Olds {
		if o != "" && o != r.Blob {
			return o
		}
	}
	return ""
}
