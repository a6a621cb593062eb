package sheet

import (
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Paper is a sheet of paper as it comes out of the printer.
type Paper struct {
	Name          string
	Width, Height unit.Length
}

// Papers returns the papers that are offered, upright. A sizes after ISO 216;
// Letter is 8½ by 11 in.
func Papers() []Paper {
	return []Paper{
		{"A4", 210, 297},
		{"A3", 297, 420},
		{"Letter", 8.5 * unit.Inch, 11 * unit.Inch},
	}
}

// A4 returns the paper most printers hold.
func A4() Paper { return Papers()[0] }

// PaperNamed returns the paper of that name, capitals or not; false when it is
// not offered.
func PaperNamed(name string) (Paper, bool) {
	for _, p := range Papers() {
		if strings.EqualFold(p.Name, name) {
			return p, true
		}
	}
	return Paper{}, false
}

// Turned returns p lying on its side.
func (p Paper) Turned() Paper { return Paper{p.Name + " turned", p.Height, p.Width} }

func (p Paper) box() geom.Rect {
	return geom.Rect{Max: geom.Pt{X: p.Width.MM(), Y: p.Height.MM()}}
}
