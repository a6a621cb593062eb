package share

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
)

// Printer is the guided check of a printer.
type Printer struct {
	All  []kit.Choice // those that were checked, and none
	Used string
	Sent string // how the one in use is corrected
	Open bool

	Unit   string // of a figure that names none
	Inches bool   // it is the inch

	Name, Across, Along string // what the fields hold
	Bad, Told           string

	OnOpen, OnCheck, OnForget func()
	OnUse                     func(name string)
	OnType                    func(id, text string)
}

// The fields of the check.
const (
	PrinterName   = "printer-name"
	PrinterAcross = "printer-across"
	PrinterAlong  = "printer-along"
)

// printer has the square of a test sheet measured.
func (v View) printer() app.UI {
	p := v.Printer
	used := p.Used
	if used == "" {
		used = v.T("not checked")
	}
	field := func(id, name, text string, numeric bool) app.UI {
		return kit.Div().Body(
			kit.Label(id, name),
			&kit.Field{ID: id, Text: text, Numeric: numeric, Bad: p.Bad != "", Note: "printer-bad", Most: 40, OnText: p.OnType},
		)
	}
	measure := v.T("2. Measure the inner square, 100 mm, with a good ruler, and write down what you find.")
	if p.Inches {
		measure = v.T("2. Measure the outer square, 4 in, with a good ruler, and write down what you find. Millimetres are finer: measure the inner square, 100 mm, and write “99.6 mm”.")
	}
	return some("stack", false,
		kit.Disclose("printer", v.T("The printer"), used, p.Open, p.OnOpen),
		some("stack", !p.Open,
			kit.Div().Hidden(len(p.All) < 2).Body(
				kit.Choose("printer-used", v.T("Print on"), "", p.All, p.Used, func(_, name string) { p.OnUse(name) }),
				aside("quiet", p.Sent),
			),
			line(v.T("1. Print the test sheet at 100 % (“actual size”).")),
			v.keys("paper", engine.Check),
			line(measure),
			kit.Div().Class("pair").Body(
				field(PrinterAcross, v.F("Across the sheet, %s", p.Unit), p.Across, true),
				field(PrinterAlong, v.F("Along the sheet, %s", p.Unit), p.Along, true),
			),
			line(v.T("3. Give the printer a name: what is printed on it is corrected from then on.")),
			field(PrinterName, v.T("Name of the printer"), p.Name, false),
			kit.P().ID("printer-bad").Class("bad").Hidden(p.Bad == "").Text(p.Bad),
			some("choices", false,
				v.key("paper", "printer-check", v.T("Correct this printer"), p.OnCheck),
				v.key("paper", "printer-forget", v.T("Forget it"), p.OnForget).Hidden(p.Used == ""),
			),
			kit.P().ID("printer-told").Role("status").Hidden(p.Told == "").Text(p.Told),
		),
	)
}

// Piece is a piece that may be left out of what is printed.
type Piece struct {
	ID, Name string
	Out      bool
}

// pieces chooses what is printed.
func (v View) pieces() app.UI {
	out := 0
	for _, p := range v.Pieces {
		if p.Out {
			out++
		}
	}
	printed := v.T("all of them")
	if out > 0 {
		printed = v.F("%d of %d", len(v.Pieces)-out, len(v.Pieces))
	}
	return some("stack", false,
		kit.Disclose("pieces-printed", v.T("Pieces to print"), printed, v.PiecesOpen, v.OnPieces),
		some("choices", !v.PiecesOpen, app.Range(v.Pieces).Slice(func(i int) app.UI {
			p := v.Pieces[i]
			return kit.Key().Class("choice").Aria("pressed", kit.YesNo(!p.Out)).Text(p.Name).
				OnClick(func(app.Context, app.Event) { v.OnPiece(p.ID) }, app.EventScope(p.ID))
		})),
	)
}
