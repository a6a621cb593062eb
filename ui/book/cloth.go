package book

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Cloth is cloth that is kept for later jobs.
type Cloth struct {
	ID, Name string
	From     string // the job that left it
	Used     string // the jobs that it is used for
	Fault    string // what is to be mended before it can be laid on
	Sure     bool   // one more tap deletes it
	Cornered bool   // it is entered by its corners
	Corners  int
	Fields   []Length
	Drawing  string // SVG

	Fractions func(id, name string) app.UI // keys for the field of a length

	OnName     func(text string)
	OnLength   func(key, text string)
	OnCorners  func(yes bool) // it is entered so, or as a rectangle
	OnCorner   func()         // one more
	OnNoCorner func(i int)
	OnDelete   func()
}

// Length is one of its figures.
type Length struct{ Key, Text, Bad string }

// Outline draws a remnant by its corners, numbered where they are entered.
func Outline(corners [][2]unit.Length, numbered bool) string {
	var pen kit.Pen
	var ring []geom.Pt
	for _, k := range corners {
		ring = append(ring, geom.Pt{X: k[0].MM(), Y: k[1].MM()})
	}
	pen.Ring("cloth", ring, geom.Identity())
	box := geom.BoundsOf(ring)
	rim := geom.Vec{X: box.W()/8 + 1, Y: box.H()/8 + 1}
	pen.Reach(geom.Rect{Min: box.Min.Add(rim.Neg()), Max: box.Max.Add(rim)})
	for i, p := range ring {
		if numbered {
			out := p.Sub(box.Min.Lerp(box.Max, 0.5)).Unit()
			pen.Word("label", strconv.Itoa(i+1), "middle", p, out.X*14, out.Y*14)
		}
	}
	return pen.String()
}

func (c *Cloth) render(v *View) []app.UI {
	remove := v.T("Delete this cloth")
	if c.Sure {
		remove = v.T("Yes, delete")
	}
	shape := "rectangle"
	if c.Cornered {
		shape = "corners"
	}
	return []app.UI{
		kit.Act("all-cloths", "choice", v.T("All cloths"), func() { v.OnCloth("") }),
		kit.Div().Class("row").Body(
			kit.Label("remnant-name", v.T("Name")),
			&kit.Field{ID: "remnant-name", Text: c.Name, Most: 60, Hint: v.T("such as blue twill"), OnText: func(_, text string) { c.OnName(text) }},
		),
		kit.P().Class("quiet").Hidden(c.From == "").Text(c.From),
		kit.P().Class("leave").Hidden(c.Used == "").Text(c.Used),
		kit.Choose("remnant-shape", v.T("Its shape"), "", []kit.Choice{
			{ID: "rectangle", Name: v.T("a rectangle")}, {ID: "corners", Name: v.T("by its corners")},
		}, shape, func(_, id string) { c.OnCorners(id == "corners") }),
		kit.Div().Class("pair").Hidden(c.Cornered).Body(
			c.length("width", v.T("Width")),
			c.length("length", v.T("Length")),
		),
		kit.Div().ID("corners").Class("stack").Hidden(!c.Cornered).Body(
			kit.P().Class("quiet").Text(v.T("In order round it, each from the left side and from the near edge.")),
			app.Range(make([]struct{}, c.Corners)).Slice(func(i int) app.UI {
				return kit.Div().Class("card").Body(
					kit.Strong().Text(v.F("Corner %d", i+1)),
					kit.Div().Class("pair").Body(
						c.length("outline["+strconv.Itoa(i)+"].across", v.T("From the left side")),
						c.length("outline["+strconv.Itoa(i)+"].along", v.T("From the near edge")),
					),
					kit.Act("corner-gone-"+strconv.Itoa(i), "choice", v.T("Take this corner out"), func() { c.OnNoCorner(i) }).Hidden(c.Corners <= 3),
				)
			}),
			kit.Div().Class("choices").Body(kit.Act("corner-add", "choice", v.T("One more corner"), c.OnCorner)),
		),
		kit.P().ID("remnant-fault").Class("bad").Hidden(c.Fault == "").Text(c.Fault),
		app.If(c.Drawing != "", func() app.UI {
			return &kit.Drawing{Words: v.Words, SVG: c.Drawing, Label: v.T("The remnant"), Size: "on-mark", Still: true}
		}),
		kit.Act("delete-cloth", "choice", remove, c.OnDelete),
	}
}

// length is the field of one figure.
func (c *Cloth) length(key, label string) app.UI {
	var f Length
	for _, other := range c.Fields {
		if other.Key == key {
			f = other
		}
	}
	id := "remnant-" + key
	return kit.Div().Class("row").Body(
		kit.Label(id, label),
		&kit.Field{
			ID: id, Text: f.Text, Numeric: true, Bad: f.Bad != "", Note: id + "-note", Most: 40,
			OnText: func(_, text string) { c.OnLength(key, text) },
		},
		c.Fractions(id, label),
		kit.P().ID(id+"-note").Class("bad").Hidden(f.Bad == "").Text(f.Bad),
	)
}
