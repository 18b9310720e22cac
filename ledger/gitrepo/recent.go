package gitrepo

// recent keeps the bodies of the objects of a pack that were read last, as
// many as fit, in one piece of memory that is written around and around.
type recent struct {
	room  []byte
	next  int64 // where the next body begins, counted without end
	spans []span
}

// span is where the body of one object lies, counted without end.
type span struct {
	at   int64
	size int32
	kept bool
}

// recentRoom is the most memory for bodies, in bytes. In git's packs what
// differs little lies together, so that little of it suffices.
const recentRoom = 8 << 20

// newRecent makes room for so many bytes; what does not fit is read again.
func newRecent(room int64) recent { return recent{room: make([]byte, room)} }

// largest is the size of the largest body that is kept.
func (r *recent) largest() int { return len(r.room) / 8 }

// skip leaves the next object out.
func (r *recent) skip() { r.spans = append(r.spans, span{}) }

// put keeps the body of the next object.
func (r *recent) put(body []byte) {
	if len(body) > r.largest() {
		r.skip()
		return
	}
	n := int64(len(r.room))
	if r.next%n+int64(len(body)) > n { // bodies lie in one piece
		r.next += n - r.next%n
	}
	copy(r.room[r.next%n:], body)
	r.spans = append(r.spans, span{r.next, int32(len(body)), true})
	r.next += int64(len(body))
}

// get is the body of the i-th object until the next put; nil when it is not
// kept any more.
func (r *recent) get(i int) []byte {
	s := r.spans[i]
	n := int64(len(r.room))
	if !s.kept || s.at < r.next-n {
		return nil
	}
	from := s.at % n
	return r.room[from : from+int64(s.size) : from+int64(s.size)]
}
