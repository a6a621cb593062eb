package body

import (
	"math"
	"strconv"
	"testing"

	tables "chalkfold/testdata/body"
)

// The columns of ANSUR II that stand for each measurement.
func columns() map[ID]string {
	return map[ID]string{
		WaistGirth: "waistcircumference", HipGirth: "buttockcircumference",
		ThighGirth: "thighcircumference", KneeGirth: "lowerthighcircumference",
		CalfGirth: "calfcircumference", AnkleGirth: "anklecircumference",
		HeelGirth: "heelanklecircumference", WaistToHips: "waist_to_hip_vertical",
		BodyRise: "bodyrise_vertical", TotalCrotchLength: "crotchlengthomphalion",
		FrontCrotchLength: "crotchlengthanterior", BackCrotchLength: "crotchlengthposterioromphalion",
		InsideLegLength: "crotchheight", OutsideLegLength: "waistheightomphalion",
		KneeHeight: "kneeheightmidpatella", Stature: "stature",
		NeckGirth: "neckcircumference", ChestGirth: "chestcircumference",
		ShoulderLength: "shoulderlength", BackWaistLength: "waistbacklength",
		ArmLength: "sleeveoutseam", UpperArmGirth: "bicepscircumferenceflexed",
		WristGirth: "wristcircumference",
	}
}

// num reads a cell; an empty one is nought.
func num(t *testing.T, cell string) float64 {
	t.Helper()
	if cell == "" {
		return 0
	}
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func half(sex string) Figure {
	if sex == "male" {
		return Men
	}
	return Women
}

// byColumn finds the measurement that a column stands for.
func byColumn(column string) (ID, bool) {
	for id, c := range columns() {
		if c == column {
			return id, true
		}
	}
	return "", false
}

// Source: testdata/body/ansur2_percentiles.csv.
func TestMeansAreThePublishedTable(t *testing.T) {
	checked := 0
	for _, row := range tables.Rows(t, "ansur2_percentiles.csv") {
		id, ok := byColumn(row["measure"])
		if !ok {
			continue
		}
		got, ok := survey(half(row["sex"]), id)
		if !ok || got.mean != num(t, row["mean"]) || got.sd != num(t, row["sd"]) {
			t.Errorf("%s of %s: mean %v sd %v, table has %s and %s", id, row["sex"], got.mean, got.sd, row["mean"], row["sd"])
		}
		checked++
	}
	if want := 2 * len(columns()); checked != want {
		t.Errorf("%d rows of the table were used, want %d", checked, want)
	}
}

// Sources: testdata/body/ansur2_regressions.csv and ansur2_crotchlength_from_rise.csv.
func TestLinesAreThePublishedTables(t *testing.T) {
	check := func(row map[string]string, m model) {
		id, ok := byColumn(row["target_mm"])
		if !ok {
			return
		}
		tr, _ := survey(half(row["sex"]), id)
		got, _ := tr.line(m, known{waist: 1, hip: 1, stature: 1, rise: 1})
		want := line{
			at: num(t, row["intercept"]), waist: num(t, row["b_waist"]), hip: num(t, row["b_hip"]),
			stature: num(t, row["b_stature"]), rise: num(t, row["b_bodyrise_vertical"]), sd: num(t, row["resid_sd_mm"]),
		}
		if got != want {
			t.Errorf("%s of %s on %s: %+v, table has %+v", id, row["sex"], m, got, want)
		}
	}
	for _, row := range tables.Rows(t, "ansur2_regressions.csv") {
		switch row["model"] {
		case "hip":
			check(row, onHip)
		case "stature":
			check(row, onStature)
		case "waist+hip+stature":
			check(row, onAll)
		}
	}
	for _, row := range tables.Rows(t, "ansur2_crotchlength_from_rise.csv") {
		check(row, onRise)
	}
}

// Source: testdata/body/ease_allowances.csv.
func TestEaseIsThePublishedTable(t *testing.T) {
	rows := make(map[string][2]float64)
	for _, row := range tables.Rows(t, "ease_allowances.csv") {
		least, most := num(t, row["min"]), num(t, row["max"])
		key := row["source"] + ": " + row["area"]
		if was, twice := rows[key]; twice { // one row for each band of hip sizes
			least, most = min(least, was[0]), max(most, was[1])
		}
		rows[key] = [2]float64{least, most}
	}
	const unl, cwu, nimi = "UNL EC73-455 (1973): ", "CWU costume text ch.16: ", "NIMI CITS Dress Making p.180: "
	for _, c := range []struct {
		id          ID
		least, most string
	}{
		{WaistGirth, unl + "waist", unl + "waist"},
		{TopHipGirth, unl + "high hip", unl + "high hip"},
		{HipGirth, unl + "hip", cwu + "hip"},
		{ThighGirth, unl + "thigh", unl + "thigh"},
		{KneeGirth, unl + "knee", unl + "knee"},
		{CalfGirth, unl + "calf", unl + "calf"},
		{AnkleGirth, nimi + "thigh, knee, ankle", nimi + "thigh, knee, ankle"},
		{BodyRise, unl + "crotch depth, seated", unl + "crotch depth, seated"},
		{TotalCrotchLength, unl + "total crotch length, standing", unl + "total crotch length, standing"},
	} {
		least, most := ease(c.id)
		if least.In() != rows[c.least][0] || most.In() != rows[c.most][1] {
			t.Errorf("ease of %s is %v to %v in, table has %v to %v", c.id, least.In(), most.In(), rows[c.least][0], rows[c.most][1])
		}
	}
}

// cells are the surveyed body's own figures; three are differences of columns,
// as SOURCES.md says.
func cells(t *testing.T, row map[string]string) map[ID]float64 {
	t.Helper()
	m := make(map[ID]float64)
	for id, c := range columns() {
		if cell, ok := row[c]; ok {
			m[id] = num(t, cell)
		}
	}
	m[FrontCrotchLength] = m[TotalCrotchLength] - m[BackCrotchLength]
	m[BodyRise] = m[OutsideLegLength] - m[InsideLegLength]
	m[WaistToHips] = m[OutsideLegLength] - num(t, row["buttockheight"])
	return m
}

// Over the surveyed bodies, predictions miss by nothing on average and by the
// published spread: the right line was taken for the right column. The rows are
// four in five of those behind the tables, hence a tenth of room.
func TestPredictionsFitTheSurveyedBodies(t *testing.T) {
	type miss struct {
		n        int
		sum, sq  float64
		variance float64
	}
	misses := make(map[Figure]map[ID]*miss)
	misses[Women], misses[Men] = make(map[ID]*miss), make(map[ID]*miss)
	for _, row := range tables.Rows(t, tables.Survey) {
		f := half(map[string]string{"Male": "male", "Female": "female"}[row["sex"]])
		m := cells(t, row)
		k := known{waist: m[WaistGirth], hip: m[HipGirth], stature: m[Stature], rise: m[BodyRise]}
		for id, v := range m {
			_, got := predict(f, id, k)
			if len(got) != 1 {
				t.Fatalf("%s has no one prediction for %s", id, f)
			}
			s := misses[f][id]
			if s == nil {
				s = &miss{}
				misses[f][id] = s
			}
			s.n++
			s.sum += v - got[0].mm
			s.sq += (v - got[0].mm) * (v - got[0].mm)
			s.variance = got[0].sd * got[0].sd
		}
	}
	for f, ids := range misses {
		for id, s := range ids {
			n, sd := float64(s.n), math.Sqrt(s.variance)
			if mean := s.sum / n; math.Abs(mean) > 0.1*sd {
				t.Errorf("%s of %s is predicted %.1f mm off on average (sd %.1f)", id, f, mean, sd)
			}
			if rms := math.Sqrt(s.sq / n); math.Abs(rms-sd) > 0.1*sd {
				t.Errorf("%s of %s misses by %.1f mm, table says %.1f", id, f, rms, sd)
			}
		}
	}
	if n := misses[Men][HipGirth].n + misses[Women][HipGirth].n; n != 4855 {
		t.Errorf("%d bodies were read", n)
	}
}
