package main

import "strings"

// nearest is the word of list that typed is most likely meant for, or "".
// A word counts as near when it begins with what was typed, or when at most
// one letter in three was struck wrongly. The first of equals wins.
func nearest(typed string, list []string) string {
	typed = strings.ToLower(typed)
	if typed == "" {
		return ""
	}
	best, least := "", len(typed)/3+1
	for _, word := range list {
		if len(typed) >= 2 && strings.HasPrefix(word, typed) {
			return word
		}
		if d := strokes(typed, word); d <= least && d < len(word) && (best == "" || d < least) {
			best, least = word, d
		}
	}
	return best
}

// strokes counts the letters to add, drop, change or swap with their
// neighbour to turn a into b (optimal string alignment distance).
func strokes(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	d := make([][]int, len(ra)+1)
	for i := range d {
		d[i] = make([]int, len(rb)+1)
		d[i][0] = i
	}
	for j := range rb {
		d[0][j+1] = j + 1
	}
	for i := 1; i <= len(ra); i++ {
		for j := 1; j <= len(rb); j++ {
			cost := 1
			if ra[i-1] == rb[j-1] {
				cost = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
			if i > 1 && j > 1 && ra[i-1] == rb[j-2] && ra[i-2] == rb[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(ra)][len(rb)]
}
