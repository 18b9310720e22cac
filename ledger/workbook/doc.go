// Package workbook reads and writes the files of spreadsheet programs: XLSX
// (ISO/IEC 29500, "Office Open XML") both ways, ODS (ISO/IEC 26300,
// "OpenDocument") in. Rows are streamed: a file of any length needs the memory
// of one row, and of the words that several cells share.
//
// A cell is the words that its owner saw, where the file tells them without
// loss: 1207 and not 1207.0, 0000482 where the format asks for seven figures,
// a date as ISO 8601 to the precision that was shown. What was not plainly
// typed, a formula or an error, is told in a note beside the row.
//
// A workbook is a hostile thing until read: nothing outside the file is ever
// looked at, entities and document types are refused, and each part, row and
// cell has a bound.
//
// The package imports nothing of ours.
package workbook
