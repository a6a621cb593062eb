package construct

// Card names a curve of a record that a tape cannot draw, and that is given as a
// card to trace.
type Card struct {
	Name string // English: "front fork"
	Line string // the step that draws it
	// From and To are the marks on the line between which the card reaches; ""
	// is its own end.
	From, To string
}
