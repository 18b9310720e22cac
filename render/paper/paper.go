package paper

import "time"

// Paper is a file to be printed.
type Paper struct {
	Title string
	Lang  string    // of its words: "en"
	Day   time.Time // written into the file; never the clock's, so that the same words give the same bytes
	Pages []Page
}
