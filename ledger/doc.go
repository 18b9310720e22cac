// Package ledger is the record as written: its fields, its files and the
// laws of their text. It decodes YAML into Record, Museum, People and names
// with the place of every word, edits a file by splicing the lines it must,
// and describes itself as a JSON Schema. It reads nothing into the words: that
// is ledger/reading. FORMAT.md beside this file is normative.
package ledger
