package book

import "strings"

// Intern keeps one copy of each string that many records share. The zero
// Intern and nil are ready for use; it is not for several goroutines at once.
type Intern struct{ m map[string]string }

// Of is the kept copy of s, which holds on to no longer text that s is part of.
func (in *Intern) Of(s string) string {
	if in == nil || s == "" {
		return s
	}
	if t, ok := in.m[s]; ok {
		return t
	}
	if in.m == nil {
		in.m = map[string]string{}
	}
	s = strings.Clone(s)
	in.m[s] = s
	return s
}
