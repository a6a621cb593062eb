package ui

import (
	"slices"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	order "chalkfold/draft/bench"
	"chalkfold/draft/body"
	chalkmarks "chalkfold/draft/chalk"
	"chalkfold/draft/construct"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/qr"
	"chalkfold/draft/sketch"
	"chalkfold/draft/unit"
	"chalkfold/ui/bench"
	"chalkfold/ui/chalk"
	"chalkfold/ui/cloth"
	"chalkfold/ui/drafting"
	"chalkfold/ui/fitting"
	"chalkfold/ui/flat"
	"chalkfold/ui/how"
	"chalkfold/ui/tape"
)

// howViewed is how the help is looked at.
type howViewed struct {
	open bool
	from int // how far the page was scrolled down
	of   string
	svg  string // the drawing of the stage that it is of
	says string
}

// howView is the help of the stage.
func (d *Desk) howView() app.UI {
	_, here, _ := around(d.tabs(), d.stage)
	at := &d.view.how
	if key := d.stage + " " + d.Language().ID; at.of != key {
		at.of = key
		at.svg, at.says = d.howPicture()
	}
	return how.View{
		Words: d.Words, Stage: here.id, Name: d.T(here.name), Texts: d.howTexts(), Drawing: at.svg, Shows: at.says, Signs: d.stage == stageDraft,
		OnBack: func() { d.showHow(false) },
	}.Render()
}

// howTexts say what to do at the stage.
func (d *Desk) howTexts() []string {
	switch d.stage {
	case stageTape:
		return []string{
			d.T("Take the measurements one after the other. The picture shows where the tape goes."),
			d.T("Type the whole number, then tap the fraction. One key says that the figure is in the other unit."),
			d.T("A figure that is hardly possible is asked about. Measure again. If it is right, keep it."),
			d.T("What you did not take is estimated, and marked ≈. Take it when you can: an estimate may not fit."),
		}
	case stageStyle:
		return []string{
			d.T("Say what is to be made: the closing, the pockets, the leg. The picture follows every tap."),
			d.T("Below are your rules: ease, darts, fork. What you change here counts for this job alone. House rules hold for every new job."),
			d.T("“Trued” mends what the method loses as it is spoken. Leave it on, unless you want to see the difference."),
		}
	case stageDraft:
		return []string{
			d.T("The pieces are drawn from the measurements, by your rules. The full line is cut, the broken line is sewn. Short strokes are notches."),
			d.T("Tap a line or a mark: you see its sum, and where the tape is held."),
			d.T("Every check has a sign. Tap it to see the place, and what mends it."),
		}
	case stageCloth:
		return []string{
			d.T("Type how wide the cloth is, and how long. Say whether it is folded, and whether it has a nap."),
			d.T("The pieces are laid as close as they go. The first line says whether the cloth is enough."),
			d.T("Tap a piece to take it in your hand and move it. Pin it, and the others are laid round it."),
			d.T("When cloth is short you see what can give, and how much each saves."),
		}
	case stageChalk:
		return []string{
			d.T("Chalk straight onto the cloth, one mark after the other. No paper is needed."),
			d.T("Hold the tape at the small dot, and run it the way that is told. Chalk where the red ring is. Then tap Next."),
			d.T("Join the marks with a ruler. A curve is told by a few short measures off a straight line."),
		}
	case stageBench:
		return []string{
			d.T("Tick each piece when it is cut. Then follow the order: what lies under a seam is sewn before it."),
			d.T("Tap a task: you see the seam, the stitch, the needle, and how to press."),
			d.T("The waistband comes late. Measure the waist that was sewn, type it, and cut the band to that."),
			d.T("Keep your fingers away from blades, needles and hot irons. Follow your workshop's rules."),
		}
	case stageFitting:
		return []string{
			d.T("Let her put it on, and look for folds and for what pulls. Tap the picture that looks like it."),
			d.T("Choose the cause, pin it out on her, and say how much. The draft is changed and checked anew."),
			d.T("What her fittings teach is kept with her. Her next garment begins with it."),
		}
	case stageShare:
		return []string{
			d.T("Print the whole pattern, or only the curves, or send the marks as words."),
			d.T("Print the test sheet first, and measure its square. A printer that shrinks is corrected."),
			d.T("A link or a code carries the draft to another phone, without a network. Measurements and the ticket go with it only when you tick them."),
		}
	case stageHouse:
		return []string{
			d.T("These are the rules that you draft by. Every new job begins with them."),
			d.T("Change a figure and you see what it does to the draft. Every rule has its range."),
			d.T("Lend them by a link or a code: an apprentice then drafts as you do."),
		}
	case stageCopy:
		return []string{
			d.T("A second copy keeps everything on another phone, or on a server that cannot read it."),
			d.T("Write the words down on paper, and keep them safe. Without them nobody can open the copy, not even you."),
		}
	case stageQuote:
		return []string{
			d.T("Write down what each thing costs: cloth, notions, your time. The sum follows."),
			d.T("Margin and rounding are yours alone. The client sees what she pays."),
			d.T("Write down what she has paid. What is owed stands in the book."),
		}
	case stageOrder:
		return []string{
			d.T("An order is several garments made together: a uniform for many bodies, or an outfit for one."),
			d.T("Begin another body in the same style, put in a job of the Book, or take in a table of sizes."),
			d.T("All are laid on one cloth, each piece under its ticket. What is cut already is not laid again."),
			d.T("You see how much cloth to buy, and the notions of all. Tap what is in the drawer."),
		}
	case stageLesson:
		return []string{
			d.T("The draft is built step by step. Where a sum is needed, you work it out first."),
			d.T("You see the figures that you need. Type your number, and tap ✓."),
			d.T("A wrong number is explained: the rule, your figures, and what may have gone wrong. Try again, or have it shown."),
			d.T("At the end come the marks: to keep, to send, or to print."),
		}
	}
	return []string{
		d.T("One job is one garment for one person. Tap New job to begin, or tap a job to go on with it."),
		d.T("The book shows how far each job is, when it is due, and what is still owed."),
		d.T("The key in the middle below leads to every stage."),
		d.T("Save a backup file now and then, and keep it off this phone. What is on one phone alone can be lost."),
	}
}

// howPicture draws something of the stage: of the job on the desk where it is
// drafted, else of the sample.
func (d *Desk) howPicture() (svg, shows string) {
	r := d.work.Result
	if r == nil || d.ordering() {
		if j, err := Sample(); err == nil {
			r, _ = (&draft.Maker{Words: d.Words}).Make(j.File) // the program's own: it can be drafted
		}
	}
	if r == nil {
		return "", ""
	}
	switch d.stage {
	case stageTape:
		return tape.Drawing(body.HipGirth, r.Job.Figure, r.Job.Measurements), d.T("Where the tape goes for the hip girth")
	case stageBook, stageStyle:
		if f, ok := sketch.Of(r.Panels, r.Darts, r.Worn); ok {
			return flat.Both(f, d.T("front"), d.T("back")), d.T("The garment as it is worn")
		}
	case stageDraft:
		s, _ := drafting.Pieces(r, "", drafting.Lit{})
		return s.SVG, d.T("The pieces of the draft")
	case stageCloth:
		return d.howLay(r), d.T("The pieces on the cloth, by their numbers")
	case stageOrder:
		two := draft.Join(r.Job, []draft.Part{{Key: "1", Result: r}, {Key: "2", Result: r}}, d.Words)
		two.Pieces = slices.DeleteFunc(two.Pieces, func(p piece.Piece) bool { // the small ones are only in the way
			return !strings.HasSuffix(p.ID, ".front") && !strings.HasSuffix(p.ID, ".back")
		})
		if len(two.Job.Cloth) > 0 {
			two.Job.Cloth[0].Fold, two.Job.Cloth[0].Kept = job.Open, nil
		}
		return d.howLay(two), d.T("Two garments on one cloth")
	case stageChalk:
		return d.howMark(r), d.T("A mark: from the small dot to the red ring")
	case stageBench:
		tasks, _ := draft.Order(r, order.Setting{Machine: order.Straight, Weight: order.Medium})
		for _, t := range tasks {
			if len(t.Sews) > 0 {
				svg, _ := bench.Picture(r.Pieces, t, d.Words)
				return svg, d.F("The seam of a task: %s", t.Name)
			}
		}
	case stageFitting:
		if f, ok := sketch.Of(r.Panels, r.Darts, r.Worn); ok && r.Garment.Signs != nil {
			s := r.Garment.Signs()[0]
			return fitting.Picture(f, s), d.F("A sign: %s", d.T(s.Name))
		}
	case stageShare:
		if c, err := qr.Of(address()); err == nil {
			return c.SVG(), d.T("The code that leads to this page")
		}
	case stageHouse, stageLesson:
		for i, s := range r.Record.Steps() {
			if s.Kind == construct.KindPoint && strings.HasSuffix(s.Name, "fork_tip") {
				return drafting.ReplayAt(r.Record, i+1, r.Format).Scene.SVG, d.F("A rule at work: %s", r.Record.Because(s.Name, r.Format))
			}
		}
	}
	return "", ""
}

// howLay is the lay of the job, or a quick one.
func (d *Desk) howLay(r *draft.Result) string {
	if d.laid() && d.stage == stageCloth {
		return cloth.Draw(d.laying.shown, d.laying.r.Format, -1).SVG
	}
	if len(r.Job.Cloth) == 0 {
		return ""
	}
	const quick = 200
	bolt := *r // how much there is of it does not matter here
	bolt.Job = r.Job.Clone()
	bolt.Job.Cloth[0].Length = unit.Quantity{}
	l, err := draft.Lay(&bolt, 0, lay.Options{Work: quick})
	if err != nil {
		return ""
	}
	return cloth.Draw(l, r.Format, -1).SVG
}

// howMark is a mark of the chalk guide, measured from another.
func (d *Desk) howMark(r *draft.Result) string {
	g := chalk.Read(draft.Chalk(r), r.Format)
	for i, m := range g.Marks {
		s := g.Sections[m.Section]
		at := slices.IndexFunc(r.Pieces, func(p piece.Piece) bool { return p.ID == s.Piece })
		if at >= 0 && m.HasHeld && m.Of.Kind == chalkmarks.Point && i > s.First+4 {
			return chalk.Picture(r.Pieces[at], g.Marks[s.First:i], m)
		}
	}
	return ""
}
