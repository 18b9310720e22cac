package gitrepo

import (
	"cmp"
	"container/heap"
	"context"
	"slices"
	"time"
)

// node is one commit of the graph while it is put in order.
type node struct {
	id      string
	when    time.Time
	parents []*node
	seen    bool // read and queued
	known   bool // reachable from what the caller knows
	waiting int  // children not yet given out
}

// nodeQueue gives the youngest commit first, among equals the one put first.
type nodeQueue struct {
	nodes []*node
	seq   map[*node]int
}

func (q *nodeQueue) Len() int { return len(q.nodes) }
func (q *nodeQueue) Less(i, j int) bool {
	a, b := q.nodes[i], q.nodes[j]
	return cmp.Or(b.when.Compare(a.when), q.seq[a]-q.seq[b]) < 0
}
func (q *nodeQueue) Swap(i, j int) { q.nodes[i], q.nodes[j] = q.nodes[j], q.nodes[i] }
func (q *nodeQueue) Push(x any) {
	n := x.(*node)
	q.seq[n] = len(q.seq)
	q.nodes = append(q.nodes, n)
}
func (q *nodeQueue) Pop() any {
	n := q.nodes[len(q.nodes)-1]
	q.nodes = q.nodes[:len(q.nodes)-1]
	return n
}

// graph reads commits into nodes.
type graph struct {
	r     *Repo
	ctx   context.Context
	nodes map[string]*node
	cut   map[string]bool
	queue nodeQueue
}

// slop is how many commits more are looked at once everything in sight is
// known, so that a clock that was wrong does not let a known commit through.
const slop = 64

// topoOrder lists the commits reachable from tips and not from known,
// children first, lines of descent kept together, in the order of
// `git rev-list --topo-order`.
func (r *Repo) topoOrder(ctx context.Context, tips, known []string) ([]string, error) {
	g := &graph{r: r, ctx: ctx, nodes: map[string]*node{}, cut: map[string]bool{}, queue: nodeQueue{seq: map[*node]int{}}}
	missing, err := r.Missing()
	if err != nil {
		return nil, err
	}
	for _, id := range missing {
		g.cut[id] = true
	}
	for _, id := range slices.Concat(tips, known) {
		if _, err := g.enqueue(id); err != nil {
			return nil, err
		}
	}
	for _, id := range known {
		g.spread(g.nodes[id])
	}
	found, err := g.walk()
	if err != nil {
		return nil, err
	}
	return inOrder(found), nil
}

// enqueue reads commit id, once, and puts it in the queue.
func (g *graph) enqueue(id string) (*node, error) {
	n := g.node(id)
	if n.seen {
		return n, nil
	}
	body, err := g.r.readAs(g.ctx, "commit", id)
	if err != nil {
		return nil, err
	}
	n.seen = true
	for _, line := range headerLines(body) {
		switch line.key {
		case "parent":
			if !g.cut[id] {
				n.parents = append(n.parents, g.node(line.value))
			}
		case "committer":
			n.when = parsePerson(line.value).When
		}
	}
	heap.Push(&g.queue, n)
	return n, nil
}

func (g *graph) node(id string) *node {
	n := g.nodes[id]
	if n == nil {
		n = &node{id: id}
		g.nodes[id] = n
	}
	return n
}

// spread marks n and all of its ancestors read so far as known.
func (g *graph) spread(n *node) {
	stack := []*node{n}
	for len(stack) > 0 {
		n, stack = stack[len(stack)-1], stack[:len(stack)-1]
		if n.known {
			continue
		}
		n.known = true
		stack = append(stack, n.parents...)
	}
}

// walk reads commits, youngest first, until only known ones are left, and
// lists the others.
func (g *graph) walk() ([]*node, error) {
	var found []*node
	for extra := 0; g.queue.Len() > 0 && extra < slop; {
		n := heap.Pop(&g.queue).(*node)
		for _, p := range n.parents {
			if _, err := g.enqueue(p.id); err != nil {
				return nil, err
			}
			if n.known {
				g.spread(p)
			}
		}
		if n.known {
			if !slices.ContainsFunc(g.queue.nodes, func(n *node) bool { return !n.known }) {
				extra++
			}
			continue
		}
		extra = 0
		found = append(found, n)
	}
	return slices.DeleteFunc(found, func(n *node) bool { return n.known }), nil
}

// inOrder sorts commits topologically as git does: a stack of those whose
// children are all out, first parents last.
func inOrder(found []*node) []string {
	for _, n := range found {
		n.waiting = 1
	}
	for _, n := range found {
		for _, p := range n.parents {
			if p.waiting > 0 {
				p.waiting++
			}
		}
	}
	var stack []*node
	for _, n := range slices.Backward(found) {
		if n.waiting == 1 {
			stack = append(stack, n)
		}
	}
	out := make([]string, 0, len(found))
	for len(stack) > 0 {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, p := range n.parents {
			if p.waiting == 0 {
				continue
			}
			if p.waiting--; p.waiting == 1 {
				stack = append(stack, p)
			}
		}
		n.waiting = 0
		out = append(out, n.id)
	}
	return out
}
