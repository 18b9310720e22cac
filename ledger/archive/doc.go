// Package archive reads Darwin Core archives and plain tables of Darwin Core
// terms, row by row: a file of any size needs the memory of one row.
//
// A Darwin Core archive is a zip file or a folder with a meta.xml that says
// which files hold which terms (Darwin Core Text Guide, TDWG 2023-09-13). A
// table is CSV, semicolon or tab separated text with headings in its first
// line. What is read stands as written; the one exception is that bytes that
// are not in the declared character set are taken for Windows-1252.
//
// The package imports nothing of ours.
package archive
