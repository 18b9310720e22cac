// Package page is the model of the catalogue's pages: what each page says, in
// which order, in whose voice. It holds pure data; html and markdown write it
// out, each straight from here, so that a page and its Markdown twin cannot
// differ. It knows nothing of records, of git, or of a medium.
package page
