package lay

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Fold says how the cloth lies on the table.
type Fold uint8

// The ways to fold.
const (
	Open       Fold = iota // one layer, full width
	Lengthwise             // selvedge on selvedge, the fold at x = 0
	Crosswise              // cut edge brought back over the cloth, the fold at y = 0
)

func (f Fold) String() string {
	switch f {
	case Lengthwise:
		return say.Word("folded lengthwise")
	case Crosswise:
		return say.Word("folded crosswise")
	default:
		return say.Word("open")
	}
}

// Cloth is one length of cloth, and how it is laid out to be cut.
type Cloth struct {
	Name string
	// Kind is the cloth of the garment that this is; empty means piece.Main.
	Kind piece.Cloth
	// Width is from selvedge to selvedge, unfolded.
	Width unit.Length
	// Length is what is at hand; zero means as much as is needed, on the bolt.
	Length unit.Length
	Fold   Fold
	// Margin is the strip along each selvedge that no piece may use.
	Margin unit.Length
	// OneWay: nap or a one-way print; no piece is turned end for end.
	OneWay bool
	// Gap is the least distance between two cut lines.
	Gap unit.Length
	// RepeatAlong is the repeat of cross stripes, RepeatAcross that of lengthwise
	// ones, checks have both; zero is none.
	RepeatAlong, RepeatAcross unit.Length
	// ShrinksAlong and ShrinksAcross are what it shrinks, in per cent, once the
	// garment is made: the pieces are laid so much larger.
	ShrinksAlong, ShrinksAcross float64
	// Tilt is how far a piece may be turned off the grain.
	Tilt Degrees
	// SoldBy is the step that a shop sells it by; zero asks for no rounding.
	SoldBy unit.Length
	// LeaveOut: an item that finds no room on Length is left Out of the lay, to
	// be laid on another cloth, and does not make it longer.
	LeaveOut bool
	// Outline, when given, is the edge of a remnant, a ring in either sense;
	// Width, Length and Margin are then not used, and Fold must be Open.
	Outline []geom.Pt
	// Flaws are rings that no piece may touch, measured on the unfolded cloth:
	// x from the left selvedge, y from the cut edge.
	Flaws [][]geom.Pt
}

// kind returns the cloth of the garment that c is.
func (c Cloth) kind() piece.Cloth {
	if c.Kind == "" {
		return piece.Main
	}
	return c.Kind
}

// title names c in a message.
func (c Cloth) title() string {
	if c.Name != "" {
		return c.Name
	}
	return string(c.kind()) + " cloth"
}

// Layers returns how many layers lie where the cloth is folded: 1 or 2.
func (c Cloth) Layers() int {
	if c.Fold == Open {
		return 1
	}
	return 2
}

// lengths is how many lengths of cloth one of the folded part takes.
func (c Cloth) lengths() float64 {
	if c.Fold == Crosswise {
		return 2
	}
	return 1
}

// Folded returns the width of the folded part as it lies on the table: half
// the cloth under a lengthwise fold, else all of it.
func (c Cloth) Folded() unit.Length {
	if c.Fold == Lengthwise {
		return c.Width / 2
	}
	return c.Width
}

// across returns the range of x that pieces may use, in mm.
func (c Cloth) across(opened bool) (lo, hi float64) {
	switch {
	case len(c.Outline) > 0:
		b := geom.BoundsOf(c.Outline)
		return b.Min.X, b.Max.X
	case c.Fold == Lengthwise && !opened:
		return 0, c.Folded().MM() - c.Margin.MM()
	}
	return c.Margin.MM(), c.Width.MM() - c.Margin.MM()
}

// Check says whether pieces can be laid on c at all.
func (c Cloth) Check() error {
	name := c.title()
	if !(c.Gap >= 0) {
		return say.Errorf("%s: gap %.1f mm is below zero; give 0 or more", say.Name(name), c.Gap.MM())
	}
	for i, f := range c.Flaws {
		if len(f) < 3 || geom.Area(f) == 0 {
			return say.Errorf("%s: flaw %d has no area; give at least three corners round it", say.Name(name), i+1)
		}
		if at, bad := geom.SelfCross(f); bad {
			return say.Errorf("%s: flaw %d crosses itself at %.0f, %.0f mm; give its corners in order", say.Name(name), i+1, at.X, at.Y)
		}
	}
	if err := c.checkWeave(); err != nil {
		return err
	}
	if len(c.Outline) > 0 {
		return c.checkOutline()
	}
	switch {
	case !(c.Width > 0):
		return say.Errorf("%s: width %.1f mm; give the width from selvedge to selvedge", say.Name(name), c.Width.MM())
	case !(c.Length >= 0):
		return say.Errorf("%s: length %.1f mm; give the length at hand, or 0 for the bolt", say.Name(name), c.Length.MM())
	case !(c.Margin >= 0) || 2*c.Margin >= c.Folded():
		return say.Errorf("%s: margin %.1f mm leaves no cloth of %.1f mm; give less", say.Name(name), c.Margin.MM(), c.Folded().MM())
	case c.Fold == Crosswise && c.OneWay:
		return say.Errorf("%s: one-way cloth cannot be folded crosswise: the nap of the two layers would run against each other; fold it lengthwise or lay it open", say.Name(name))
	case c.Fold == Crosswise && len(c.Flaws) > 0:
		return say.Errorf("%s: flaws cannot be kept clear of under a crosswise fold, whose place is only known after the lay; fold it lengthwise or lay it open", say.Name(name))
	case c.Fold > Crosswise:
		return say.Errorf("%s: fold %d is not known; lay it open, lengthwise or crosswise", say.Name(name), c.Fold)
	}
	return nil
}

func (c Cloth) checkOutline() error {
	name := c.title()
	if len(c.Outline) < 3 || geom.Area(c.Outline) == 0 {
		return say.Errorf("%s: the remnant's outline has no area; give at least three corners", say.Name(name))
	}
	if at, bad := geom.SelfCross(c.Outline); bad {
		return say.Errorf("%s: the remnant's outline crosses itself at %.0f, %.0f mm; give its corners in order", say.Name(name), at.X, at.Y)
	}
	if b := geom.BoundsOf(c.Outline); b.Min.X < 0 || b.Min.Y < 0 {
		return say.Errorf("%s: the remnant's outline reaches to %.0f, %.0f mm; measure it from its own left and near edges", say.Name(name), b.Min.X, b.Min.Y)
	}
	if c.Fold != Open {
		return say.Errorf("%s: a remnant with an outline is laid open, not %s", say.Name(name), say.Name(c.Fold.String()))
	}
	return nil
}

// TooWideError says that a piece does not fit across the cloth in any turn
// that it may take. Pack returns it; take it with errors.As.
type TooWideError struct {
	Piece, Name string
	Across      unit.Length // the least width of the piece in an allowed turn
	Room        unit.Length // between the margins
	Fold        Fold        // how the cloth lay where it was tried
	OpenFits    bool        // it would fit on the opened cloth
}

// ShortBy returns how much width is wanting.
func (e *TooWideError) ShortBy() unit.Length { return e.Across - e.Room }

func (e *TooWideError) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *TooWideError) In(w *say.Words) string {
	name, fold := say.Name(e.Name), say.Name(e.Fold.String())
	if e.OpenFits {
		return w.F("%s does not fit across the cloth (%s): %.1f mm wide, %.1f mm usable, short by %.1f mm; it would fit on the opened cloth",
			name, fold, e.Across.MM(), e.Room.MM(), e.ShortBy().MM())
	}
	return w.F("%s does not fit across the cloth (%s): %.1f mm wide, %.1f mm usable, short by %.1f mm",
		name, fold, e.Across.MM(), e.Room.MM(), e.ShortBy().MM())
}
