package job

import (
	"fmt"
	"strings"

	"chalkfold/draft/say"
)

// Problem is one thing wrong with a job, and what to do about it.
type Problem struct {
	Path  string  // of the key: "measurements.hip_girth", "cloth[0].width"; "" is the whole file
	Value string  // as it stands; "" when there is none
	Why   say.Msg // and what to do
	Err   error   // what found it, if that was elsewhere
}

// Error is path, value and why in one line.
func (p *Problem) Error() string { return p.In(nil) }

// In is Error in the language of w.
func (p *Problem) In(w *say.Words) string {
	var b strings.Builder
	if p.Path != "" {
		b.WriteString(p.Path + ": ")
	}
	if p.Value != "" {
		fmt.Fprintf(&b, "%q: ", p.Value)
	}
	return b.String() + p.Why.In(w)
}

func (p *Problem) Unwrap() error { return p.Err }

// Bad is a job that is refused, for every reason found. Take it, or a single
// *Problem, with errors.As.
type Bad struct{ Problems []*Problem }

// Error is one line for each problem.
func (b *Bad) Error() string { return b.In(nil) }

// In is Error in the language of w.
func (b *Bad) In(w *say.Words) string {
	lines := make([]string, len(b.Problems))
	for i, p := range b.Problems {
		lines[i] = p.In(w)
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the problems to errors.As.
func (b *Bad) Unwrap() []error {
	all := make([]error, len(b.Problems))
	for i, p := range b.Problems {
		all[i] = p
	}
	return all
}
