package html

import "embed"

// Assets are the files that every site carries: its CSS, the search script,
// the fonts. Where the fonts come from stands in fonts/SOURCE.md.
//
//go:embed site.css search.js fonts/*.woff2 fonts/LICENCE
var Assets embed.FS
