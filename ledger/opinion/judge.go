package opinion

import (
	"slices"
	"strings"
)

// taxon is one name-giving opinion with all that later befell it.
type taxon struct {
	det    int        // the entry that gave it
	name   int        // the entry whose words name it now
	last   int        // the entry that gave or last renewed it
	rank   int        // place of last in the order
	names  [][]string // its names: given, then by each name-change
	denied []string   // names that a later `not` took away
	ended  int        // the `not` that took the last of them; -1
	aside  bool       // of a duplicate, not yet agreed with
	state  State
}

type judge struct {
	given   []Given
	chain   Chain
	taxa    []taxon
	of      []int          // entry -> its taxon; -1
	touched []int          // taxa in the order in which they were given or renewed
	byName  map[string]int // names -> the taxon last given or renewed under them
	lastSay int            // place in the order of the last name or agreement
	pos     []int          // entry -> place in the order
}

func newJudge(given []Given) *judge {
	n := len(given)
	j := &judge{given: given, of: fill(n), byName: map[string]int{}, lastSay: -1, pos: make([]int, n)}
	j.chain = Chain{Order: order(given), States: make([]State, n), Links: fill(n), EndedBy: fill(n), Current: -1, Opinion: -1}
	for p, e := range j.chain.Order {
		j.pos[e] = p
	}
	return j
}

func fill(n int) []int {
	return slices.Repeat([]int{-1}, n)
}

func key(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	s := slices.Clone(names)
	slices.Sort(s)
	return strings.Join(slices.Compact(s), "\n")
}

func (j *judge) open(e, pos int) {
	j.taxa = append(j.taxa, taxon{det: e, name: e, last: e, rank: pos, names: [][]string{j.given[e].Names}, ended: -1, aside: j.given[e].Aside})
	j.touched = append(j.touched, len(j.taxa)-1)
	j.join(e, len(j.taxa)-1, pos)
}

// join makes entry e part of taxon t.
func (j *judge) join(e, t, pos int) {
	j.of[e] = t
	for _, names := range j.taxa[t].names {
		if _, have := j.byName[key(names)]; !have || !j.taxa[t].aside {
			j.byName[key(names)] = t
		}
	}
	if !j.taxa[t].aside {
		j.lastSay = pos
	}
}

// confirm renews the opinion that a conf agrees with: the last one of its
// name, or without a name the one that stood. A conf of a name that nobody
// gave here is an opinion of its own.
func (j *judge) confirm(e, pos int) {
	t, ok := -1, false
	if names := j.given[e].Names; len(names) > 0 {
		if t, ok = j.byName[key(names)]; !ok {
			j.open(e, pos)
			return
		}
	} else if t = j.latest(j.given[e].Part); t < 0 {
		return
	}
	x := &j.taxa[t]
	if j.given[e].Aside { // it agrees, and renews nothing
		j.of[e], j.chain.Links[e] = t, x.det
		return
	}
	x.rank, x.last, x.ended, x.denied, x.aside = pos, e, -1, nil, false
	j.chain.Links[e] = x.det
	j.touched = append(j.touched, t)
	j.join(e, t, pos)
}

func (j *judge) rename(e, pos int) {
	t := j.latest(j.given[e].Part)
	if t < 0 {
		j.open(e, pos)
		return
	}
	x := &j.taxa[t]
	x.names = append(x.names, j.given[e].Names)
	x.name = e
	j.chain.Links[e] = x.det
	j.join(e, t, pos)
}

func (j *judge) deny(e int) {
	if len(j.given[e].Names) == 0 || j.given[e].Aside {
		return
	}
	part := j.given[e].Part
	for i := range j.taxa {
		t := &j.taxa[i]
		if t.ended >= 0 || part != "" && part != j.given[t.det].Part && j.given[t.det].Part != "" {
			continue
		}
		t.denied = append(t.denied, j.given[e].Names...)
		if slices.ContainsFunc(t.names, func(names []string) bool { return allDenied(names, t.denied) }) {
			t.ended = e
		}
	}
}

func allDenied(names, denied []string) bool {
	for _, n := range names {
		if !slices.ContainsFunc(denied, func(d string) bool { return Within(n, d) }) {
			return false
		}
	}
	return len(names) > 0
}

// latest is the taxon that stands for a part (the whole specimen when part is
// ""); a part that nobody named apart goes by the name of the whole.
func (j *judge) latest(part string) int {
	whole := -1
	for k := len(j.touched) - 1; k >= 0; k-- {
		t := j.touched[k]
		if j.taxa[t].ended >= 0 || j.taxa[t].aside {
			continue
		}
		p := j.given[j.taxa[t].det].Part
		switch {
		case p == part, part == "" && !IsAdmixture(p):
			return t
		case p == "" && whole < 0:
			whole = t
		}
	}
	return whole
}

// settle sets the state of each taxon: walking back from the newest, the
// first that speaks of the whole specimen covers all before it, one that
// speaks of a part covers that part.
func (j *judge) settle(top int) {
	byRank := make([]int, len(j.taxa))
	for i := range byRank {
		byRank[i] = i
	}
	slices.SortFunc(byRank, func(a, b int) int { return j.taxa[b].rank - j.taxa[a].rank })
	covered := map[string]bool{}
	for _, i := range byRank {
		t := &j.taxa[i]
		if t.ended >= 0 {
			t.state = Ended
			continue
		}
		if t.aside {
			t.state = Aside
			continue
		}
		part := j.given[t.det].Part
		if !covered[""] && !covered[part] {
			t.state = Stands
		}
		covered[part] = true
	}
	if top >= 0 {
		j.chain.Current, j.chain.Opinion = j.taxa[top].name, j.taxa[top].det
	}
}

// dispute finds the opinions of other people that are as new as the current
// one, by the same dates, and name the plant otherwise.
func (j *judge) dispute(top int) {
	if top < 0 {
		return
	}
	cur := j.taxa[top]
	a := j.given[cur.last]
	for i := range j.taxa {
		t := &j.taxa[i]
		b := j.given[t.last]
		if i == top || t.ended >= 0 || t.aside || !a.Dated || !b.Dated || a.First != b.First || a.Last != b.Last || a.Label || b.Label {
			continue
		}
		if a.By != b.By && j.given[t.det].Part == j.given[cur.det].Part && !Same(j.given[t.name].Names, j.given[cur.name].Names) {
			t.state = Stands
			j.chain.Disputed = true
		}
	}
}

// file lets the record's filed_under decide. A filing under the species of a
// subspecies, or the other way about, disputes nothing.
func (j *judge) file(top int, filed []string) {
	if len(filed) == 0 {
		return
	}
	j.chain.Filed = true
	if top >= 0 && !agree(j.given[j.taxa[top].name].Names, filed) {
		j.chain.Disputed = true
	}
	j.chain.Current, j.chain.Opinion = -1, -1
	if t, ok := j.byName[key(filed)]; ok && Same(j.given[j.taxa[t].name].Names, filed) {
		j.taxa[t].state = Stands
		j.chain.Current, j.chain.Opinion = j.taxa[t].name, j.taxa[t].det
	}
}

func agree(a, b []string) bool {
	if len(a) == 1 && len(b) == 1 {
		return Within(a[0], b[0]) || Within(b[0], a[0])
	}
	return Same(a, b)
}

// spread gives each entry the state of its taxon; a `not` stands until
// somebody names the plant after it.
func (j *judge) spread() {
	for e, t := range j.of {
		if j.given[e].Mistake {
			continue
		}
		if t >= 0 {
			j.chain.States[e] = j.taxa[t].state
			j.chain.EndedBy[e] = j.taxa[t].ended
		} else if j.given[e].Kind == Not && !j.given[e].Aside && j.pos[e] > j.lastSay {
			j.chain.States[e] = Stands
		}
	}
}
