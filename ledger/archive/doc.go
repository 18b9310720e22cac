// Package archive reads Darwin Core archives and plain tables of Darwin Core
// terms, row by row: a file of any size needs the memory of one row, and an
// index where extension rows are joined to those of the core.
//
// A Darwin Core archive is a zip file or a folder with a meta.xml that says
// which files hold which terms, in which encoding and with which signs between
// and around the cells (Darwin Core Text Guide, TDWG 2023-09-13). A table is
// CSV, semicolon or tab separated text with headings in its first line. What
// is read stands as written.
//
// There are two ways to read. Stars joins the extensions to the core for an
// import: whatever contradicts meta.xml is an error with its file, line and
// column. Rows is lenient, for looking at data as they are: short rows are
// filled up, and bytes that are not in the declared character set are taken
// for Windows-1252.
//
// What comes from outside is not trusted: paths that lead out of the archive,
// zip files that unpack to far more than they are, documents with entities of
// their own and rows without end are refused.
//
// The package imports nothing of ours.
package archive
