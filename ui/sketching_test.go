//go:build !js

package ui

import (
	"slices"
	"testing"

	"chalkfold/sync/store/mem"
)

// TestSketches: every answer has its picture once the job rests, also of another answer,
// undone again, and of another garment.
func TestSketches(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.stage = stageStyle
	b.wants()
	b.settle()
	drawn := func() (out []string) {
		v := b.styleView()
		for i, o := range v.Options {
			if n := len(v.Pictures[i]); o.OfFigure != (n == 0) || !o.OfFigure && n != len(o.Choices) {
				t.Fatalf("%s: %d pictures of %d answers", o.ID, n, len(o.Choices))
			}
			out = append(out, v.Pictures[i]...)
		}
		return out
	}
	first := drawn()
	if !slices.ContainsFunc(first, func(svg string) bool { return svg != "" }) {
		t.Fatal("nothing is drawn")
	}
	b.styleView().On("leg", "wide")
	b.settle()
	if slices.Equal(drawn(), first) {
		t.Error("another leg has the pictures of before")
	}
	b.step(false)
	b.settle()
	if !slices.Equal(drawn(), first) {
		t.Error("undone, the pictures are not those of before")
	}
	b.styleView().OnGarment("skirt")
	b.settle()
	drawn()
}
