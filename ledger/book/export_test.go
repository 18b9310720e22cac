package book

// Every test keeps what a partial loading makes, however little.
func init() { leastFresh = 1 }
