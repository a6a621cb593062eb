package plain

import "chalkfold/draft/say"

// Kind is what a JSON value is.
type Kind uint8

// The kinds.
const (
	Null Kind = iota
	Text
	Number
	Truth
	Object
	List
)

// String names the kind in a message.
func (k Kind) String() string {
	switch k {
	case Text:
		return say.Word("a text")
	case Number:
		return say.Word("a number")
	case Truth:
		return say.Word("true or false")
	case Object:
		return say.Word("an object")
	case List:
		return say.Word("a list")
	case Null:
	}
	return "null"
}

// Error is where a text stops being the JSON that is wanted.
type Error struct {
	Path string // of the key, when it is known: "head.due", "steps[2].at"
	At   int    // how many bytes stand before
	Why  say.Msg
}

// Error is path and why in one line.
func (e *Error) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *Error) In(w *say.Words) string {
	if e.Path == "" {
		return e.Why.In(w)
	}
	return e.Path + ": " + e.Why.In(w)
}

// under says that the error is within what stands at step.
func (e *Error) under(step string) {
	if e.Path != "" && e.Path[0] != '[' {
		step += "."
	}
	e.Path = step + e.Path
}
