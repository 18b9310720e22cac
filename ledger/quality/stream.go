package quality

import (
	"context"
	"errors"
	"io"
	"runtime"
)

// batchRows is how many rows are tested together.
const batchRows = 128

// batch is some rows in a row, their lines and, once done is closed, their
// responses.
type batch struct {
	rows      []Row
	lines     []int
	responses [][]Response
	done      chan struct{}
}

// Stream runs the suite on every row that read gives, until io.EOF, and hands
// each with its responses to do, in order. Rows are tested on all processors;
// a bounded number of them is held at a time. The row and responses are good
// until do returns. An error of read or do ends it.
func (s *Suite) Stream(ctx context.Context, columns Columns, read func() (cells []string, line int, err error), do func(row *Row, line int, responses []Response) error) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	workers := runtime.GOMAXPROCS(0)
	work, order := make(chan *batch, workers), make(chan *batch, 2*workers)
	free := make(chan *batch, 3*workers+2)
	failed := make(chan error, 1)
	go func() {
		defer close(work)
		defer close(order)
		failed <- fill(ctx, columns, read, free, work, order)
	}()
	for range workers {
		go func() {
			for b := range work {
				for i := range b.rows {
					b.responses[i] = s.Run(&b.rows[i], b.responses[i][:0])
				}
				close(b.done)
			}
		}()
	}
	var err error
	for b := range order {
		<-b.done
		for i := range b.rows {
			if err == nil {
				err = do(&b.rows[i], b.lines[i], b.responses[i])
			}
		}
		if err != nil {
			stop()
		}
		select {
		case free <- b:
		default:
		}
	}
	if readErr := <-failed; err == nil {
		err = readErr
	}
	return err
}

// fill reads rows into batches until there are no more.
func fill(ctx context.Context, columns Columns, read func() ([]string, int, error), free, work, order chan *batch) error {
	for {
		b := &batch{rows: make([]Row, 0, batchRows), responses: make([][]Response, batchRows)}
		select {
		case b = <-free:
		default:
		}
		b.rows, b.lines, b.done = b.rows[:0], b.lines[:0], make(chan struct{})
		var err error
		for len(b.rows) < batchRows && err == nil {
			var cells []string
			var line int
			if cells, line, err = read(); err == nil {
				b.rows, b.lines = b.rows[:len(b.rows)+1], append(b.lines, line)
				columns.Fill(&b.rows[len(b.rows)-1], cells)
			}
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if len(b.rows) > 0 {
			order <- b
			work <- b
		}
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}
