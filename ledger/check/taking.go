package check

import (
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

var takingRules = []Rule{
	{Code: "taken-share", Severity: ledger.Warning,
		Says: "Of wild plants no more were taken than one of so many that were seen as habits.collecting.one_in says.",
		Why:  "Never more than one of twenty, so none before twenty are found, is a rule of thumb for collectors (Wagner, Oregon Flora On-Line Newsletter 1(3), 1995); others find thirty first, or take 15 in the hundred. Duplicates of whole herbs are plants of their own, branches of one tree are one (common practice, no source).",
		By:   takenShare},
}

// mayBeTaken is how many of a population one of oneIn lets be taken.
func mayBeTaken(population int, oneIn float64) int { return int(float64(population) / oneIn) }

// plantParts are words for what may be taken of a plant that lives on (common
// practice, no source).
var plantParts = []string{"branch", "twig", "shoot", "stem", "frond", "leaf", "leaves", "flower", "fruit", "cone", "capsule", "catkin"}

// takesPart reports whether words such as "1 branch" say that a part was
// taken and no whole plant.
func takesPart(words string) bool {
	words = strings.ToLower(words)
	return slices.ContainsFunc(plantParts, func(p string) bool { return strings.Contains(words, p) }) && !strings.Contains(words, "plant")
}

func takenShare(d *reading.Reading, s *Settings, say say) {
	r := d.Record
	if s.OneIn <= 0 || r.Origin.Text == "cultivated" || r.Origin.Text == "planted" {
		return
	}
	seen, took := reading.ReadNumber(r.Population.Text), reading.ReadNumber(r.Taken.Text)
	if !seen.Known || seen.Most == 0 || !took.Known || takesPart(r.Taken.Text) {
		return // nothing bounds how many there were, or the plant was left
	}
	may := mayBeTaken(seen.Most, s.OneIn)
	if took.Least <= may {
		return
	}
	n := numberOf(d)
	say(at(r.Taken, "taken"), words{
		fmt.Sprintf("%d taken of %d seen; one in %g lets %d be taken", took.Least, seen.Most, s.OneIn, may),
		lines("If a figure is misread, mend it. " + accept(n, "taken-share"))})
}
