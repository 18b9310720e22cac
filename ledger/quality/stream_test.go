package quality_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"testing"

	"blotter/ledger/quality"
)

// rowsOf gives n rows of a table, then end.
func rowsOf(n int, end error) func() ([]string, int, error) {
	i := 0
	return func() ([]string, int, error) {
		if i == n {
			return nil, 0, end
		}
		i++
		return []string{fmt.Sprint(1800 + i), "NO", "60.63"}, i + 1, nil
	}
}

func TestStreamKeepsOrder(t *testing.T) {
	s, err := quality.NewSuite(nil, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	columns := quality.ColumnsOf([]string{"year", "countryCode", "decimalLatitude"})
	n := 0
	err = s.Stream(context.Background(), columns, rowsOf(1000, io.EOF), func(row *quality.Row, line int, got []quality.Response) error {
		n++
		if line != n+1 || row.Value(columns[0]) != fmt.Sprint(1800+n) {
			t.Fatalf("row %d is that of line %d", n, line)
		}
		if want := s.Run(row, nil); !reflect.DeepEqual(got, want) {
			t.Fatalf("row %d: %v, alone %v", n, got, want)
		}
		return nil
	})
	if err != nil || n != 1000 {
		t.Errorf("%d rows, %v", n, err)
	}
}

func TestStreamEnds(t *testing.T) {
	s, err := quality.NewSuite(nil, nil, today)
	if err != nil {
		t.Fatal(err)
	}
	columns := quality.ColumnsOf([]string{"year", "countryCode", "decimalLatitude"})
	n := 0
	count := func(*quality.Row, int, []quality.Response) error { n++; return nil }
	if err := s.Stream(context.Background(), columns, rowsOf(300, errors.New("torn")), count); err == nil || !strings.Contains(err.Error(), "torn") || n != 300 {
		t.Errorf("a file that cannot be read on: %d rows, %v", n, err)
	}
	full := errors.New("full")
	if err := s.Stream(context.Background(), columns, rowsOf(1<<20, io.EOF), func(*quality.Row, int, []quality.Response) error { return full }); !errors.Is(err, full) {
		t.Errorf("an output that is full: %v", err)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if err := s.Stream(ctx, columns, rowsOf(1<<20, io.EOF), count); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
}
