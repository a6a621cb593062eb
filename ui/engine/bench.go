package engine

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/svg"
	"chalkfold/ui/flat"
)

// Bench is where tasks are done, one at a time.
type Bench struct {
	Now func() time.Time
	// Font fetches the font of PDFs. It may take its time.
	Font func() ([]byte, error)
	// Words fetches the words of a language other than English, as Font does.
	Words func(id string) (*say.Words, error)
	// Slice is how long work goes on before Rest is called, which lets messages
	// in and, on the page, the hand.
	Slice time.Duration
	Rest  func()

	maker draft.Maker
	order Order         // whose
	made  *draft.Result // it is
	paper printing      // how
	tiled sheet.Tiled   // it lies
	font  []byte
	board flat.Board
}

// tellEach is how often a task says that it goes on.
const tellEach = 300 * time.Millisecond

// Why a file of the page was not fetched.
var (
	ErrNoFont  = say.Errorf("the letters for PDFs could not be fetched: try again when there is a network")
	ErrNoWords = say.Errorf("the words of your language could not be fetched: try again when there is a network")
)

// errStopped is the end of a task that was given up.
var errStopped = errors.New("stopped")

// Do does a task and tells what comes of it. It gives up once stopped says so.
func (b *Bench) Do(t Task, stopped func() bool, tell func(Answer)) {
	r := &run{bench: b, id: t.ID, stopped: stopped, tell: tell, rested: b.Now(), told: b.Now()}
	data, err := r.do(t)
	a := Answer{ID: t.ID, Is: Done, Now: r.now, Of: r.of, Data: data}
	if err != nil {
		a.Is, a.Data = Fault, []byte(b.maker.Words.Err(err))
	}
	tell(a)
}

// run is a task under way.
type run struct {
	bench        *Bench
	id           uint32
	stopped      func() bool
	tell         func(Answer)
	rested, told time.Time
	now, of      int
}

// goOn is called between two steps: it rests when it is time to, and reports
// whether to go on.
func (r *run) goOn() bool {
	now := r.bench.Now()
	if now.Sub(r.told) >= tellEach {
		r.told = now
		r.tell(Answer{ID: r.id, Is: Progress, Now: r.now, Of: r.of})
	}
	if now.Sub(r.rested) >= r.bench.Slice {
		r.bench.Rest()
		r.rested = r.bench.Now()
	}
	return !r.stopped()
}

func (r *run) do(t Task) ([]byte, error) {
	o, err := decodeOrder(t.Data)
	if err != nil {
		return nil, fmt.Errorf("task %q: %w", t.Do, err)
	}
	if err := r.speak(o.Lang); err != nil {
		return nil, err
	}
	if t.Do == Sketch {
		return r.sketches(o) // nothing is proved for it
	}
	made, err := r.bench.draft(o)
	if err != nil {
		return nil, err
	}
	if !r.goOn() {
		return nil, errStopped
	}
	switch t.Do {
	case Lay:
		return r.lay(made, o)
	case Count, Sheets:
		switch {
		case o.Form != "":
			return r.tally(made, o)
		case len(o.Since) > 0:
			return r.reprint(made, o)
		}
		return r.sheets(made, o, t.Do)
	case Changed:
		return r.changed(made, o)
	case Pieces:
		d := sheet.Draft(made.Pieces, options(made))
		return written(d, draft.Title(made))
	case Diagram:
		return r.diagram(made, o)
	case Form:
		return r.form(made, o)
	case Advise:
		return r.advise(made, o)
	case Buy:
		return r.buy(made, o)
	case Charge:
		return charge(made, o)
	case Sketch, Stop:
	}
	return nil, fmt.Errorf("task %q is not known here", t.Do)
}

// speak has the bench speak a language.
func (r *run) speak(id string) error {
	b := r.bench
	if id == "" {
		id = say.English().ID
	}
	if b.maker.Words.Language().ID == id {
		return nil
	}
	var w *say.Words
	if id != say.English().ID {
		if err := r.wait(func() (err error) {
			w, err = b.Words(id)
			return err
		}); err != nil {
			return err
		}
	}
	b.maker.Words, b.made = w, nil
	return nil
}

// draft drafts a job, or those that are laid together, unless that was drafted last.
func (b *Bench) draft(o Order) (*draft.Result, error) {
	if b.made != nil && bytes.Equal(o.Job, b.order.Job) && slices.EqualFunc(o.Parts, b.order.Parts, Garment.same) {
		return b.made, nil
	}
	j, err := job.Decode(bytes.NewReader(o.Job))
	if err != nil {
		return nil, err
	}
	var r *draft.Result
	if len(o.Parts) > 0 {
		r, err = b.join(j, o.Parts)
	} else {
		r, err = b.maker.Make(j)
	}
	if err != nil {
		return nil, err
	}
	b.order, b.made, b.paper = o, r, printing{}
	return r, nil
}

func (g Garment) same(o Garment) bool {
	return g.Key == o.Key && g.Cut == o.Cut && bytes.Equal(g.Job, o.Job)
}

// join drafts garments to be laid together on the cloths of j.
func (b *Bench) join(j job.Job, all []Garment) (*draft.Result, error) {
	var parts []draft.Part
	for _, p := range all {
		of, err := job.Decode(bytes.NewReader(p.Job))
		if err != nil {
			return nil, err
		}
		r, err := b.maker.Make(of)
		if err != nil {
			return nil, err
		}
		parts = append(parts, draft.Part{Key: p.Key, Result: r, Cut: strings.Fields(p.Cut)})
	}
	return draft.Join(j, parts, b.maker.Words), nil
}

// lay searches, from the lay of the order if it has one, and tells each lay that
// is better than all before.
func (r *run) lay(made *draft.Result, o Order) ([]byte, error) {
	l, err := spread(made, o)
	if err != nil {
		return nil, err
	}
	s, err := search(l, o)
	if err != nil {
		return nil, err
	}
	r.of = o.Work
	if r.of <= 0 {
		r.of = s.FixedWork() + lay.QuickWork
	}
	s.Run(r.of, func() bool {
		r.now = s.Work()
		return !r.goOn()
	}, func(best lay.Result) {
		if data, err := best.Encode(l.Items); err == nil { // if not, the last says why
			r.tell(Answer{ID: r.id, Is: Part, Now: s.Work(), Of: r.of, Data: data})
		}
	})
	r.now = r.of
	if r.stopped() {
		return nil, errStopped
	}
	return s.Even(made.Format.Finest()).Encode(l.Items)
}

// spread is what is laid on the cloth of an order.
func spread(made *draft.Result, o Order) (*draft.Laid, error) {
	cut, err := lay.ReadWant(o.Cut)
	if err != nil {
		return nil, err
	}
	return draft.SpreadAfter(made, o.Cloth, cut)
}

func search(l *draft.Laid, o Order) (*lay.Search, error) {
	if len(o.Laid) == 0 {
		return lay.NewSearch(l.Cloth, l.Items, o.Seed)
	}
	from, err := lay.Decode(l.Cloth, l.Items, o.Laid)
	if err != nil {
		return nil, err
	}
	return lay.Resume(l.Cloth, l.Items, o.Seed, from)
}

// sheets counts the sheets of the pattern, or prints them. The sheets that were
// counted last are kept, since they are commonly printed next.
func (r *run) sheets(made *draft.Result, o Order, do Do) ([]byte, error) {
	paper, ok := sheet.PaperNamed(o.Paper)
	if !ok {
		return nil, fmt.Errorf("paper %q is not known here", o.Paper)
	}
	b := r.bench
	how := printing{o.Paper, o.Without, o.Printer}
	if b.paper != how {
		tiled, err := draft.Sheets(made, draft.Paper{
			Paper: paper, Printer: how.correction(), Without: how.out(), Work: o.Work, Step: r.goOn,
			Found: func(sheets int) {
				if do == Count {
					r.tell(Answer{ID: r.id, Is: Part, Now: r.now, Of: r.of, Data: Counts{Sheets: sheets}.encode()})
				}
			},
		})
		if err != nil {
			return nil, err
		}
		b.paper, b.tiled = how, tiled
	}
	r.of = b.tiled.Sheets
	if do == Count {
		r.now = r.of
		return Counts{b.tiled.Sheets, b.tiled.Bound.Sheets(), b.tiled.Paper.Height}.encode(), nil
	}
	if !b.tiled.Paper.Roll() {
		if err := r.tellPrint(Print{printing: how, Sheets: b.tiled.Sheets}, made, b.tiled); err != nil {
			return nil, err
		}
	}
	return r.pages(made, b.tiled.Drawings())
}

// pages prints pages, and tells how far it is.
func (r *run) pages(made *draft.Result, pages []sheet.Drawing) ([]byte, error) {
	r.now, r.of = 0, len(pages)
	return r.print(draft.Title(made), pages, func() bool {
		r.now++
		return r.goOn()
	})
}

// printing is how the pattern is printed; see Order.
type printing struct {
	paper, without string
	printer        [2]int
}

// out are the pieces that are left out.
func (p printing) out() []string { return strings.Fields(p.without) }

// correction is that of the printer.
func (p printing) correction() sheet.Correction {
	const million = 1e6
	return sheet.Correction{Across: float64(p.printer[0]) / million, Along: float64(p.printer[1]) / million}
}

func (r *run) print(title string, pages []sheet.Drawing, step func() bool) ([]byte, error) {
	font, err := r.fetchFont()
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = pdf.Write(&b, title, pages, pdf.Options{Font: font, Step: step})
	return b.Bytes(), err
}

// fetchFont fetches the font, once.
func (r *run) fetchFont() ([]byte, error) {
	if r.bench.font != nil {
		return r.bench.font, nil
	}
	var font []byte
	err := r.wait(func() (err error) {
		font, err = r.bench.Font()
		return err
	})
	if err == nil {
		r.bench.font = font
	}
	return font, err
}

// wait waits for something to be fetched, and says meanwhile that it is alive.
func (r *run) wait(fetch func() error) error {
	came := make(chan error, 1)
	go func() { came <- fetch() }()
	for {
		select {
		case err := <-came:
			return err
		case <-time.After(tellEach):
			if !r.goOn() {
				return errStopped
			}
		}
	}
}

// diagram draws a lay that was found before.
func (r *run) diagram(made *draft.Result, o Order) ([]byte, error) {
	l, err := spread(made, o)
	if err != nil {
		return nil, err
	}
	if l.Result, err = lay.Decode(l.Cloth, l.Items, o.Laid); err != nil {
		return nil, err
	}
	title := made.Format.Words.F("%s, lay", draft.Title(made))
	if o.Paper == "" {
		return written(l.Diagram(made.Format, options(made)), title)
	}
	paper, ok := sheet.PaperNamed(o.Paper)
	if !ok {
		return nil, fmt.Errorf("paper %q is not known here", o.Paper)
	}
	if paper.Roll() {
		paper = sheet.A4()
	}
	return r.print(title, l.Pages(made.Format, options(made), paper), r.goOn)
}

// options are how a draft is drawn.
func options(made *draft.Result) sheet.Options {
	return sheet.Options{Job: made.Job.Name, Words: made.Format.Words}
}

// written writes a drawing as SVG.
func written(d sheet.Drawing, title string) ([]byte, error) {
	var b bytes.Buffer
	err := svg.Write(&b, d, svg.Options{Title: title})
	return b.Bytes(), err
}
