// Package proof tests what a draft claims of itself on its finished outlines,
// before cloth is cut. Of returns every check with its figure, its tolerance
// and its mend, those that stop the cut first; it takes nothing from the
// construction but the claims, so a wrong sum cannot vouch for itself.
package proof
