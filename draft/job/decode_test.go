package job

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
	"strings"
	"testing"
	"testing/iotest"

	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// full is a job with every key there is, in the canonical form.
const full = `{
  "chalkfold": 1,
  "name": "Alto 3 \"<&>\"",
  "garment": "trousers",
  "figure": "women",
  "units": {
    "system": "in",
    "fraction": 16
  },
  "measurements": {
    "waist_girth": "34 in",
    "hip_girth": "42¼ in",
    "thigh_girth": "25 3/16 in",
    "knee_girth": "39.50 cm",
    "body_rise": {
      "value": "11 in",
      "of": "garment"
    },
    "outside_leg_length": "3 ft 4 in"
  },
  "method": "quarter",
  "drafting": "spoken",
  "untrued": [
    "hip",
    "inseam"
  ],
  "style": {
    "crease": "tuck",
    "leg": "free"
  },
  "rules": {
    "house": {
      "hip_ease": "1 1/2 in",
      "seat_tilt": "4 cm"
    },
    "client": {
      "belt_loops": "7"
    },
    "job": {
      "front_fork_part": "18"
    }
  },
  "alterations": [
    {
      "kind": "back_longer",
      "by": "½ in",
      "for": "client"
    },
    {
      "kind": "hip_out",
      "by": "1.5 cm",
      "side": "left",
      "for": "job"
    }
  ],
  "cloth": [
    {
      "name": "navy suiting",
      "kind": "main",
      "width": "60 in",
      "length": "1½ yd",
      "fold": "lengthwise",
      "one_way": true,
      "margin": "½ in",
      "gap": "1 mm",
      "kept": [
        {
          "piece": "front",
          "across": "12.3456 cm",
          "along": "0.0000 cm"
        },
        {
          "piece": "bag",
          "copy": 2,
          "across": "4 in",
          "along": "1½ yd",
          "turn": "180",
          "over": true,
          "opened": true
        }
      ]
    },
    {
      "kind": "lining",
      "width": "90 cm",
      "fold": "open"
    },
    {
      "kind": "main",
      "fold": "open",
      "repeat_across": "2 cm",
      "repeat_along": "1¾ in",
      "shrinks_along": "3",
      "shrinks_across": "1.50",
      "tilt": "0.5",
      "sold_by": "¼ yd",
      "flaws": [
        {
          "from_selvedge": "0 in",
          "from_edge": "12 in",
          "across": "2 in",
          "along": "1 in"
        }
      ],
      "outline": [
        {
          "across": "0 cm",
          "along": "0 cm"
        },
        {
          "across": "70 cm",
          "along": "0 cm"
        },
        {
          "across": "70 cm",
          "along": "95.5 cm"
        }
      ],
      "remnant": "r-17"
    }
  ]
}
`

func q(t *testing.T, text string) unit.Quantity {
	t.Helper()
	var got unit.Quantity
	if err := got.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return got
}

func TestDecodeReadsEveryKey(t *testing.T) {
	got, err := Decode(strings.NewReader(full))
	if err != nil {
		t.Fatal(err)
	}
	want := Job{
		Name: `Alto 3 "<&>"`, Garment: "trousers", Figure: body.Women,
		Units: Units{System: unit.Inches, Fraction: 16},
		Measurements: body.Takings{
			body.WaistGirth: {Value: q(t, "34 in")}, body.HipGirth: {Value: q(t, "42 1/4 in")},
			body.ThighGirth: {Value: q(t, "25 3/16 in")}, body.KneeGirth: {Value: q(t, "39.50 cm")},
			body.BodyRise: {Value: q(t, "11 in"), Of: body.OfGarment}, body.OutsideLegLength: {Value: q(t, "3 ft 4 in")},
		},
		Method: Quarter, Drafting: Spoken, Untrued: []string{"hip", "inseam"},
		Style: map[string]string{"crease": "tuck", "leg": "free"},
		Rules: Rules{
			House:  rules.Values{"hip_ease": "1 1/2 in", "seat_tilt": "4 cm"},
			Client: rules.Values{"belt_loops": "7"}, Job: rules.Values{"front_fork_part": "18"},
		},
		Alterations: []Alteration{
			{Kind: "back_longer", By: q(t, "1/2 in"), For: ForClient}, {Kind: "hip_out", By: q(t, "1.5 cm"), Side: LeftSide, For: ForJob},
		},
		Cloth: []Cloth{
			{
				Name: "navy suiting", Kind: piece.Main, Width: q(t, "60 in"), Length: q(t, "1 1/2 yd"), Fold: Lengthwise,
				OneWay: true, Margin: q(t, "1/2 in"), Gap: q(t, "1 mm"),
				Kept: []Kept{
					{Piece: "front", Copy: 1, Across: q(t, "12.3456 cm"), Along: q(t, "0.0000 cm")},
					{Piece: "bag", Copy: 2, Across: q(t, "4 in"), Along: q(t, "1 1/2 yd"), Turn: "180", Over: true, Opened: true},
				},
			},
			{Kind: piece.Lining, Width: q(t, "90 cm"), Fold: Open},
			{
				Kind: piece.Main, Fold: Open, RepeatAcross: q(t, "2 cm"), RepeatAlong: q(t, "1 3/4 in"),
				ShrinksAlong: "3", ShrinksAcross: "1.50", Tilt: "0.5", SoldBy: q(t, "1/4 yd"),
				Flaws: []Flaw{{q(t, "0 in"), q(t, "12 in"), q(t, "2 in"), q(t, "1 in")}},
				Outline: []Corner{
					{q(t, "0 cm"), q(t, "0 cm")}, {q(t, "70 cm"), q(t, "0 cm")}, {q(t, "70 cm"), q(t, "95.5 cm")},
				},
				Remnant: "r-17",
			},
		},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%+v, want\n%+v", got, want)
	}
}

func encoded(t *testing.T, j Job) string {
	t.Helper()
	var b bytes.Buffer
	if err := j.Encode(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// However a job was typed, it is written in one way, and that way is kept.
func TestEncodeIsCanonical(t *testing.T) {
	for _, tt := range []struct{ name, typed, want string }{
		{"every key", full, full},
		{"the least there is", `{"chalkfold":1,"garment":"trousers"}`, `{
  "chalkfold": 1,
  "garment": "trousers",
  "units": {
    "system": "in"
  },
  "method": "quarter",
  "drafting": "trued"
}
`},
		{
			"out of order, spelled otherwise, with what is empty",
			`{"cloth":[], "style":{}, "rules":{"job":{}}, "untrued":[], "figure":"", "units":{"system":"cm"},
			"measurements":{"hip_girth":" 101,5CM ", "waist_girth":{"value":"34-1/2\"", "of":"body"}},
			"garment":"trousers", "chalkfold":1}`,
			`{
  "chalkfold": 1,
  "garment": "trousers",
  "units": {
    "system": "cm"
  },
  "measurements": {
    "waist_girth": "34½ in",
    "hip_girth": "101.5 cm"
  },
  "method": "quarter",
  "drafting": "trued"
}
`,
		},
	} {
		j, err := Decode(strings.NewReader(tt.typed))
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		once := encoded(t, j)
		if once != tt.want {
			t.Errorf("%s: encodes to\n%s, want\n%s", tt.name, once, tt.want)
		}
		again, err := Decode(strings.NewReader(once))
		if err != nil || !reflect.DeepEqual(again, j) {
			t.Errorf("%s: decodes to %+v, %v, want %+v", tt.name, again, err, j)
		}
	}
}

// with puts one key into an otherwise good job.
func with(key string) string { return `{"chalkfold": 1, "garment": "trousers", ` + key + `}` }

func TestRefusals(t *testing.T) {
	for _, tt := range []struct {
		name, file string
		path       string // of the first problem
		value      string
		why        string // a part of it
	}{
		{"nothing at all", "", "", "", "empty"},
		{"not JSON", "hip 42", "", "", "is not JSON"},
		{"cut off", `{"chalkfold": 1,` + "\n" + ` "garm`, "", "", "line 2"},
		{"something after it", `{"chalkfold": 1, "garment": "trousers"} {}`, "", "", "after top-level value"},
		{"a list", `[1]`, "", "[…]", "must be an object, not a list"},
		{"null", `null`, "", "null", "must be an object, not null"},
		{"too large", `{"name": "` + strings.Repeat("x", maxBytes) + `"}`, "", "", "larger than 64 kB"},
		{"no version", `{"garment": "trousers"}`, "chalkfold", "", `begins with "chalkfold": 1`},
		{"version as text", `{"chalkfold": "1"}`, "chalkfold", "1", "must be a number, not a text"},
		{"version nought", `{"chalkfold": 0}`, "chalkfold", "0", "no version"},
		{"version and a half", `{"chalkfold": 1.5}`, "chalkfold", "1.5", "no version"},
		{"newer version", `{"chalkfold": 2, "gloves": 1}`, "chalkfold", "2", "newer Chalkfold"},
		{"no garment", `{"chalkfold": 1}`, "garment", "", "missing"},
		{"garment empty", `{"chalkfold": 1, "garment": ""}`, "garment", "", "missing"},
		{"garment a number", `{"chalkfold": 1, "garment": 1}`, "garment", "1", "must be a text"},
		{"unknown key", with(`"gloves": 1`), "gloves", "", "no such key; take it out, or write one of chalkfold, name"},
		{"key twice", with(`"name": "a", "name": "b"`), "name", "", "given twice"},
		{"key twice, deep", with(`"style": {"leg": "free", "leg": "free"}`), "style.leg", "", "given twice"},
		{"name too long", with(`"name": "` + strings.Repeat("x", maxText+1) + `"`), "name", strings.Repeat("x", 60) + "…", "too long"},
		{"name a number", with(`"name": 3`), "name", "3", "must be a text, not a number"},
		{"figure", with(`"figure": "child"`), "figure", "child", `write "" or "women" or "men"`},
		{"units a text", with(`"units": "in"`), "units", "in", "must be an object"},
		{"unit", with(`"units": {"system": "ells"}`), "units.system", "ells", `write "in" or "cm"`},
		{"unit key", with(`"units": {"unit": "in"}`), "units.unit", "", "no such key"},
		{"fraction", with(`"units": {"fraction": 12}`), "units.fraction", "12", "write 4, 8 or 16"},
		{"fraction a text", with(`"units": {"fraction": "8"}`), "units.fraction", "8", "must be a number"},
		{"unknown measurement", with(`"measurements": {"hips_girth": "42 in"}`), "measurements.hips_girth", "42 in", "waist_girth, top_hip_girth, hip_girth"},
		{"no unit", with(`"measurements": {"hip_girth": "42"}`), "measurements.hip_girth", "42", "no unit; write in, cm"},
		{"a bare number", with(`"measurements": {"hip_girth": 42}`), "measurements.hip_girth", "42", `such as "42 in"`},
		{"wrong unit", with(`"measurements": {"hip_girth": "42 kg"}`), "measurements.hip_girth", "42 kg", `"kg" is not a unit`},
		{"no length", with(`"measurements": {"hip_girth": "wide"}`), "measurements.hip_girth", "wide", "no figure"},
		{"empty", with(`"measurements": {"hip_girth": " "}`), "measurements.hip_girth", " ", "empty"},
		{"below nought", with(`"measurements": {"hip_girth": "-42 in"}`), "measurements.hip_girth", "-42 in", "below nought"},
		{"true", with(`"measurements": {"hip_girth": true}`), "measurements.hip_girth", "true", "must be a text, not true or false"},
		{"no value", with(`"measurements": {"hip_girth": {"of": "garment"}}`), "measurements.hip_girth.value", "", "missing"},
		{"of what", with(`"measurements": {"hip_girth": {"value": "42 in", "of": "sofa"}}`), "measurements.hip_girth.of", "sofa", `"body" or "garment"`},
		{"method", with(`"method": "guess"`), "method", "guess", `write "quarter" or "balanced"`},
		{"drafting", with(`"drafting": "sung"`), "drafting", "sung", `"trued" or "spoken"`},
		{"untrued a text", with(`"untrued": "hip"`), "untrued", "hip", "must be a list"},
		{"alteration of nothing", with(`"alterations": [{"kind": "hip_out", "by": "0 in"}]`), "alterations[0].by", "0 in", "nothing is altered by it"},
		{"alteration without an amount", with(`"alterations": [{"kind": "hip_out"}]`), "alterations[0].by", "", "missing"},
		{"alteration without a kind", with(`"alterations": [{"by": "1 in"}]`), "alterations[0].kind", "", "missing"},
		{"alteration for nobody", with(`"alterations": [{"kind": "hip_out", "by": "1 in", "for": "shop"}]`), "alterations[0].for", "shop", "not known"},
		{"alteration the other way", with(`"alterations": [{"kind": "hip_out", "by": "-1 in"}]`), "alterations[0].by", "-1 in", "below nought"},
		{"alteration of another side", with(`"alterations": [{"kind": "hip_out", "by": "1 in", "side": "front"}]`), "alterations[0].side", "front", "not known"},
		{"alteration with more", with(`"alterations": [{"kind": "hip_out", "by": "1 in", "edge": "side"}]`), "alterations[0].edge", "", "no such key"},
		{"untrued twice", with(`"untrued": ["hip", "hip"]`), "untrued[1]", "hip", "given twice"},
		{"untrued of numbers", with(`"untrued": ["hip", 2]`), "untrued[1]", "2", "must be a text"},
		{"style a switch", with(`"style": {"leg": true}`), "style.leg", "true", `write it as "true"`},
		{"rule a number", with(`"rules": {"job": {"belt_loops": 5}}`), "rules.job.belt_loops", "5", `write it as "5"`},
		{"rule level", with(`"rules": {"mine": {}}`), "rules.mine", "", "house, client, job"},
		{"cloth an object", with(`"cloth": {}`), "cloth", "{…}", "must be a list"},
		{"cloth key", with(`"cloth": [{}, {"colour": "red"}]`), "cloth[1].colour", "", "no such key"},
		{"cloth kind", with(`"cloth": [{"kind": "felt"}]`), "cloth[0].kind", "felt", `"main" or "lining" or "interfacing"`},
		{"cloth fold", with(`"cloth": [{"fold": "double"}]`), "cloth[0].fold", "double", `"open" or "lengthwise" or "crosswise"`},
		{"cloth width", with(`"cloth": [{"width": "60"}]`), "cloth[0].width", "60", "no unit"},
		{"cloth one way", with(`"cloth": [{"one_way": "yes"}]`), "cloth[0].one_way", "yes", "must be true or false"},
		{"repeat a number", with(`"cloth": [{"repeat_along": 2}]`), "cloth[0].repeat_along", "2", "no unit"},
		{"shrinks a number", with(`"cloth": [{"shrinks_along": 3}]`), "cloth[0].shrinks_along", "3", `write it as "3"`},
		{"shrinks in words", with(`"cloth": [{"shrinks_across": "a lot"}]`), "cloth[0].shrinks_across", "a lot", "write it in digits"},
		{"shrinks below nought", with(`"cloth": [{"shrinks_across": "-3"}]`), "cloth[0].shrinks_across", "-3", "write it in digits"},
		{"shrinks to no end", with(`"cloth": [{"shrinks_across": "3.00000000"}]`), "cloth[0].shrinks_across", "3.00000000", "at most 8"},
		{"tilt empty", with(`"cloth": [{"tilt": " "}]`), "cloth[0].tilt", " ", "empty"},
		{"tilt a point", with(`"cloth": [{"tilt": "."}]`), "cloth[0].tilt", ".", "write it in digits"},
		{"flaws an object", with(`"cloth": [{"flaws": {}}]`), "cloth[0].flaws", "{…}", "must be a list"},
		{"flaw a text", with(`"cloth": [{"flaws": ["hole"]}]`), "cloth[0].flaws[0]", "hole", "must be an object"},
		{"flaw without its size", with(`"cloth": [{"flaws": [{"from_selvedge": "1 in", "from_edge": "1 in", "across": "1 in"}]}]`), "cloth[0].flaws[0].along", "", "missing"},
		{"corner with a key too many", with(`"cloth": [{"outline": [{"across": "1 in", "along": "1 in", "up": "1 in"}]}]`), "cloth[0].outline[0].up", "", "write one of across, along"},
		{"corner without unit", with(`"cloth": [{"outline": [{"across": "1", "along": "1 in"}]}]`), "cloth[0].outline[0].across", "1", "no unit"},
		{"remnant a number", with(`"cloth": [{"remnant": 4}]`), "cloth[0].remnant", "4", "must be a text"},
		{"kept a text", with(`"cloth": [{"kept": "all"}]`), "cloth[0].kept", "all", "must be a list"},
		{"kept nothing", with(`"cloth": [{"kept": [{"across": "1 in", "along": "1 in"}]}]`), "cloth[0].kept[0].piece", "", "name the piece"},
		{"kept nowhere", with(`"cloth": [{"kept": [{"piece": "front", "across": "1 in"}]}]`), "cloth[0].kept[0].along", "", "grain line begins"},
		{"kept a copy", with(`"cloth": [{"kept": [{"piece": "front", "copy": 0, "across": "1 in", "along": "1 in"}]}]`), "cloth[0].kept[0].copy", "0", "whole number from 1 to 99"},
		{"kept a turn", with(`"cloth": [{"kept": [{"piece": "front", "across": "1 in", "along": "1 in", "turn": "back"}]}]`), "cloth[0].kept[0].turn", "back", "in digits"},
		{"kept over", with(`"cloth": [{"kept": [{"piece": "front", "across": "1 in", "along": "1 in", "over": 1}]}]`), "cloth[0].kept[0].over", "1", "true or false"},
		{"kept twice", with(`"cloth": [{"kept": [{"piece": "front", "across": "1 in", "along": "1 in"}, {"piece": "front", "across": "9 in", "along": "9 in"}]}]`), "cloth[0].kept[1]", "front", "given twice"},
		{"nested too deep", with(`"style": ` + strings.Repeat("[", 20) + strings.Repeat("]", 20)), "style[0][0][0][0][0][0][0]", "", "nested too deep"},
		{"too many entries", with(`"untrued": [` + strings.Repeat(`"a",`, maxItems) + `"a"]`), "untrued", "", "more than 32 entries"},
		{"too many keys", with(`"style": {` + manyKeys() + `}`), "style", "", "more than 200 keys"},
	} {
		j, err := Decode(strings.NewReader(tt.file))
		var bad *Bad
		if !errors.As(err, &bad) || len(bad.Problems) == 0 {
			t.Errorf("%s: %v, want it refused", tt.name, err)
			continue
		}
		if !reflect.DeepEqual(j, Job{}) {
			t.Errorf("%s: refused, and yet a job: %+v", tt.name, j)
		}
		if p := bad.Problems[0]; p.Path != tt.path || p.Value != tt.value || !strings.Contains(p.Why.String(), tt.why) {
			t.Errorf("%s: refused with\n%q %q: %q, want\n%q %q: …%s…", tt.name, p.Path, p.Value, p.Why, tt.path, tt.value, tt.why)
		}
	}
}

func manyKeys() string {
	var b strings.Builder
	for i := range maxKeys {
		fmt.Fprintf(&b, `"k%d": "v", `, i)
	}
	return b.String() + `"last": "v"`
}

func TestEveryProblemIsSaidAtOnce(t *testing.T) {
	_, err := Decode(strings.NewReader(`{
		"chalkfold": 1, "garmet": "trousers", "figure": "x",
		"measurements": {"hip_girth": "42", "waist": "34 in", "waist_girth": 34},
		"rules": {"job": {"belt_loops": 5}},
		"cloth": [{"width": "60"}, {"fold": "in half"}]
	}`))
	want := strings.Join([]string{
		`garmet: no such key; take it out, or write one of chalkfold, name, garment, figure, units, measurements, method, drafting, untrued, style, rules, alterations, cloth`,
		`garment: missing; write what is being made, such as "trousers"`,
		`figure: "x": not known; write "" or "women" or "men"`,
		`measurements.hip_girth: "42": no unit; write in, cm, mm, m, yd or ft after the figure`,
		`measurements.waist: "34 in": no such measurement; take it out, or write one of waist_girth, waist_to_hips, waist_to_knee, back_waist_length, neck_shoulder_to_waist`,
		`measurements.waist_girth: "34": no unit; write it as a text with its unit, such as "34 in"`,
		`rules.job.belt_loops: "5": must be a text; write it as "5"`,
		`cloth[0].width: "60": no unit; write in, cm, mm, m, yd or ft after the figure`,
		`cloth[1].fold: "in half": not known; write "open" or "lengthwise" or "crosswise"`,
	}, "\n")
	if err == nil || err.Error() != want {
		t.Errorf("said\n%v\nwant\n%s", err, want)
	}
	var one *Problem
	if !errors.As(err, &one) || one.Path != "garmet" {
		t.Errorf("errors.As finds %v, want the first problem", one)
	}
}

func TestReadersThatFail(t *testing.T) {
	_, err := Decode(iotest.ErrReader(io.ErrUnexpectedEOF))
	if !errors.Is(err, io.ErrUnexpectedEOF) {
		t.Errorf("%v, want the reader's own error", err)
	}
}

// What could not be read back is not written.
func TestEncodeRefusesWhatCannotBeReadBack(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change func(*Job)
		path   string
	}{
		{"no garment", func(j *Job) { j.Garment = "" }, "garment"},
		{"a figure", func(j *Job) { j.Figure = "child" }, "figure"},
		{"yards", func(j *Job) { j.Units.System = unit.Yards }, "units.system"},
		{"thirds", func(j *Job) { j.Units.Fraction = 3 }, "units.fraction"},
		{"a measurement", func(j *Job) { j.Measurements["girth"] = body.Taking{Value: q(t, "3 in")} }, "measurements.girth"},
		{"below nought", func(j *Job) { j.Measurements["hip_girth"] = body.Taking{Value: q(t, "-3 in")} }, "measurements.hip_girth"},
		{"a method", func(j *Job) { j.Method = "guess" }, "method"},
		{"a long name", func(j *Job) { j.Name = strings.Repeat("x", maxText+1) }, "name"},
	} {
		j, err := Decode(strings.NewReader(full))
		if err != nil {
			t.Fatal(err)
		}
		tt.change(&j)
		var b bytes.Buffer
		err = j.Encode(&b)
		var bad *Bad
		if !errors.As(err, &bad) || bad.Problems[0].Path != tt.path || b.Len() > 0 {
			t.Errorf("%s: %v and %d bytes written, want it refused at %s", tt.name, err, b.Len(), tt.path)
		}
	}
}

// A measurement that is not set was not taken: it is left out.
func TestEncodeLeavesOutWhatWasNotTaken(t *testing.T) {
	j := New("trousers")
	j.Measurements = body.Takings{body.HipGirth: {}, body.WaistGirth: {Value: q(t, "34 in")}}
	if text := encoded(t, j); strings.Contains(text, "hip_girth") || !strings.Contains(text, `"waist_girth": "34 in"`) {
		t.Errorf("written: %s", text)
	}
}

func TestEncodeHandsOnTheWritersError(t *testing.T) {
	if err := New("trousers").Encode(failing{}); !errors.Is(err, io.ErrShortWrite) {
		t.Errorf("%v, want the writer's own error", err)
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, io.ErrShortWrite }

// Whatever is read does not panic, and what decodes encodes the same, twice.
func FuzzDecode(f *testing.F) {
	f.Add([]byte(full))
	f.Add([]byte(`{"chalkfold":1,"garment":"trousers","measurements":{"hip_girth":{"value":"1/3 m","of":"garment"}}}`))
	f.Add([]byte(`{"chalkfold":1,"garment":"\u2028\ud800","style":{"":""},"rules":{"house":{"a":"\u0000"}}}`))
	f.Add([]byte(`{"chalkfold":1e0,"garment":"x","cloth":[{"length":"0 in","width":"5 ft 4 1/2 in"}]}`))
	f.Add([]byte(`{"chalkfold":1,"garment":"x","cloth":[{"tilt":" 1,5","shrinks_along":".5","flaws":[],"outline":[{"along":"1 m","across":"0 in"}]}]}`))
	f.Add([]byte(`{"chalkfold":1,"garment":"x","cloth":[{"kept":[{"piece":"a","copy":3,"across":"1.25 cm","along":"2 in","turn":"90","over":true,"opened":true}]}]}`))
	f.Add([]byte(`{"chalkfold":1,"chalkfold":1,"garment":[[[[[[[[[[]]]]]]]]]]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := Decode(bytes.NewReader(data))
		if err != nil {
			var bad *Bad
			if !errors.As(err, &bad) || len(bad.Problems) == 0 || bad.Error() == "" {
				t.Fatalf("refused without a problem: %v", err)
			}
			return
		}
		once := encoded(t, j)
		again, err := Decode(strings.NewReader(once))
		if err != nil {
			t.Fatalf("cannot be read back: %v\n%s", err, once)
		}
		if !reflect.DeepEqual(again, j) {
			t.Fatalf("read back as %+v, was %+v", again, j)
		}
		if twice := encoded(t, again); twice != once {
			t.Fatalf("encodes to\n%s then to\n%s", once, twice)
		}
	})
}
