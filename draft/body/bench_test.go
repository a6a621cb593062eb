package body_test

import (
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

func BenchmarkComplete(b *testing.B) {
	taken := body.Takings{}
	for id, inches := range map[body.ID]string{body.WaistGirth: "34 in", body.HipGirth: "42 in", body.Stature: "65 in"} {
		q, err := unit.Parse(inches, unit.Inches)
		if err != nil {
			b.Fatal(err)
		}
		taken[id] = body.Taking{Value: q}
	}
	want := lower()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := body.Complete(body.Women, taken, want); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	taken := body.Takings{}
	for id, inches := range map[body.ID]string{body.WaistGirth: "34 in", body.HipGirth: "42 in", body.ThighGirth: "25 in", body.BodyRise: "11 in"} {
		q, err := unit.Parse(inches, unit.Inches)
		if err != nil {
			b.Fatal(err)
		}
		taken[id] = body.Taking{Value: q}
	}
	b.ReportAllocs()
	for b.Loop() {
		body.Check(body.Women, taken)
	}
}
