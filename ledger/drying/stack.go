package drying

import (
	"fmt"
	"iter"
	"math"
)

// Build is how a stack is laid.
type Build string

// The ways of laying a stack.
const (
	// Plain: board, blotter, fold, blotter, board. Common practice, no source.
	Plain Build = "plain"
	// Corrugated, for warm air: frame, corrugate, blotter, fold, blotter,
	// corrugate ... frame (layout as Florida Museum herbarium, voucher
	// preparation).
	Corrugated Build = "corrugated"
	// Bagged, for alcohol: folds alone, in an unholed bag (R. Liesner, Field
	// techniques used by MO, preserve).
	Bagged Build = "bagged"
)

// Item is a thing that a stack is made of or a trip carries.
type Item string

// The items, in the order of a packing list.
const (
	Frame     Item = "press frame"
	Board     Item = "press board"
	Corrugate Item = "corrugate"
	Blotter   Item = "blotter"
	Fold      Item = "folded paper"
	Strap     Item = "strap"
	Bag       Item = "unholed bag"
)

// Quantity is so many of an item.
type Quantity struct {
	Item  Item
	Count int
}

// Layer is one thing in a stack. Plant is the plant in a fold, or next to which
// a blotter lies, counted from 1 at the bottom; 0 for what divides plants.
type Layer struct {
	Item  Item
	Plant int
}

// mostPlants bounds a stack, so that no count of a file can run away.
const mostPlants = 1_000_000

// divider is what lies between two plants, and what lies at both ends besides.
func (b Build) divider() (between, end Item, ok bool) {
	switch b {
	case Plain:
		return Board, "", true
	case Corrugated:
		return Corrugate, Frame, true
	case Bagged:
		return "", "", true
	}
	return "", "", false
}

func (b Build) check(n int) error {
	if _, _, ok := b.divider(); !ok {
		return fmt.Errorf("stack %q: one of %q", b, []Build{Plain, Corrugated, Bagged})
	}
	if n < 0 || n > mostPlants {
		return fmt.Errorf("stack of %d plants: between 0 and %d", n, mostPlants)
	}
	return nil
}

// Layers is the order in which things lie, from the bottom, for n plants in one
// stack: for one plant of a plain stack board, blotter, fold, blotter, board. No
// plants, or a build that is none, have no layers.
func (b Build) Layers(n int) iter.Seq[Layer] {
	return func(yield func(Layer) bool) {
		if n == 0 || b.check(n) != nil {
			return
		}
		between, end, _ := b.divider()
		if b == Bagged {
			for plant := 1; plant <= n && yield(Layer{Fold, plant}); plant++ {
			}
			return
		}
		if end != "" && !yield(Layer{Item: end}) || !yield(Layer{Item: between}) {
			return
		}
		for plant := 1; plant <= n; plant++ {
			for _, l := range [4]Layer{{Blotter, plant}, {Fold, plant}, {Blotter, plant}, {Item: between}} {
				if !yield(l) {
					return
				}
			}
		}
		if end != "" {
			yield(Layer{Item: end})
		}
	}
}

// Counts is how many of each item one stack of n plants takes: plain, n+1
// boards, 2n blotters, n folds; corrugated, 2 frames, n+1 corrugates, 2n
// blotters, n folds; bagged, n folds and a bag.
func (b Build) Counts(n int) ([]Quantity, error) {
	if err := b.check(n); err != nil || n == 0 {
		return nil, err
	}
	switch b {
	case Plain:
		return []Quantity{{Board, n + 1}, {Blotter, 2 * n}, {Fold, n}}, nil
	case Corrugated:
		return []Quantity{{Frame, 2}, {Corrugate, n + 1}, {Blotter, 2 * n}, {Fold, n}}, nil
	}
	return []Quantity{{Fold, n}, {Bag, 1}}, nil
}

// Thickness is what items measure, in mm each; a fold without its plant.
type Thickness struct {
	Frame, Board, Corrugate, Blotter, Fold float64
}

func (t Thickness) of(i Item) float64 {
	switch i {
	case Frame:
		return t.Frame
	case Board:
		return t.Board
	case Corrugate:
		return t.Corrugate
	case Blotter:
		return t.Blotter
	case Fold:
		return t.Fold
	}
	return 0
}

func (t Thickness) problem() string {
	for _, v := range [5]float64{t.Frame, t.Board, t.Corrugate, t.Blotter, t.Fold} {
		if !(v >= 0 && v <= 1000) {
			return fmt.Sprintf("an item %v mm thick: between 0 and 1,000", v)
		}
	}
	return ""
}

// Height is how high a stack of plants stands when it is built, in mm: the
// items and the thickness of each plant. Under the straps it sinks.
func (b Build) Height(plants []float64, t Thickness) (float64, error) {
	counts, err := b.Counts(len(plants))
	if err != nil {
		return 0, err
	}
	if why := t.problem(); why != "" {
		return 0, fmt.Errorf("stack: %s", why)
	}
	height := 0.0
	for _, q := range counts {
		height += float64(q.Count) * t.of(q.Item)
	}
	for i, p := range plants {
		if !(p >= 0 && p <= 1000) {
			return 0, fmt.Errorf("stack: plant %d is %v mm thick: between 0 and 1,000", i+1, p)
		}
		height += p
	}
	return height, nil
}

// Litres is how much alcohol a bagged stack of a height in mm takes: from when
// a litre serves the highest stack that it may, to when it serves the lowest.
// Zeros when the settings have no figure.
func (k Keeping) Litres(height float64) (from, to float64) {
	if !(k.LitreFrom > 0 && k.LitreTo >= k.LitreFrom && height > 0) {
		return 0, 0
	}
	return height / k.LitreTo, height / k.LitreFrom
}

// Trip is what is to be pressed away from home.
type Trip struct {
	Presses  int     // stacks in use at one time
	Plants   int     // in each
	Build    Build   // how each is laid
	Plant    float64 // mm, a plant of middling thickness
	Blotters int     // sets of blotters: 1 those in the press, 2 when one set dries while the other is in use
	Straps   int     // for each press; none for bags
	Spare    float64 // share to take along besides: 0.1 for a tenth
}

// Packing is what a trip carries.
type Packing struct {
	Items                []Quantity
	Height               float64 // mm, of one stack
	LitresFrom, LitresTo float64 // alcohol for all bags
}

// Presses is how many presses of plants each hold what a trip of days brings at
// so many plants a day, when each lies there for dryingDays: what is pressed on
// the first day leaves its press after them and makes room.
func Presses(days, plantsADay, dryingDays, plants int) (int, error) {
	if days < 0 || plantsADay < 0 || dryingDays < 1 || plants < 1 || days > longest || plantsADay > mostPlants {
		return 0, fmt.Errorf("presses: %d days of %d plants, %d days of drying, %d plants a press: counts are above 0", days, plantsADay, dryingDays, plants)
	}
	at := min(days, dryingDays) * plantsADay
	return (at + plants - 1) / plants, nil
}

// Pack is the packing list of a trip. Spares are rounded up, item by item;
// boards and frames, which do not wear, have none.
func (t Trip) Pack(th Thickness, k Keeping) (Packing, error) {
	if t.Presses < 0 || t.Presses > 10000 || t.Blotters < 1 || t.Blotters > 100 || t.Straps < 0 || t.Straps > 100 || !(t.Spare >= 0 && t.Spare <= 10) {
		return Packing{}, fmt.Errorf("packing list: %d presses, %d sets of blotters, %d straps, spare %v: more, or fewer, than can be", t.Presses, t.Blotters, t.Straps, t.Spare)
	}
	counts, err := t.Build.Counts(t.Plants)
	if err != nil {
		return Packing{}, fmt.Errorf("packing list: %w", err)
	}
	if why := th.problem(); why != "" || !(t.Plant >= 0 && t.Plant <= 1000) {
		return Packing{}, fmt.Errorf("packing list: a plant of %v mm: %s", t.Plant, why)
	}
	var out Packing
	for _, q := range counts {
		out.Height += float64(q.Count) * th.of(q.Item)
	}
	out.Height += float64(t.Plants) * t.Plant
	if t.Build == Bagged {
		from, to := k.Litres(out.Height)
		out.LitresFrom, out.LitresTo = from*float64(t.Presses), to*float64(t.Presses)
	} else if t.Plants > 0 && t.Straps > 0 {
		counts = append(counts, Quantity{Strap, t.Straps})
	}
	for _, q := range counts {
		n := q.Count * t.Presses
		switch q.Item {
		case Blotter:
			n *= t.Blotters
		case Bag:
			if k.LitreTo > 0 { // a bag holds what a litre serves
				n = t.Presses * max(1, int(math.Ceil(out.Height/k.LitreTo-1e-9)))
			}
		}
		if q.Item != Board && q.Item != Frame {
			n += int(math.Ceil(float64(n)*t.Spare - 1e-9))
		}
		out.Items = append(out.Items, Quantity{q.Item, n})
	}
	return out, nil
}
