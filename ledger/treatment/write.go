package treatment

import (
	"strconv"
	"time"
)

// Write is readings as a plain table, which Read reads again as the same: a
// heading, then a time with its offset and a temperature in °C a line.
func Write(readings []Reading) []byte {
	out := []byte("time,temperature °C\n")
	for _, r := range readings {
		out = r.At.AppendFormat(out, time.RFC3339)
		out = append(out, ',')
		out = strconv.AppendFloat(out, r.C, 'g', -1, 64)
		out = append(out, '\n')
	}
	return out
}
