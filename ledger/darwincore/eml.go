package darwincore

// AppendEML appends the description of the data set (EML 2.2.0).
func (d *Dataset) AppendEML(b []byte, c *Coverage) []byte { return b }
