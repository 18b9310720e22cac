// Package seed makes the draws of rapid the same in every run of CI, so that
// what CI says of a commit hangs on that commit and not on chance. A test that
// draws imports it for that alone. Elsewhere (CI unset) the draws are new each
// time and find new faults; -rapid.seed still asks for one's own.
package seed

import (
	"flag"
	"os"

	_ "pgregory.net/rapid" // which declares the flag
)

func init() {
	if os.Getenv("CI") == "true" {
		if err := flag.Set("rapid.seed", "20261126"); err != nil {
			panic("seed: rapid has no flag of that name any more: " + err.Error())
		}
	}
}
