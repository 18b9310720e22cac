package main

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"
	"time"
)

// TestTypedAhead: a text of several lines that is pasted at one question
// answers the next ones too, and what answered which is seen behind them.
func TestTypedAhead(t *testing.T) {
	for _, c := range []struct {
		name  string
		pause time.Duration // between a question and its answer
		want  string
	}{
		{"pasted", time.Millisecond, "locality: Raundalen, ved Kløve\nposition: på våt eng\n"},
		{"typed after the question was read", time.Second, "locality: position: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			var shown bytes.Buffer
			now := time.Date(2026, 11, 3, 9, 40, 0, 0, time.UTC)
			e := &env{In: strings.NewReader("Raundalen, ved Kløve\npå våt eng\n"), Err: &shown, Width: 80, Now: func() time.Time {
				now = now.Add(c.pause)
				return now
			}}
			a := e.asker()
			for _, q := range []string{"locality: ", "position: "} {
				if _, err := a.ask(context.Background(), q); err != nil {
					t.Fatal(err)
				}
			}
			if shown.String() != c.want {
				t.Errorf("shown %q, want %q", shown.String(), c.want)
			}
			if _, err := a.ask(context.Background(), "elevation: "); err != io.EOF {
				t.Errorf("at the end of the input: %v, want io.EOF", err)
			}
		})
	}
}
