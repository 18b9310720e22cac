// Package opinion says which of a record's determinations stands: the current
// name, what is earlier, renewed, ended or disputed (FORMAT.md, "The current
// name"). It is pure logic on what the readers made of the words; it reads no
// text, looks up no accepted name and changes no order in the record.
package opinion

import "strings"

// Kind is what a determination does.
type Kind uint8

const (
	Det        Kind = iota // somebody looked and names it
	Conf                   // somebody looked and agrees
	Not                    // somebody looked and it is not that
	NameChange             // another name for the same plant; nobody looked
)

// KindOf reads the words of a determination's kind. Empty and unknown words
// read as Det: a name given in a way that we do not know still counts.
func KindOf(text string) Kind {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "conf":
		return Conf
	case "not":
		return Not
	case "name-change":
		return NameChange
	}
	return Det
}

func (k Kind) String() string { return [...]string{"det", "conf", "not", "name-change"}[k] }

// Given is one determination as the readers read it.
type Given struct {
	Kind    Kind
	Names   []string // canonical names without authors and qualifiers; two or more for `A or B`; none: the entry has no name
	By      string   // as written
	Part    string   // as written; "": the whole specimen
	Label   bool     // the name on the original label (from: label)
	Mistake bool     // marked as entered by mistake
	Aside   bool     // of a duplicate elsewhere (seen: duplicate): nobody looked at this specimen
	Dated   bool     // First and Last hold
	First   int32    // first day it may have been given on, in days since 1970-01-01
	Last    int32    // last such day
}

// State is what became of one opinion.
type State uint8

const (
	Earlier State = iota // a later opinion took its place
	Stands               // nothing has taken its place
	Mistake              // entered by mistake: kept, shown, never current
	Ended                // a later `not` says that it is not this
	Aside                // of a duplicate, and nobody who saw this specimen agreed
)

func (s State) String() string {
	return [...]string{"earlier", "stands", "mistake", "ended", "of a duplicate"}[s]
}

// Chain is what a list of determinations amounts to. Slices other than Order
// have one element for each entry, in the order of the record.
type Chain struct {
	Order    []int   // the entries, oldest first: by date where dates decide, else as the writer has them
	States   []State //
	Links    []int   // for a conf, the entry that it renews; for a name-change, the one that it renames; -1: none
	EndedBy  []int   // the `not` that ended it; -1: none
	Current  int     // the entry whose words are the current name; -1: none, or the words of filed_under
	Opinion  int     // the det behind Current; another entry than Current after a name-change; -1: none
	Filed    bool    // the record's filed_under decides
	Disputed bool    // two opinions stand for the same plant
}

// Judge applies the rule of the current name: the latest det that is not a
// mistake, where a conf renews the one that it confirms and `not A` ends A
// and what lies below A, unless filed (the canonical names of the record's
// filed_under, nil when it has none) says otherwise. A name given to an
// admixture is never that of the specimen; one given to a duplicate is only
// when a conf of the specimen agrees with it.
func Judge(given []Given, filed []string) Chain {
	j := newJudge(given)
	for pos, e := range j.chain.Order {
		if given[e].Mistake {
			j.chain.States[e] = Mistake
			continue
		}
		switch given[e].Kind {
		case Det:
			j.open(e, pos)
		case Conf:
			j.confirm(e, pos)
		case Not:
			j.deny(e)
		case NameChange:
			j.rename(e, pos)
		}
	}
	top := j.latest("")
	j.settle(top)
	j.dispute(top)
	j.file(top, filed)
	j.spread()
	return j.chain
}

// order arranges the entries oldest first: each stands before the first entry
// of the writer's order that is certainly later, so dates that overlap and
// entries without a date stay as written.
func order(given []Given) []int {
	out := make([]int, 0, len(given))
	var newest int32 // the greatest First in out
	dated := false
	for i, g := range given {
		if !g.Dated || !dated || g.Last >= newest {
			out = append(out, i)
		} else {
			out = insertBefore(out, i, func(x int) bool { return given[x].Dated && given[x].First > g.Last })
		}
		if g.Dated && (!dated || g.First > newest) {
			newest, dated = g.First, true
		}
	}
	return out
}

func insertBefore(out []int, e int, later func(int) bool) []int {
	at := len(out)
	for k, x := range out {
		if later(x) {
			at = k
			break
		}
	}
	out = append(out, 0)
	copy(out[at+1:], out[at:])
	out[at] = e
	return out
}

// Within reports whether canonical name n is of or lies below it: Ranunculus
// acris subsp. pumilus is within Ranunculus acris. A hybrid formula is within
// neither parent.
func Within(n, of string) bool {
	if n == of {
		return true
	}
	rest, ok := strings.CutPrefix(n, of+" ")
	return ok && of != "" && !strings.HasPrefix(rest, "×") && !strings.HasPrefix(rest, "x ")
}

// Same reports whether two determinations give the same names, in any order.
func Same(a, b []string) bool { return key(a) == key(b) }

// IsAdmixture reports whether a determination's part is something that lies
// among the specimen and is not it.
func IsAdmixture(part string) bool {
	return strings.HasPrefix(strings.ToLower(part), "admixture")
}
