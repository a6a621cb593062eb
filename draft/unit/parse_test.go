package unit_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"chalkfold/draft/unit"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		text   string
		assume unit.System
		want   unit.Length // mm, worked by hand from 25.4 mm to the inch
		shown  string
	}{
		{"34", unit.Inches, 863.6, "34 in"},
		{"34", unit.Centimetres, 340, "34 cm"},
		{"34 1/2", unit.Inches, 876.3, "34½ in"},
		{"34½", unit.Inches, 876.3, "34½ in"},
		{"34 ½", unit.Inches, 876.3, "34½ in"},
		{"34-1/2", unit.Inches, 876.3, "34½ in"},
		{"34–½", unit.Inches, 876.3, "34½ in"},
		{"34 1⁄2", unit.Inches, 876.3, "34½ in"},
		{"1/2", unit.Inches, 12.7, "½ in"},
		{"½", unit.Inches, 12.7, "½ in"},
		{"7/2", unit.Inches, 88.9, "7/2 in"},
		{"6⅝", unit.Inches, 168.275, "6⅝ in"},
		{"34 3/16", unit.Inches, 868.3625, "34 3/16 in"},
		{"2/4", unit.Inches, 12.7, "2/4 in"},
		{"34.5 in", unit.Centimetres, 876.3, "34.5 in"},
		{"34.50", unit.Inches, 876.3, "34.50 in"},
		{".5", unit.Inches, 12.7, "0.5 in"},
		{`34.5"`, unit.Centimetres, 876.3, "34.5 in"},
		{"34″", unit.Centimetres, 863.6, "34 in"},
		{"34½″", unit.Centimetres, 876.3, "34½ in"},
		{"34''", unit.Centimetres, 863.6, "34 in"},
		{"34 inches", unit.Centimetres, 863.6, "34 in"},
		{"34 IN.", unit.Centimetres, 863.6, "34 in"},
		{"86,4 cm", unit.Inches, 864, "86.4 cm"},
		{"86.4cm", unit.Inches, 864, "86.4 cm"},
		{"864 mm", unit.Inches, 864, "864 mm"},
		{"1 1/2 yd", unit.Inches, 1371.6, "1½ yd"},
		{"1½yards", unit.Inches, 1371.6, "1½ yd"},
		{"2 m", unit.Inches, 2000, "2 m"},
		{"1,35 m", unit.Inches, 1350, "1.35 m"},
		{"3 ft", unit.Inches, 914.4, "3 ft"},
		{"5 ft 4 in", unit.Inches, 1625.6, "5 ft 4 in"},
		{`5'4½"`, unit.Centimetres, 1638.3, "5 ft 4½ in"},
		{"1 yd 9 in", unit.Centimetres, 1143, "1 yd 9 in"},
		{"0 ft 4 in", unit.Inches, 101.6, "4 in"},
		{"0", unit.Inches, 0, "0 in"},
		{"34\u00a01/2\u2009in", unit.Centimetres, 876.3, "34½ in"},
		{"  \t34 1/2 \n", unit.Inches, 876.3, "34½ in"},
		{"３４　１／２　ｉｎ", unit.Centimetres, 876.3, "34½ in"},
		{"+2", unit.Inches, 50.8, "2 in"},
		{"007", unit.Inches, 177.8, "7 in"},
		{"7/1", unit.Inches, 177.8, "7 in"},
		{"999999 yd", unit.Inches, 914399085.6, "999999 yd"},
	} {
		q, err := unit.Parse(c.text, c.assume)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.text, err)
			continue
		}
		if got := q.Length(); got != c.want {
			t.Errorf("Parse(%q) is %v mm, want %v", c.text, float64(got), float64(c.want))
		}
		if got := q.String(); got != c.shown {
			t.Errorf("Parse(%q) gives back %q, want %q", c.text, got, c.shown)
		}
		if !q.Set() {
			t.Errorf("Parse(%q) is not set", c.text)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ text, why string }{
		{"", "no length"},
		{"   ", "no length"},
		{"34 1/0", "a fraction cannot be over nought; write 34 1/2"},
		{"34 1/", "under the fraction is missing"},
		{"34 3/2", "under 1"},
		{"34 1/2000", "too fine"},
		{"34 5", "two figures"},
		{"341/2 3", "left over"},
		{"34-", "the fraction is missing after the dash"},
		{"34.", "no figure after the point"},
		{"34.12345", "too many decimals"},
		{"1,000 mm", "the comma could mean thousands; write 1000"},
		{"1234567", "too large"},
		{"99999999999999999999999", "too large"},
		{"99999999999999999999999/2", "too large"},
		{"34 99999999999999999999999/2", "too fine"},
		{"-1/2", "below nought"},
		{"−2 in", "below nought"},
		{"34 furlongs", "is not a unit; write in, cm, mm, m, yd or ft"},
		{"in", "no figure"},
		{"34 in 2", "left over"},
		{"34 in in", "left over"},
		{"5 ft 13 in", "must be under 12"},
		{"1 yd 36 in", "must be under 36"},
		{"5 ft 4 cm", "only inches can follow"},
		{"5½ ft 4 in", "must be whole"},
		{"5 ft in", "no figure"},
		{"1/2/3", "is not a unit"},
		{"34.5 1/2", "left over"},
		{"\xff", "no figure"},
	} {
		q, err := unit.Parse(c.text, unit.Inches)
		var bad *unit.ParseError
		if !errors.As(err, &bad) {
			t.Errorf("Parse(%q) is %v, %v; want a ParseError", c.text, q, err)
			continue
		}
		if bad.Text != c.text || !strings.Contains(bad.Why.String(), c.why) {
			t.Errorf("Parse(%q) says %q, want it to say %q", c.text, bad, c.why)
		}
		if q.Set() {
			t.Errorf("Parse(%q) was refused and is set", c.text)
		}
	}
}

func TestParseSigned(t *testing.T) {
	for _, c := range []struct {
		text  string
		want  unit.Length
		shown string
	}{
		{"-1/2", -12.7, "−½ in"},
		{"−½", -12.7, "−½ in"},
		{"- 2 cm", -20, "−2 cm"},
		{"-5 ft 4 in", -1625.6, "−5 ft 4 in"},
		{"-0", 0, "0 in"},
		{"2", 50.8, "2 in"},
	} {
		q, err := unit.ParseSigned(c.text, unit.Inches)
		if err != nil || q.Length() != c.want || q.String() != c.shown {
			t.Errorf("ParseSigned(%q) is %q, %v mm, %v; want %q, %v mm",
				c.text, q, float64(q.Length()), err, c.shown, float64(c.want))
		}
	}
}

func TestQuantityInJSON(t *testing.T) {
	type job struct {
		Hip   unit.Quantity `json:"hip"`
		Thigh unit.Quantity `json:"thigh"`
	}
	var j job
	if err := json.Unmarshal([]byte(`{"hip": "42 1/8 in", "thigh": ""}`), &j); err != nil {
		t.Fatal(err)
	}
	if j.Hip.Length() != 42.125*unit.Inch || j.Thigh.Set() {
		t.Errorf("read %v and %v", j.Hip, j.Thigh)
	}
	out, err := json.Marshal(j)
	if want := `{"hip":"42⅛ in","thigh":""}`; err != nil || string(out) != want {
		t.Errorf("wrote %s, %v; want %s", out, err, want)
	}
	err = json.Unmarshal([]byte(`{"hip": "42"}`), &j)
	if err == nil || !strings.Contains(err.Error(), `"42": no unit`) {
		t.Errorf("a length without a unit gave %v", err)
	}
}
