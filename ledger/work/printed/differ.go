package printed

import "slices"

// Words are those of one piece of paper, part by part, in its order.
type Words []Part

// Part is a named part of it: name, place.
type Part struct{ Name, Text string }

// Difference is a part of a paper that would now read otherwise.
type Difference struct {
	Part    string
	Was, Is string // "": it is not on the paper
}

// Differ compares the papers of a sheet as they were printed with those that
// would be printed now. Papers that are as they were do not count, nor, of
// papers that are many, those that are new: they were never printed. The i-th
// of those that are gone is held against the i-th of those that came.
func Differ(was, is []Words) []Difference {
	gone, came := without(was, is), without(is, was)
	var all []Difference
	for i, old := range gone {
		var now Words
		if i < len(came) {
			now = came[i]
		}
		all = append(all, old.differ(now)...)
	}
	return all
}

// without are the papers of a that are not among b, each counted once.
func without(a, b []Words) []Words {
	left := slices.Clone(b)
	var out []Words
	for _, x := range a {
		if i := slices.IndexFunc(left, func(y Words) bool { return slices.Equal(x, y) }); i >= 0 {
			left = slices.Delete(left, i, i+1)
			continue
		}
		out = append(out, x)
	}
	return out
}

// differ are the parts of w and v that are not the same, in the order of w,
// those that v has more after them.
func (w Words) differ(v Words) []Difference {
	var all []Difference
	for _, p := range w {
		if now := v.text(p.Name); now != p.Text {
			all = append(all, Difference{p.Name, p.Text, now})
		}
	}
	for _, p := range v {
		if !slices.ContainsFunc(w, func(o Part) bool { return o.Name == p.Name }) {
			all = append(all, Difference{p.Name, "", p.Text})
		}
	}
	return all
}

func (w Words) text(name string) string {
	for _, p := range w {
		if p.Name == name {
			return p.Text
		}
	}
	return ""
}
