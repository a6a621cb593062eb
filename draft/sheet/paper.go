package sheet

import (
	"strings"

	"chalkfold/draft/geom"
	"chalkfold/draft/unit"
)

// Paper is a sheet of paper as it comes out of the printer, or a roll.
type Paper struct {
	Name          string
	Width, Height unit.Length // a Height of nought is a roll, cut off where the print ends
}

// Papers returns the sheets that are offered, upright. A sizes after ISO 216;
// Letter, Legal and Tabloid after ANSI/ASME Y14.1 and common practice, in whole
// and half inches.
func Papers() []Paper {
	return []Paper{
		{"A4", 210, 297},
		{"A3", 297, 420},
		{"Letter", 8.5 * unit.Inch, 11 * unit.Inch},
		{"Legal", 8.5 * unit.Inch, 14 * unit.Inch},
		{"Tabloid", 11 * unit.Inch, 17 * unit.Inch},
	}
}

// Rolls returns the rolls that are offered.
func Rolls() []Paper {
	return []Paper{
		{"24 in roll", 24 * unit.Inch, 0},
		{"36 in roll", 36 * unit.Inch, 0},
		{"610 mm roll", 610, 0},
		{"914 mm roll", 914, 0},
	}
}

// A4 returns the paper most printers hold.
func A4() Paper { return Papers()[0] }

// PaperNamed returns the paper or roll of that name, capitals or not, with
// hyphens for spaces or not; false when it is not offered.
func PaperNamed(name string) (Paper, bool) {
	plain := func(s string) string { return strings.ReplaceAll(s, " ", "-") }
	for _, p := range append(Papers(), Rolls()...) {
		if strings.EqualFold(plain(p.Name), plain(name)) {
			return p, true
		}
	}
	return Paper{}, false
}

// Roll reports whether p is a roll.
func (p Paper) Roll() bool { return p.Height == 0 }

// Turned returns p lying on its side.
func (p Paper) Turned() Paper { return Paper{p.Name + " turned", p.Height, p.Width} }

func (p Paper) box() geom.Rect {
	return geom.Rect{Max: geom.Pt{X: p.Width.MM(), Y: p.Height.MM()}}
}
