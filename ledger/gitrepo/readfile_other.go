//go:build !unix

package gitrepo

import (
	"errors"
	"io"
	"os"
)

// readPlain reads the file at path into buf and returns how many bytes there
// were; more than fit is len(buf).
func readPlain(path string, buf []byte) (int, error) {
	h, err := os.Open(path)
	if err != nil {
		return 0, err
	}
	defer h.Close()
	n, err := io.ReadFull(h, buf)
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		err = nil
	}
	return n, err
}
