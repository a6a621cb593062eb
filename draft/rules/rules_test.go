package rules_test

import (
	"errors"
	"strings"
	"testing"

	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

func defs() []rules.Def {
	return []rules.Def{
		{ID: "seam_allowance", Name: "seam allowance", Kind: rules.Length, Default: "1/2 in", Min: "1/8 in", Max: "2 in"},
		{ID: "hip_ease", Name: "hip ease", Kind: rules.Length, Default: "0 in", Min: "-2 in"},
		{ID: "extension", Name: "extension", Kind: rules.Ratio, Default: "1/16", Min: "1/32", Max: "1/6"},
		{ID: "loops", Name: "loops", Kind: rules.Count, Default: "5", Min: "0", Max: "8"},
		{ID: "true_hip", Name: "true the hip", Kind: rules.Switch, Default: "on"},
	}
}

func resolve(t *testing.T, house, client, job rules.Values) rules.Set {
	t.Helper()
	s, err := rules.Resolve(defs(), house, client, job)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestLevelsAreLaidInOrder(t *testing.T) {
	for _, c := range []struct {
		name               string
		house, client, job rules.Values
		want               unit.Length
		level              rules.Level
		text               string
	}{
		{"nothing written", nil, nil, nil, 12.7, rules.Built, "1/2 in"},
		{"house", rules.Values{"seam_allowance": "3/4 in"}, nil, nil, 19.05, rules.House, "3/4 in"},
		{"client over house", rules.Values{"seam_allowance": "3/4 in"}, rules.Values{"seam_allowance": "1 in"}, nil, 25.4, rules.Client, "1 in"},
		{"job over all", rules.Values{"seam_allowance": "3/4 in"}, rules.Values{"seam_allowance": "1 in"}, rules.Values{"seam_allowance": " 1,5 cm "}, 15, rules.Job, "1,5 cm"},
		{"job alone", nil, nil, rules.Values{"seam_allowance": "⅝ in"}, 15.875, rules.Job, "⅝ in"},
		{"lowest", nil, nil, rules.Values{"seam_allowance": "1/8 in"}, 3.175, rules.Job, "1/8 in"},
		{"highest", nil, nil, rules.Values{"seam_allowance": "2 in"}, 50.8, rules.Job, "2 in"},
	} {
		s := resolve(t, c.house, c.client, c.job)
		if got := s.Length("seam_allowance"); got != c.want {
			t.Errorf("%s: %v mm, want %v mm", c.name, float64(got), float64(c.want))
		}
		if got := s.Level("seam_allowance"); got != c.level {
			t.Errorf("%s: from level %v, want %v", c.name, got, c.level)
		}
		if got := s.Text("seam_allowance"); got != c.text {
			t.Errorf("%s: text %q, want %q", c.name, got, c.text)
		}
	}
}

func TestKinds(t *testing.T) {
	s := resolve(t, rules.Values{"hip_ease": "−1/2 in", "extension": "0,05", "loops": "7", "true_hip": "off"}, nil, nil)
	if got := s.Length("hip_ease"); got != -12.7 {
		t.Errorf("hip ease %v mm", float64(got))
	}
	if got := s.Quantity("hip_ease").String(); got != "−½ in" {
		t.Errorf("hip ease as written %q", got)
	}
	if got := s.Number("extension"); got != 0.05 {
		t.Errorf("extension %v", got)
	}
	if got := s.Number("loops"); got != 7 {
		t.Errorf("loops %v", got)
	}
	if s.On("true_hip") {
		t.Error("true_hip is on")
	}
	plain := resolve(t, nil, nil, nil)
	if got := plain.Number("extension"); got != 0.0625 {
		t.Errorf("extension by default %v", got)
	}
	if !plain.On("true_hip") {
		t.Error("true_hip is off by default")
	}
}

func TestBadRules(t *testing.T) {
	for _, c := range []struct {
		id    rules.ID
		value string
		why   string
	}{
		{"seam_allowance", "3 in", "write from ⅛ in to 2 in"},
		{"seam_allowance", "0 in", "write from ⅛ in to 2 in"},
		{"seam_allowance", "1/2", "no unit"},
		{"seam_allowance", "", "empty; write a length"},
		{"seam_allowance", "1/0 in", "over nought"},
		{"hip_ease", "-3 in", "too small; write at least −2 in"},
		{"extension", "1/2", "write from 1/32 to 1/6"},
		{"extension", "1/16 in", "has no unit; write a fraction or decimal"},
		{"extension", "1/16 m", "has no unit"},
		{"extension", "2 mm", "has no unit"},
		{"extension", "a tenth", "no figure"},
		{"loops", "5 1/2", "write a whole number"},
		{"loops", "9", "write from 0 to 8"},
		{"loops", "9999999999", "write a whole number"},
		{"true_hip", "yes", "write on or off"},
		{"seem_allowance", "1/2 in", "write one of seam_allowance"},
		{"colour", "red", "see the list"},
	} {
		_, err := rules.Resolve(defs(), nil, rules.Values{c.id: c.value}, nil)
		var bad *rules.BadRule
		if !errors.As(err, &bad) {
			t.Errorf("%s = %q gave %v, want a BadRule", c.id, c.value, err)
			continue
		}
		if bad.ID != c.id || bad.Value != c.value || bad.Level != rules.Client || !strings.Contains(bad.Why.String(), c.why) {
			t.Errorf("%s = %q says %q, want it to say %q", c.id, c.value, bad, c.why)
		}
	}
}

func TestEveryBadRuleIsTold(t *testing.T) {
	_, err := rules.Resolve(defs(),
		rules.Values{"loops": "many", "hip_ease": "9"},
		nil,
		rules.Values{"true_hip": "maybe"})
	want := `house rule hip_ease: "9": no unit; write in, cm, mm, m, yd or ft after the figure
house rule loops: "many": write a whole number, such as 5
job rule true_hip: "maybe": write on or off`
	if err == nil || err.Error() != want {
		t.Errorf("told:\n%v\nwant:\n%s", err, want)
	}
}

func TestWith(t *testing.T) {
	s := resolve(t, rules.Values{"loops": "6"}, nil, nil)
	changed, err := s.With("loops", "8", rules.Job)
	if err != nil {
		t.Fatal(err)
	}
	if s.Number("loops") != 6 || s.Level("loops") != rules.House {
		t.Error("the set itself was changed")
	}
	if changed.Number("loops") != 8 || changed.Level("loops") != rules.Job {
		t.Error("the new set was not changed")
	}
	if changed.Length("seam_allowance") != 12.7 {
		t.Error("the new set lost another rule")
	}
	var bad *rules.BadRule
	if _, err := s.With("loops", "99", rules.Job); !errors.As(err, &bad) || bad.ID != "loops" {
		t.Errorf("99 loops gave %v", err)
	}
	if _, err := s.With("no_such", "1", rules.Job); !errors.As(err, &bad) || bad.ID != "no_such" {
		t.Errorf("an unknown rule gave %v", err)
	}
}

func TestASetIsNotReachedFromOutside(t *testing.T) {
	d := defs()
	s, err := rules.Resolve(d, nil, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	d[0].Name = "other"
	s.Defs()[0].Name = "other"
	if got := s.Defs()[0].Name; got != "seam allowance" {
		t.Errorf("the definition was changed to %q", got)
	}
}

func TestProgrammersMistakesPanic(t *testing.T) {
	s := resolve(t, nil, nil, nil)
	with := func(d rules.Def) func() {
		return func() { _, _ = rules.Resolve(append(defs(), d), nil, nil, nil) }
	}
	for name, f := range map[string]func(){
		"length of no rule":    func() { s.Length("no_such") },
		"level of no rule":     func() { s.Level("no_such") },
		"definition of none":   func() { s.Def("no_such") },
		"length of a switch":   func() { s.Length("true_hip") },
		"number of a length":   func() { s.Number("seam_allowance") },
		"switch of a count":    func() { s.On("loops") },
		"defined twice":        with(rules.Def{ID: "loops", Kind: rules.Count, Default: "1"}),
		"default out of range": with(rules.Def{ID: "x", Kind: rules.Count, Default: "1", Min: "2"}),
		"default unreadable":   with(rules.Def{ID: "x", Kind: rules.Length, Default: "1"}),
		"bound unreadable":     with(rules.Def{ID: "x", Kind: rules.Count, Default: "1", Min: "one"}),
		"no kind":              with(rules.Def{ID: "x", Kind: 99, Default: "1"}),
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s did not panic", name)
				}
			}()
			f()
		}()
	}
	if s.Has("no_such") || !s.Has("loops") {
		t.Error("Has does not tell which rules there are")
	}
}

func TestLevelNames(t *testing.T) {
	for l, want := range map[rules.Level]string{
		rules.Built: "default", rules.House: "house", rules.Client: "client", rules.Job: "job",
	} {
		if got := l.String(); got != want {
			t.Errorf("level %d is %q, want %q", l, got, want)
		}
	}
}
