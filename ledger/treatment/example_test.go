package treatment_test

import (
	"fmt"

	"blotter/ledger/treatment"
)

// A logger's file from a freezer is read and held to a profile.
func Example() {
	file := `Logger 2;Lauvkroken Museum
no.;time;core;air
;;°C;°C
1;03.11.2026 09:40;18,5;-31,0
2;03.11.2026 21:40;-31,5;-32,0
3;06.11.2026 09:40;-31,0;-32,0
4;06.11.2026 21:40;17,0;19,0
`
	log, err := treatment.Read([]byte(file), treatment.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, n := range log.Notes {
		fmt.Println(n.Words)
	}
	profile := treatment.Profile{Name: "two days", SetPoint: -30, Hours: 48, MaxGap: 24 * 60}
	result := treatment.Judge(log.Readings, nil, profile)
	fmt.Printf("%s: %s\n", result.Verdict, result.Reason)
	// Output:
	// channel "core °C", by its name the core; the others are not used
	// not enough data: longest at or below -30 °C: 22 min of 48 h, 2026-11-03 21:18 to 2026-11-03 21:40; a gap of 60 h in the log, 2026-11-03 21:40 to 2026-11-06 09:40; were it as cold in the gaps as on both sides of them, it would pass
}
