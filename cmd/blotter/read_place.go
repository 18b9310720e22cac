package main

func readPlaceText(x *readDesk, text string) told {
	t := &positionTold{readHead: headOf(text)}
	t.refuse("no place can be read in these words")
	return t
}
