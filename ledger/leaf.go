package ledger

// Leaf is one value as written: the characters of a YAML scalar after YAML's
// own quoting is undone, and where it stands. The zero Leaf is a field that
// the record does not have.
type Leaf struct {
	Text string
	Line int32 // from 1; 0: not in the file
	Col  int32 // code points from 1
}

// Set reports whether the record has the field with any words in it.
func (l Leaf) Set() bool { return l.Text != "" }

func (l Leaf) String() string { return l.Text }
