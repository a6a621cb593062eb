package tape

import (
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/unit"
)

func TestRead(t *testing.T) {
	needs := []body.ID{body.WaistGirth, body.HipGirth, body.ThighGirth, body.OutsideLegLength}
	tests := []struct {
		name   string
		typed  Typed
		assume unit.System
		taken  int
		id     body.ID
		echo   string
		bad    string // a part of it
		doubt  string
	}{
		{"nothing typed", Typed{}, unit.Inches, 0, body.HipGirth, "", "", ""},
		{"spaces", Typed{body.HipGirth: "  "}, unit.Inches, 0, body.HipGirth, "", "", ""},
		{"inches assumed", Typed{body.HipGirth: "42"}, unit.Inches, 1, body.HipGirth, "= 106.7 cm", "", ""},
		{"centimetres assumed", Typed{body.HipGirth: "106,7"}, unit.Centimetres, 1, body.HipGirth, "= 42 in", "", ""},
		{"unit named", Typed{body.HipGirth: "106.7 cm"}, unit.Inches, 1, body.HipGirth, "= 42 in", "", ""},
		{"fraction", Typed{body.WaistGirth: "34½"}, unit.Inches, 1, body.WaistGirth, "= 87.6 cm", "", ""},
		{"half typed", Typed{body.WaistGirth: "34 1/"}, unit.Inches, 0, body.WaistGirth, "", "1/", ""},
		{"no figure", Typed{body.WaistGirth: "wide"}, unit.Inches, 0, body.WaistGirth, "", "no figure", ""},
		{"centimetres taken for inches", Typed{body.WaistGirth: "86"}, unit.Inches, 1, body.WaistGirth, "= 218.4 cm", "", "again"},
		{"out of limits", Typed{body.HipGirth: "420"}, unit.Inches, 0, body.HipGirth, "", "must be from", ""},
		{
			"waist and hip changed over",
			Typed{body.WaistGirth: "44", body.HipGirth: "34", body.ThighGirth: "24"},
			unit.Inches, 3, body.WaistGirth, "= 111.8 cm", "", "again",
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := Read(needs, tt.typed, body.Unknown, tt.assume)
			if len(s.Rows) != len(needs) {
				t.Fatalf("%d rows, want one for each need", len(s.Rows))
			}
			if s.Taken != tt.taken || len(s.Takings) != tt.taken {
				t.Errorf("%d taken, %d takings; want %d", s.Taken, len(s.Takings), tt.taken)
			}
			for _, r := range s.Rows {
				if r.ID != tt.id {
					continue
				}
				if r.Text != tt.typed[tt.id] {
					t.Errorf("text %q, want it as typed, %q", r.Text, tt.typed[tt.id])
				}
				if r.Echo != tt.echo {
					t.Errorf("echo %q, want %q", r.Echo, tt.echo)
				}
				if (tt.bad == "") != (r.Bad == "") || !strings.Contains(r.Bad, tt.bad) {
					t.Errorf("bad %q, want %q in it", r.Bad, tt.bad)
				}
				if doubts := strings.Join(r.Doubts, " "); (tt.doubt == "") != (doubts == "") || !strings.Contains(doubts, tt.doubt) {
					t.Errorf("doubts %q, want %q in them", doubts, tt.doubt)
				}
			}
		})
	}
}

func TestAppend(t *testing.T) {
	tests := []struct{ text, fraction, want string }{
		{"34", "½", "34½"},
		{"34½", "¾", "34¾"},
		{"34½", "½", "34"},
		{"", "⅛", "⅛"},
		{"34 ", "½", "34½"},
		{"⅛", "⅛", ""},
	}
	for _, tt := range tests {
		got := Append(tt.text, tt.fraction)
		if got != tt.want {
			t.Errorf("Append(%q, %q) = %q, want %q", tt.text, tt.fraction, got, tt.want)
		}
		if got == "" {
			continue
		}
		if _, err := unit.Parse(got, unit.Inches); err != nil {
			t.Errorf("%q cannot be read: %v", got, err)
		}
	}
}
