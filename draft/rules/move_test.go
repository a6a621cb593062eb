package rules_test

import (
	"slices"
	"testing"

	"chalkfold/draft/rules"
)

// A rule moves from where its house has it, in the unit that it has, within its
// range; it stays at its level, and says what it was and why. What is set for
// the client or the job is not moved.
func TestMoved(t *testing.T) {
	defs := []rules.Def{
		{ID: "tilt", Name: "tilt", Kind: rules.Length, Default: "2 in", Min: "1/2 in", Max: "3 in"},
		{ID: "part", Name: "part", Kind: rules.Ratio, Default: "16", Min: "6", Max: "24"},
	}
	for _, tt := range []struct {
		name               string
		house, client, job rules.Values
		moves              []rules.Move
		want, was          string
		reasons            []string
		rule               rules.ID
		level              rules.Level
	}{
		{name: "the default", moves: []rules.Move{{ID: "tilt", By: -0.5}}, rule: "tilt", want: "1 in", was: "2 in", reasons: []string{"a", "b"}},
		{name: "the house's, metric", house: rules.Values{"tilt": "6 cm"}, moves: []rules.Move{{ID: "tilt", By: -0.5}}, rule: "tilt", want: "3.4 cm", was: "6 cm", reasons: []string{"a", "b"}, level: rules.House},
		{name: "to the end of the range", house: rules.Values{"tilt": "3/4 in"}, moves: []rules.Move{{ID: "tilt", By: -2}}, rule: "tilt", want: "½ in", was: "3/4 in", reasons: []string{"a"}, level: rules.House},
		{name: "a part", moves: []rules.Move{{ID: "part", By: 3}}, rule: "part", want: "22", was: "16", reasons: []string{"a", "b"}},
		{name: "hers", client: rules.Values{"tilt": "2 1/4 in"}, moves: []rules.Move{{ID: "tilt", By: -0.5}}, rule: "tilt", want: "2 1/4 in", was: "2 1/4 in", level: rules.Client},
		{name: "the job's", job: rules.Values{"part": "12"}, moves: []rules.Move{{ID: "part", By: 3}}, rule: "part", want: "12", was: "12", level: rules.Job},
	} {
		t.Run(tt.name, func(t *testing.T) {
			set, err := rules.Resolve(defs, tt.house, tt.client, tt.job)
			if err != nil {
				t.Fatal(err)
			}
			before := set.Text(tt.rule)
			moved := set.Moved("a", tt.moves).Moved("b", tt.moves)
			reasons, was := moved.MovedFor(tt.rule)
			if moved.Text(tt.rule) != tt.want || was != tt.was || !slices.Equal(reasons, tt.reasons) || moved.Level(tt.rule) != tt.level {
				t.Errorf("%s, was %s, for %v at level %v; want %s, was %s, for %v at level %v", moved.Text(tt.rule), was, reasons, moved.Level(tt.rule), tt.want, tt.was, tt.reasons, tt.level)
			}
			if set.Text(tt.rule) != before {
				t.Error("the set that was moved from has changed")
			}
		})
	}
}
