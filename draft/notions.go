package draft

import (
	"math"
	"slices"

	"chalkfold/draft/bench"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Notion is one line of what a garment needs besides its cloth.
type Notion struct {
	ID    string // stable: "zip"
	Text  string // with how much of it is needed, in the reader's language
	Name  string // English
	Count quote.Quantity
	Per   quote.Per
}

// The widths that lining and interfacing are commonly sold in (common
// practice), where the job has none of its own.
const (
	liningWidth      = 45 * unit.Inch
	interfacingWidth = 36 * unit.Inch
)

// Notions are what a draft needs besides its cloth, sewn with that: what its
// garment tells, lining and interfacing by length, tape for the hems, thread. Of
// several garments put together all are added up, like with like; lining and
// interfacing are those that are still to be cut. The error is a fault of the
// garment's tasks.
func Notions(r *Result, by bench.Setting) ([]Notion, error) {
	w := r.Format.Words
	var out []Notion
	pieces := func(id, name string, count int, text string) {
		out = append(out, Notion{id, text, name, quote.Quantity(count) * quote.One, quote.Piece})
	}
	long := func(id, name string, l unit.Length, text string) {
		count, per := sold(r.Format, l)
		out = append(out, Notion{id, text, name, count, per})
	}
	for _, n := range r.told() {
		switch {
		case n.Count == 0:
			long(n.ID, n.Name, n.Least, w.F("%s, at least %s", say.Name(n.Name), r.Format.Text(n.Least)))
		case n.Least > 0:
			pieces(n.ID, n.Name, n.Count, w.F("%d × %s, at least %s", n.Count, say.Within(n.Name), r.Format.Text(n.Least)))
		default:
			pieces(n.ID, n.Name, n.Count, w.F("%d × %s", n.Count, say.Within(n.Name)))
		}
	}
	for _, kind := range []piece.Cloth{piece.Lining, piece.Interfacing} {
		if width, length, ok := needs(r, kind); ok {
			long(string(kind), string(kind), length, w.F("%s, %s wide: %s", say.Name(kind), r.Format.Text(width), r.Format.Bought(length)))
		}
	}
	var hems, seams, thread unit.Length
	for _, g := range r.each() {
		tasks, err := Order(g, by)
		if err != nil {
			return nil, err
		}
		rows, much := sewnLength(g, tasks, by)
		hems, seams, thread = hems+hemsOf(g, tasks), seams+rows, thread+much
	}
	if hems > 0 {
		long(quote.Hem, say.Word("hem tape"), hems, w.F("hem tape, where the edge is not turned under: %s", r.Format.Bought(hems)))
	}
	metres := unit.Format{System: unit.Metres, Words: w}
	pieces("thread", say.Word("sewing thread"), 1, w.F("sewing thread: about %s, for %s of stitches", metres.Text(unit.UpTo(thread, 10*unit.Metre)), metres.Text(unit.UpTo(seams, unit.Metre))))
	return out, nil
}

// each are the garments that are put together, or the one.
func (r *Result) each() []*Result {
	if len(r.Of) == 0 {
		return []*Result{r}
	}
	var all []*Result
	for _, p := range r.Of {
		all = append(all, p.Result)
	}
	return all
}

// told is what the garments tell of notions. Of several, what is cut off a length is
// added up by its lengths, and what is counted where it is of one size: up to the inch
// or centimetre that zips are sold by (common practice).
func (r *Result) told() []piece.Notion {
	if len(r.Of) == 0 {
		return r.Notions
	}
	step := unit.Inch
	if r.Format.System.Metric() {
		step = unit.Centimetre
	}
	var out []piece.Notion
	for _, g := range r.each() {
		for _, n := range g.Notions {
			if n.Count > 0 && n.Least > 0 {
				n.Least = unit.UpTo(n.Least, step)
				n.ID += " " + r.Format.Text(n.Least)
			}
			i := slices.IndexFunc(out, func(o piece.Notion) bool { return o.ID == n.ID && o.Name == n.Name })
			switch {
			case i < 0:
				out = append(out, n)
			case n.Count == 0:
				out[i].Least += n.Least
			default:
				out[i].Count += n.Count
			}
		}
	}
	return out
}

// sold is what a shop cuts off for that length: in yards, or metres.
func sold(f unit.Format, l unit.Length) (quote.Quantity, quote.Per) {
	per, step := quote.Yard, 36*unit.Inch
	if f.System.Metric() {
		per, step = quote.Metre, unit.Metre
	}
	return quote.Quantity(math.Round(float64(unit.UpTo(l, f.SoldBy())) / float64(step) * float64(quote.One))), per
}

// hemsOf is how much tape goes along the hems of the cloth, an inch over at each
// ring of it.
func hemsOf(r *Result, tasks []bench.Task) unit.Length {
	sum := unit.Length(0)
	for _, t := range tasks {
		if t.Part != bench.Hem {
			continue
		}
		for _, p := range r.Pieces {
			if l := sewnOn(p, t.Sews); p.Cloth == piece.Main && l > 0 {
				sum += l + unit.Inch
			}
		}
	}
	return sum
}

// sewnLength is how long all rows of stitches are together, about, and how much
// thread goes into them. Two edges make one row, but where each is sewn alone.
func sewnLength(r *Result, tasks []bench.Task, by bench.Setting) (rows, thread unit.Length) {
	for _, t := range tasks {
		long := unit.Length(0)
		for _, p := range r.Pieces {
			edges := sewnOn(p, t.Sews)
			if !t.Single {
				edges /= 2
			}
			long += edges
			if t.Stitch == bench.Neaten || t.ID == "neaten" {
				long += sewnOn(p, t.Along)
			}
			for _, l := range t.Lines {
				if l.Piece == p.ID && t.Stitch != bench.Unsewn {
					long += unit.Length(l.Path.Len()) * unit.Length(p.Count)
				}
			}
		}
		rows += long
		thread += long * unit.Length(by.Thread(t.Stitch))
	}
	return rows, thread
}

// sewnOn is how long these runs are on all copies of a piece.
func sewnOn(p piece.Piece, runs []bench.Run) unit.Length {
	sum := 0.0
	for _, run := range runs {
		for _, e := range p.Edges {
			path := run.Stretch(p, e)
			if len(path) == 0 || e.Fold {
				continue
			}
			copies := p.Count
			if slices.ContainsFunc(p.Edges, func(e piece.Edge) bool { return e.Fold }) {
				copies *= 2
			}
			if run.On != piece.BothHands && copies > 1 {
				copies /= 2
			}
			sum += path.Len() * float64(copies)
		}
	}
	return unit.Length(sum)
}

// needs is how much of a cloth the garment takes, laid open: of the job's own
// width, or of a common one. It is not ok when no piece is cut from it.
func needs(r *Result, kind piece.Cloth) (width, length unit.Length, ok bool) {
	c := lay.Cloth{Kind: kind, Width: liningWidth}
	if kind == piece.Interfacing {
		c.Width = interfacingWidth
	}
	for _, own := range r.Job.Cloth {
		if own.Kind == kind && own.Width.Set() {
			c.Width = own.Width.Length()
			break
		}
	}
	items, err := lay.Items(r.Pieces, c)
	if err != nil || len(items) == 0 {
		return 0, 0, false
	}
	laid, err := lay.Pack(c, items, lay.Options{Work: 1})
	if err != nil {
		return 0, 0, false
	}
	return c.Width, laid.Length, true
}
