package gitrepo

import (
	"bytes"
	"container/heap"
	"context"
	"slices"
	"strconv"
)

// node is one commit of the graph while it is put in order.
type node struct {
	id      string
	body    []byte // of the commit object
	when    int64  // committer's second
	seq     int    // place in the order of reading
	parents []*node
	known   bool // reachable from what the caller knows
	queued  bool
	waiting int // children not yet given out, and one
}

// nodeQueue gives the youngest commit first, among equals the one read first.
type nodeQueue []*node

func (q nodeQueue) Len() int { return len(q) }
func (q nodeQueue) Less(i, j int) bool {
	return q[i].when > q[j].when || q[i].when == q[j].when && q[i].seq < q[j].seq
}
func (q nodeQueue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *nodeQueue) Push(x any)   { *q = append(*q, x.(*node)) }
func (q *nodeQueue) Pop() any {
	n := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return n
}

// graph reads commits into nodes.
type graph struct {
	r     *Repo
	ctx   context.Context
	nodes map[string]*node
	cut   map[string]bool
	queue nodeQueue
	read  int // commits read
	open  int // commits in the queue that are not known
}

// slop is how many commits more are looked at once everything in sight is
// known, so that a clock that was wrong does not let a known commit through.
const slop = 64

// topoOrder lists the commits reachable from tips and not from known,
// children first, lines of descent kept together, in the order of
// `git rev-list --topo-order`.
func (r *Repo) topoOrder(ctx context.Context, tips, known []string) ([]*node, error) {
	g := &graph{r: r, ctx: ctx, nodes: map[string]*node{}, cut: map[string]bool{}}
	missing, err := r.Missing()
	if err != nil {
		return nil, err
	}
	for _, id := range missing {
		g.cut[id] = true
	}
	for _, id := range slices.Concat(tips, known) {
		if err := g.enqueue(g.node(id)); err != nil {
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

func (g *graph) node(id string) *node {
	n := g.nodes[id]
	if n == nil {
		n = &node{id: id}
		g.nodes[id] = n
	}
	return n
}

// enqueue reads a commit, once, and puts it in the queue.
func (g *graph) enqueue(n *node) (err error) {
	if n.body != nil {
		return nil
	}
	if n.body, err = g.r.readAs(g.ctx, "commit", n.id); err != nil {
		return err
	}
	for line := range bytes.Lines(n.body) {
		if id, ok := bytes.CutPrefix(line, []byte("parent ")); ok {
			if !g.cut[n.id] {
				n.parents = append(n.parents, g.node(string(id[:len(id)-1])))
			}
		} else if line, ok := bytes.CutPrefix(line, []byte("committer ")); ok {
			n.when = secondOf(line)
			break
		}
	}
	n.seq, n.queued = g.read, true
	g.read++
	if !n.known {
		g.open++
	}
	heap.Push(&g.queue, n)
	return nil
}

// secondOf is the moment in an identity line.
func secondOf(line []byte) int64 {
	f := bytes.Fields(line[bytes.LastIndexByte(line, '>')+1:])
	if len(f) == 0 {
		return 0
	}
	n, _ := strconv.ParseInt(string(f[0]), 10, 64)
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
		if n.queued {
			g.open--
		}
		stack = append(stack, n.parents...)
	}
}

// walk reads commits, youngest first, until only known ones are left, and
// lists the others.
func (g *graph) walk() ([]*node, error) {
	var found []*node
	for extra := 0; g.queue.Len() > 0 && extra < slop; {
		n := heap.Pop(&g.queue).(*node)
		n.queued = false
		if !n.known {
			g.open--
		}
		for _, p := range n.parents {
			if n.known {
				g.spread(p)
			}
			if err := g.enqueue(p); err != nil {
				return nil, err
			}
		}
		switch {
		case !n.known:
			extra = 0
			found = append(found, n)
		case g.open == 0:
			extra++
		}
	}
	return slices.DeleteFunc(found, func(n *node) bool { return n.known }), nil
}

// inOrder sorts commits topologically as git does: a stack of those whose
// children are all out, first parents last.
func inOrder(found []*node) []*node {
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
	out := make([]*node, 0, len(found))
	for len(stack) > 0 {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, p := range n.parents {
			if p.waiting > 1 {
				if p.waiting--; p.waiting == 1 {
					stack = append(stack, p)
				}
			}
		}
		n.waiting = 0
		out = append(out, n)
	}
	return out
}
