package main

import (
	"context"

	"blotter/render/field"
	"blotter/render/paper"
)

// tagsPrint is the papers that go with the plants into the press.
func tagsPrint() printKind {
	return printKind{
		Name: "tags", Takes: "GATHERINGS", Says: "tags for the newspaper folds, the collector's numbers printed ahead; --copies N: so many of each",
		Flags: []*flag{flagFor, flagNumbers},
		Blocks: func(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
			s, err := d.fieldSheet(ctx, "tags", words, false)
			if err != nil {
				return nil, nil, err
			}
			made := &smallPapers{Noun: "tag", Place: paper.Size{W: field.TagWidth, H: field.TagHeight},
				Said: []string{"Write on them with a pencil: ink runs, in alcohol too."}}
			for _, no := range s.Numbers {
				b, err := s.Tag(no)
				if err != nil {
					return nil, nil, stuck("%v", err)
				}
				made.Blocks = append(made.Blocks, smallPaper{Block: b})
			}
			return made, nil, nil
		},
	}
}
