package job

import (
	"bytes"
	"fmt"

	"chalkfold/draft/piece"
	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Fold says how cloth lies on the table.
type Fold string

// The folds; the zero Fold is Open.
const (
	Open       Fold = "open"
	Lengthwise Fold = "lengthwise" // selvedge on selvedge
	Crosswise  Fold = "crosswise"  // cut edge on cut edge
)

// Cloth is one length of cloth. A length that is not set was not given.
type Cloth struct {
	Name   string
	Kind   piece.Cloth   // the zero Kind is piece.Main
	Width  unit.Quantity // selvedge to selvedge, unfolded
	Length unit.Quantity // at hand; not set is the bolt, as much as is needed
	Fold   Fold
	OneWay bool          // nap or a one-way print
	Margin unit.Quantity // along each selvedge, not to be used
	Gap    unit.Quantity // kept between pieces

	// The repeats of stripes and checks: of lengthwise stripes across the
	// cloth, of cross stripes along it, of checks both.
	RepeatAcross, RepeatAlong unit.Quantity
	// By how much of each hundred it will shrink when it is first washed, when
	// it is not washed before it is cut.
	ShrinksAlong, ShrinksAcross Decimal
	// Tilt is how many degrees a piece may lie off the straight grain.
	Tilt Decimal
	// SoldBy is the least step that the shop sells it by; not set is as it is
	// sold where lengths are in the job's units.
	SoldBy  unit.Quantity
	Flaws   []Flaw
	Outline []Corner // of a remnant, in order round it; Width, Length and Margin say nothing then
	Kept    []Kept   // pieces laid by hand
	// Remnant names the remnant kept in the maker's book that this cloth is.
	Remnant string
}

// Flaw is a rectangle of cloth not to be used: a hole, a stain.
type Flaw struct {
	FromSelvedge unit.Quantity // from the left selvedge to its left side
	FromEdge     unit.Quantity // from the cut edge to its near side
	Across       unit.Quantity // its size
	Along        unit.Quantity
}

// Corner is one corner of a remnant, from its left side and its near edge.
type Corner struct{ Across, Along unit.Quantity }

// Encode writes one cloth by itself, as it stands in a job file. The error is a
// *Bad when it could not be read back.
func (c Cloth) Encode() ([]byte, error) {
	e := &encoder{plain.Writer{}}
	e.cloth(c)
	text, err := e.Done()
	if err != nil {
		return nil, fmt.Errorf("write cloth: %w", err)
	}
	_, err = DecodeCloth(text)
	return text, err
}

// DecodeCloth reads what Encode has written. The error is a *Bad.
func DecodeCloth(text []byte) (Cloth, error) {
	d := &decoder{}
	n := d.readTree(bytes.NewReader(text))
	if d.fatal || n == nil {
		return Cloth{}, &Bad{d.problems}
	}
	c := d.cloth(n, "cloth")
	if len(d.problems) > 0 {
		return Cloth{}, &Bad{d.problems}
	}
	return c, nil
}

func (d *decoder) cloths(n *node) []Cloth {
	if n == nil || !d.is(n, "cloth", plain.List) {
		return nil
	}
	var out []Cloth
	for i, c := range n.list {
		out = append(out, d.cloth(c, fmt.Sprintf("cloth[%d]", i)))
	}
	return out
}

func (d *decoder) cloth(n *node, path string) Cloth {
	var c Cloth
	if !d.is(n, path, plain.Object) {
		return c
	}
	d.known(n, path, []string{
		"name", "kind", "width", "length", "fold", "one_way", "margin", "gap", "repeat_across", "repeat_along",
		"shrinks_along", "shrinks_across", "tilt", "sold_by", "flaws", "outline", "remnant", "kept",
	})
	c.Name = d.text(n, "name", path+".name")
	c.Kind = piece.Cloth(d.choice(n, "kind", path+".kind", string(piece.Main), string(piece.Lining), string(piece.Interfacing)))
	c.Fold = Fold(d.choice(n, "fold", path+".fold", string(Open), string(Lengthwise), string(Crosswise)))
	if v, given := n.at["one_way"]; given && d.is(v, path+".one_way", plain.Truth) {
		c.OneWay = v.text == "true"
	}
	for _, l := range []struct {
		key  string
		into *unit.Quantity
	}{
		{"width", &c.Width},
		{"length", &c.Length},
		{"margin", &c.Margin},
		{"gap", &c.Gap},
		{"repeat_across", &c.RepeatAcross},
		{"repeat_along", &c.RepeatAlong},
		{"sold_by", &c.SoldBy},
	} {
		if v, given := n.at[l.key]; given {
			*l.into, _ = d.quantity(v, path+"."+l.key)
		}
	}
	c.ShrinksAlong = d.decimal(n, "shrinks_along", path)
	c.ShrinksAcross = d.decimal(n, "shrinks_across", path)
	c.Tilt = d.decimal(n, "tilt", path)
	c.Flaws = d.flaws(n, path+".flaws")
	c.Outline = d.outline(n, path+".outline")
	c.Remnant = d.text(n, "remnant", path+".remnant")
	c.Kept = d.kept(n, path+".kept")
	return c
}

func (d *decoder) flaws(n *node, path string) []Flaw {
	var out []Flaw
	for i, v := range d.objects(n, "flaws", path) {
		var f Flaw
		d.lengths(v, fmt.Sprintf("%s[%d]", path, i), f.lengths())
		out = append(out, f)
	}
	return out
}

func (d *decoder) outline(n *node, path string) []Corner {
	var out []Corner
	for i, v := range d.objects(n, "outline", path) {
		var c Corner
		d.lengths(v, fmt.Sprintf("%s[%d]", path, i), c.lengths())
		out = append(out, c)
	}
	return out
}

// keyed is a length under its key.
type keyed struct {
	key string
	at  *unit.Quantity
}

func (f *Flaw) lengths() []keyed {
	return []keyed{{"from_selvedge", &f.FromSelvedge}, {"from_edge", &f.FromEdge}, {"across", &f.Across}, {"along", &f.Along}}
}

func (c *Corner) lengths() []keyed { return []keyed{{"across", &c.Across}, {"along", &c.Along}} }

// objects are the entries of a list of objects.
func (d *decoder) objects(n *node, key, path string) []*node {
	v, given := n.at[key]
	if !given || !d.is(v, path, plain.List) {
		return nil
	}
	return v.list
}

// lengths reads an object of nothing but lengths, every one of them needed.
func (d *decoder) lengths(n *node, path string, all []keyed) {
	if !d.is(n, path, plain.Object) {
		return
	}
	var keys []string
	for _, k := range all {
		keys = append(keys, k.key)
		v, given := n.at[k.key]
		if !given {
			d.fail(path+"."+k.key, "", say.Of("missing; write a length such as 3 in, or 0 in"))
			continue
		}
		*k.at, _ = d.quantity(v, path+"."+k.key)
	}
	d.known(n, path, keys)
}

func (e *encoder) cloths(cloths []Cloth) {
	if len(cloths) == 0 {
		return
	}
	e.Key("cloth").Open('[')
	for _, c := range cloths {
		e.Next()
		e.cloth(c)
	}
	e.Shut(']')
}

func (e *encoder) cloth(c Cloth) {
	e.Open('{')
	e.TextIf("name", c.Name)
	e.TextIf("kind", or(string(c.Kind), string(piece.Main)))
	e.length("width", c.Width)
	e.length("length", c.Length)
	e.TextIf("fold", or(string(c.Fold), string(Open)))
	e.TruthIf("one_way", c.OneWay)
	e.length("margin", c.Margin)
	e.length("gap", c.Gap)
	e.length("repeat_across", c.RepeatAcross)
	e.length("repeat_along", c.RepeatAlong)
	e.TextIf("shrinks_along", string(c.ShrinksAlong))
	e.TextIf("shrinks_across", string(c.ShrinksAcross))
	e.TextIf("tilt", string(c.Tilt))
	e.length("sold_by", c.SoldBy)
	if len(c.Flaws) > 0 {
		e.Key("flaws").Open('[')
		for _, f := range c.Flaws {
			e.lengths(f.lengths())
		}
		e.Shut(']')
	}
	if len(c.Outline) > 0 {
		e.Key("outline").Open('[')
		for _, k := range c.Outline {
			e.lengths(k.lengths())
		}
		e.Shut(']')
	}
	e.TextIf("remnant", c.Remnant)
	e.kept(c.Kept)
	e.Shut('}')
}

// lengths writes an entry that is an object of lengths.
func (e *encoder) lengths(all []keyed) {
	e.Next().Open('{')
	for _, k := range all {
		e.length(k.key, *k.at)
	}
	e.Shut('}')
}
