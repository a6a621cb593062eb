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
		typed  map[body.ID]string
		assume unit.System
		taken  int
		id     body.ID
		echo   string
		bad    string // a part of it
		doubt  string
	}{
		{"nothing typed", map[body.ID]string{}, unit.Inches, 0, body.HipGirth, "", "", ""},
		{"spaces", map[body.ID]string{body.HipGirth: "  "}, unit.Inches, 0, body.HipGirth, "", "", ""},
		{"inches assumed", map[body.ID]string{body.HipGirth: "42"}, unit.Inches, 1, body.HipGirth, "= 106.7 cm", "", ""},
		{"centimetres assumed", map[body.ID]string{body.HipGirth: "106,7"}, unit.Centimetres, 1, body.HipGirth, "= 42 in", "", ""},
		{"unit named", map[body.ID]string{body.HipGirth: "106.7 cm"}, unit.Inches, 1, body.HipGirth, "= 42 in", "", ""},
		{"fraction", map[body.ID]string{body.WaistGirth: "34½"}, unit.Inches, 1, body.WaistGirth, "= 87.6 cm", "", ""},
		{"half typed", map[body.ID]string{body.WaistGirth: "34 1/"}, unit.Inches, 0, body.WaistGirth, "", "1/", ""},
		{"no figure", map[body.ID]string{body.WaistGirth: "wide"}, unit.Inches, 0, body.WaistGirth, "", "No figure", ""},
		{"centimetres taken for inches", map[body.ID]string{body.WaistGirth: "86"}, unit.Inches, 1, body.WaistGirth, "= 218.4 cm", "", "again"},
		{"out of limits", map[body.ID]string{body.HipGirth: "420"}, unit.Inches, 0, body.HipGirth, "", "must be from", ""},
		{
			"waist and hip changed over",
			map[body.ID]string{body.WaistGirth: "44", body.HipGirth: "34", body.ThighGirth: "24"},
			unit.Inches, 3, body.WaistGirth, "= 111.8 cm", "", "again",
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			entries := map[body.ID]Entry{}
			for id, text := range tt.typed {
				entries[id] = Entry{Text: text}
			}
			s := Read(needs, entries, body.Unknown, unit.Format{System: tt.assume})
			for i, id := range needs {
				if s.Rows[i].ID != id || s.Rows[i].More {
					t.Fatalf("row %d is %s, want the needs first", i, s.Rows[i].ID)
				}
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

// TestBegun: the first figure of two is not called wrong while the second is to come.
func TestBegun(t *testing.T) {
	for _, tt := range []struct {
		id   body.ID
		text string
		tape unit.System
		want bool
	}{
		{body.WaistGirth, "3", unit.Inches, true},
		{body.WaistGirth, "8", unit.Centimetres, true},
		{body.WaistGirth, "10", unit.Centimetres, true},
		{body.WaistGirth, "300", unit.Inches, false},
		{body.WaistGirth, "3 in", unit.Inches, false},
		{body.WaistGirth, "3,", unit.Inches, false},
	} {
		if got := begun(tt.id, tt.text, tt.tape); got != tt.want {
			t.Errorf("%s %q: %v", tt.id, tt.text, got)
		}
	}
	s := Read([]body.ID{body.WaistGirth}, map[body.ID]Entry{body.WaistGirth: {Text: "3"}}, body.Unknown, unit.Format{System: unit.Inches})
	v := View{Sheet: s, Focus: body.WaistGirth}
	if v.bad(s.Rows[0]) != "" {
		t.Error("3 is called wrong while it is typed")
	}
	if v.Focus = ""; v.bad(s.Rows[0]) == "" {
		t.Error("a waist of 3 in is not called wrong")
	}
}
