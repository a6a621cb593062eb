package draft_test

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
)

// altos are the trousers of so many bodies of the choir, each an inch larger than the
// one before, of one style.
func altos(t testing.TB, n int) []draft.Part {
	t.Helper()
	var parts []draft.Part
	for i := range n {
		j := example(t, "alto-3.json").Job.Clone()
		j.Name = "Alto " + strconv.Itoa(i+1)
		for id, inches := range map[body.ID]int{body.WaistGirth: 32 + i, body.HipGirth: 40 + i} {
			j.Measurements[id] = body.Taking{Value: length(t, strconv.Itoa(inches))}
		}
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		parts = append(parts, draft.Part{Key: strconv.Itoa(i + 1), Result: r})
	}
	return parts
}

// choirCloth is cloth off the bolt, main and interfacing.
func choirCloth(t testing.TB) job.Job {
	t.Helper()
	return job.Job{Name: "Choir", Garment: "trousers", Cloth: []job.Cloth{
		{Width: length(t, "58"), Fold: job.Lengthwise, Margin: length(t, "1/2")},
		{Width: length(t, "36"), Kind: piece.Interfacing},
		{Width: length(t, "45"), Kind: piece.Lining, Fold: job.Lengthwise},
	}}
}

// A lay of several garments holds each piece of each as often as it is cut, from its
// kind of cloth, and no shorter cloth can hold them: their area over the width. It
// takes less than each garment laid by itself.
func TestJoinedLayHoldsEveryGarment(t *testing.T) {
	parts, on := altos(t, 3), choirCloth(t)
	r := draft.Join(on, parts, nil)
	for i, c := range on.Cloth {
		l, err := draft.Lay(r, i, lay.Options{Work: 100})
		if err != nil {
			t.Fatal(err)
		}
		if err := lay.Verify(l.Cloth, l.Items, l.Result); err != nil {
			t.Errorf("%s: %v", c.Kind, err)
		}
		cut := lay.Want{}
		cut.Cut(l.Items, l.Result)
		alone, area, names := unit.Length(0), 0.0, map[string]bool{}
		for _, p := range parts {
			one := p.Job.Clone()
			one.Cloth = on.Cloth
			by, err := draft.Make(one)
			if err != nil {
				t.Fatal(err)
			}
			laid, err := draft.Lay(by, i, lay.Options{Work: 100})
			if err != nil {
				t.Fatal(err)
			}
			alone += laid.Length
			for _, q := range p.Pieces {
				if q.Cloth != c.Kind && (q.Cloth != piece.Main || c.Kind != "") {
					continue
				}
				n := cut[p.Key+"."+q.ID]
				if n.Plain+n.Turned != q.Count {
					t.Errorf("%s of %s is laid %d times, want %d", q.ID, p.Job.Name, n.Plain+n.Turned, q.Count)
				}
				area += q.Area() * float64(q.Count)
				names[p.Job.Name+", "+strings.ToLower(q.Name)] = true
			}
		}
		if least := area / c.Width.Length().MM(); l.Length.MM() < least {
			t.Errorf("%s: %.0f mm hold what takes %.0f mm", c.Kind, l.Length.MM(), least)
		}
		if l.Length > alone {
			t.Errorf("%s: together %.0f mm, one by one %.0f mm", c.Kind, l.Length.MM(), alone.MM())
		}
		for _, g := range draft.LayGuide(l, r.Format) {
			if !names[strings.ReplaceAll(strings.ToLower(g.Name), "alto", "Alto")] {
				t.Errorf("a piece is called %q", g.Name)
			}
		}
	}
	if kinds := r.Kinds(); !slices.Equal(kinds[:1], []piece.Cloth{piece.Main}) || len(kinds) != 3 {
		t.Errorf("it is cut from %v", kinds)
	}
}

// Garments are told apart by ticket, else by what they are and a number.
func TestJoinedGarmentsAreToldApart(t *testing.T) {
	parts := altos(t, 1)
	part := func(key, ticket string) draft.Part {
		j := parts[0].Job.Clone()
		j.Name = ticket
		r, err := draft.Make(j)
		if err != nil {
			t.Fatal(err)
		}
		return draft.Part{Key: key, Result: r}
	}
	r := draft.Join(job.Job{}, []draft.Part{part("a", "Alto 1"), part("b", ""), part("c", "Alto 2"), part("d", ""), part("e", "Alto 2")}, nil)
	var fronts, ids []string
	for _, p := range r.Pieces {
		if strings.HasSuffix(p.ID, ".front") {
			fronts = append(fronts, p.Name)
		}
		ids = append(ids, p.ID)
	}
	want := []string{"Alto 1, front", "Trousers (1), front", "Alto 2, trousers (1), front", "Trousers (2), front", "Alto 2, trousers (2), front"}
	if !slices.Equal(fronts, want) {
		t.Errorf("the fronts are %q, want %q", fronts, want)
	}
	slices.Sort(ids)
	if len(slices.Compact(ids)) != len(r.Pieces) {
		t.Error("two pieces have one id")
	}
	if title := draft.Title(r); title != "5 garments" {
		t.Errorf("together they are called %q", title)
	}
}

// Checks meet across the seams of each garment, and of two garments need not.
func TestJoinedGarmentsMatchWithinThemselves(t *testing.T) {
	r := draft.Join(choirCloth(t), altos(t, 2), nil)
	met := map[string]int{}
	for _, p := range r.Pieces {
		if p.Match.Along != "" {
			met[p.Match.Along]++
		}
	}
	if len(met) < 2 {
		t.Fatalf("cross stripes meet at %v", met)
	}
	for name, n := range met {
		if !strings.HasPrefix(name, "1.") && !strings.HasPrefix(name, "2.") || n < 2 {
			t.Errorf("%d pieces meet at %q", n, name)
		}
	}
}

// What is cut from a remnant that is laid on first is not bought again.
func TestBuyBesidesARemnant(t *testing.T) {
	j := example(t, "alto-3.json").Job.Clone()
	j.Cloth = []job.Cloth{
		{Outline: square(t, "30", 0, 1, 2, 3), Fold: job.Open},
		{Width: length(t, "58")},
	}
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	opt := lay.Options{Work: 1000}
	cut, err := draft.CutBefore(r, 1, opt)
	if err != nil || len(cut) == 0 {
		t.Fatalf("from the remnant %v is cut, %v", cut, err)
	}
	c, err := draft.OffTheBolt(r, piece.Main)
	if err != nil {
		t.Fatal(err)
	}
	c.Width = 54 * unit.Inch
	besides, err := draft.BuyOf(r, c, cut, opt)
	if err != nil {
		t.Fatal(err)
	}
	all, err := draft.BuyOf(r, c, nil, opt)
	if err != nil {
		t.Fatal(err)
	}
	if besides.Length >= all.Length {
		t.Errorf("besides the remnant %.0f mm, without it %.0f mm", besides.Length.MM(), all.Length.MM())
	}
	if _, err := draft.BuyOf(r, c, lay.WantOf(r.Pieces), opt); !errors.Is(err, draft.ErrNothingToBuy) {
		t.Errorf("where all is cut already: %v", err)
	}
}

// A lay of many pieces is cut by from several pages: each piece has its number on the
// drawing, and under that number its name and place in the list.
func TestManyPiecesHaveNumbers(t *testing.T) {
	on := choirCloth(t)
	on.Cloth[0].Fold = job.Open
	r := draft.Join(on, altos(t, 3), nil)
	l, err := draft.Lay(r, 0, lay.Options{Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	pages := l.Pages(r.Format, sheet.Options{}, sheet.A4())
	said := func(d sheet.Drawing) map[string]int {
		all := map[string]int{}
		for _, it := range d.Items {
			if text, ok := it.(sheet.Text); ok {
				all[text.S]++
				if text.Size < sheet.MinText*0.7 {
					t.Errorf("%q is set %.1f mm large", text.S, text.Size.MM())
				}
			}
		}
		return all
	}
	if len(pages) < 2 {
		t.Fatalf("%d pages for %d pieces", len(pages), len(l.Placements))
	}
	drawing := said(pages[0])
	listed := map[string]int{}
	for _, p := range pages[1:] {
		for text, n := range said(p) {
			listed[text] += n
		}
	}
	fronts := 0
	for i := range l.Placements {
		if no := strconv.Itoa(i + 1); drawing[no] != 1 || listed[no] != 1 {
			t.Errorf("%s stands %d times on the drawing, %d times in the list", no, drawing[no], listed[no])
		}
	}
	for text := range listed {
		if strings.HasPrefix(text, "Alto 2, front: grain line begins ") {
			fronts++
		}
	}
	if fronts != 2 {
		t.Errorf("%d fronts of Alto 2 are listed, want both", fronts)
	}
	if one := l.Pages(r.Format, sheet.Options{}, sheet.A4())[0]; len(one.Items) != len(pages[0].Items) {
		t.Error("the same lay is drawn in two ways")
	}
}
