package sheet

import "chalkfold/draft/unit"

// Role says what a line or a text is for; how it looks follows from that.
type Role uint8

// The roles.
const (
	CutLine    Role = iota // where the shears go
	SewLine                // where the needle goes
	Grain                  // lies along the warp
	NotchLine              // across the allowance
	FoldLine               // lies on the fold, or is folded
	CreaseLine             // pressed or tucked
	DartLine               // dart and pleat legs
	InnerLine              // any other line inside a piece
	MarkPoint              // drilled, chalked or tacked
	Label                  // text that must be read
	Note                   // text that helps
	ClothArea              // cloth that no piece covers
	ClothEdge              // cut edge of the cloth
	Selvedge               // woven edge of the cloth
	Dimension              // lines that carry a measurement
	Frame                  // edge of what is kept of a sheet of paper
	Gauge                  // squares that prove the print is true
	Blank                  // bare: hides what lies under it
	roles
)

// Style is how a role looks in print.
type Style struct {
	Name  string        // ASCII, for a class name
	Width unit.Length   // of the line; zero draws none
	Dash  []unit.Length // drawn, left, drawn, left ...; nil is solid
	Grey  uint8         // 0 black, 255 white; of line, area and text alike
}

// StyleOf returns the style of r. Cut lines are solid and sew lines dashed, as
// drawing practice has it. Every text is dark enough for a contrast of 7 to 1
// on white.
func StyleOf(r Role) Style {
	switch r {
	case CutLine:
		return Style{Name: "cut", Width: 0.5}
	case SewLine:
		return Style{Name: "sew", Width: 0.3, Dash: []unit.Length{4, 2}}
	case Grain:
		return Style{Name: "grain", Width: 0.3}
	case NotchLine:
		return Style{Name: "notch", Width: 0.5}
	case FoldLine:
		return Style{Name: "fold", Width: 0.4, Dash: []unit.Length{9, 2, 2, 2}}
	case CreaseLine:
		return Style{Name: "crease", Width: 0.25, Dash: []unit.Length{12, 4}, Grey: 60}
	case DartLine:
		return Style{Name: "dart", Width: 0.3, Dash: []unit.Length{2.5, 1.5}}
	case InnerLine:
		return Style{Name: "inner", Width: 0.25, Dash: []unit.Length{6, 2, 1, 2}}
	case MarkPoint:
		return Style{Name: "mark", Width: 0.3}
	case Label:
		return Style{Name: "label"}
	case Note:
		return Style{Name: "note", Grey: 70}
	case ClothArea:
		return Style{Name: "cloth-area", Grey: 232}
	case ClothEdge:
		return Style{Name: "cloth-edge", Width: 0.4}
	case Selvedge:
		return Style{Name: "selvedge", Width: 1.2, Grey: 90}
	case Dimension:
		return Style{Name: "dimension", Width: 0.25}
	case Frame:
		return Style{Name: "frame", Width: 0.2, Grey: 130}
	case Gauge:
		return Style{Name: "gauge", Width: 0.2, Grey: 110}
	case Blank:
		return Style{Name: "blank", Grey: 255}
	case roles:
	}
	return Style{Name: "cut", Width: 0.5}
}

// Styles returns the style of every role, in order.
func Styles() []Style {
	out := make([]Style, roles)
	for r := range roles {
		out[r] = StyleOf(r)
	}
	return out
}
