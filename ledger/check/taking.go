package check

import (
	"fmt"

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

func takenShare(d *reading.Reading, s *Settings, say say) {
	r := d.Record
	if s.OneIn <= 0 || r.Origin.Text == "cultivated" || r.Origin.Text == "planted" {
		return
	}
	seen, took := reading.ReadNumber(r.Population.Text), reading.ReadNumber(r.Taken.Text)
	if !seen.Known || seen.Most == 0 || !took.Known {
		return // nothing bounds how many there were
	}
	may := mayBeTaken(seen.Most, s.OneIn)
	if took.Least <= may {
		return
	}
	n := numberOf(d)
	say(at(r.Taken, "taken"), words{
		fmt.Sprintf("%d taken of %d seen; one in %g lets %d be taken", took.Least, seen.Most, s.OneIn, may),
		lines("If a figure is misread, mend it. If it was so: " + accept(n, "taken-share"))})
}
