package cloth

import (
	"errors"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
	"chalkfold/testdata/jobs"
	"chalkfold/ui/kit"
)

// laid lays the sample on changed cloth.
func laid(t *testing.T, change func(c *job.Cloth)) (*draft.Result, *draft.Laid, error) {
	t.Helper()
	j := jobs.Read(t, "alto-3.json")
	change(&j.Cloth[0])
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	l, err := draft.Lay(r, 0, lay.Options{Work: 3000})
	return r, l, err
}

func length(t *testing.T, text string) unit.Quantity {
	t.Helper()
	q, err := unit.Parse(text, unit.Inches)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

func TestSayAndPicture(t *testing.T) {
	tests := []struct {
		name    string
		change  func(c *job.Cloth)
		tone    kit.Tone
		verdict string
	}{
		{"enough", func(*job.Cloth) {}, kit.Fine, "It fits; "},
		{"open", func(c *job.Cloth) { c.Fold = job.Open }, kit.Fine, "It fits; "},
		{"folded across", func(c *job.Cloth) { c.Fold, c.Length = job.Crosswise, length(t, "4 yd") }, kit.Fine, "It fits; "},
		{"short", func(c *job.Cloth) { c.Length = length(t, "1 yd") }, kit.Stop, "It does not fit: short by "},
		{"off the bolt", func(c *job.Cloth) { c.Length = unit.Quantity{} }, kit.Fine, "It needs "},
	}
	for _, tt := range tests {
		r, l, err := laid(t, tt.change)
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		tone, verdict, lines := Say(l, r.Format)
		if tone != tt.tone || !strings.HasPrefix(verdict, tt.verdict) {
			t.Errorf("%s: %s %q, want %s %q", tt.name, tone, verdict, tt.tone, tt.verdict)
		}
		if !strings.Contains(strings.Join(lines, " "), r.Format.Text(l.Length)) {
			t.Errorf("%s: %q does not say how much is needed, %s", tt.name, lines, r.Format.Text(l.Length))
		}
		svg := Draw(l, r.Format, -1).SVG
		list := List(l, r.Format)
		if n := strings.Count(svg, `class="cut"`); n != len(l.Placements) {
			t.Errorf("%s: %d pieces drawn, %d laid", tt.name, n, len(l.Placements))
		}
		if len(list) != len(l.Placements) || strings.Contains(svg, "NaN") {
			t.Errorf("%s: %d of %d pieces have a number", tt.name, len(list), len(l.Placements))
		}
	}
}

func TestTooWide(t *testing.T) {
	r, _, err := laid(t, func(c *job.Cloth) { c.Width = length(t, "30") })
	var wide *lay.TooWideError
	if !errors.As(err, &wide) {
		t.Fatalf("%v, want a piece that is too wide", err)
	}
	if s := TooWide(wide, r.Format); !strings.Contains(s, r.Format.Text(wide.ShortBy())) || !strings.Contains(s, "laid open") {
		t.Errorf("it says %q", s)
	}
}
