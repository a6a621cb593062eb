package engine

import (
	"bytes"
	"slices"

	"chalkfold/draft"
	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/slip"
)

// Print is what was printed of a job on sheets of paper, told by Sheets before it
// is done: all that is needed to say later which of the sheets stay good. It is
// kept as a list, so that a copy of it is whole or not there.
type Print struct {
	printing
	Plan     string // that stands on the sheets
	Sheets   int    // of the whole
	editions []edition
}

// edition is the pattern once as it was printed.
type edition struct {
	slip []byte // of the job
	ink  uint32 // what was drafted of it
	lies []sheet.Lie
}

// mostEditions of one print are kept. After as many, the whole is printed anew.
const mostEditions = 6

// Paper is the paper that was printed on.
func (p Print) Paper() string { return p.paper }

// Printer is how the printer was corrected, as in an Order.
func (p Print) Printer() [2]int { return p.printer }

// Open reports whether old sheets may be at hand beside those that were printed
// in their place.
func (p Print) Open() bool { return len(p.editions) > 1 }

// Last is the print as if the last edition had been the only one: once the old
// sheets are replaced.
func (p Print) Last() Print {
	p.editions = p.editions[max(0, len(p.editions)-1):]
	return p
}

// Encode writes a print.
func (p Print) Encode() []byte {
	w := &plain.Writer{}
	w.Open('[')
	w.Next().Text(p.paper)
	w.Next().Text(p.without)
	w.Next().Int(int64(p.printer[0]))
	w.Next().Int(int64(p.printer[1]))
	w.Next().Text(p.Plan)
	w.Next().Int(int64(p.Sheets))
	for _, e := range p.editions {
		w.Next().Open('[')
		w.Next().Bytes(e.slip)
		w.Next().Int(int64(e.ink))
		for _, l := range e.lies {
			w.Next().Open('[')
			w.Next().Text(l.ID)
			for _, n := range []int{l.Turn, l.X, l.Y} {
				w.Next().Int(int64(n))
			}
			w.Shut(']')
		}
		w.Shut(']')
	}
	w.Shut(']')
	data, err := w.Done()
	if err != nil {
		panic("engine: a print that cannot be written: " + err.Error())
	}
	return data
}

// ReadPrint reads a print; false when it is none.
func ReadPrint(data []byte) (p Print, ok bool) {
	r := plain.Read(data)
	for i := range r.List() {
		switch i {
		case 0:
			p.paper = r.Text()
		case 1:
			p.without = r.Text()
		case 2, 3:
			p.printer[i-2] = int(r.Int())
		case 4:
			p.Plan = r.Text()
		case 5:
			p.Sheets = int(r.Int())
		default:
			p.editions = append(p.editions, readEdition(r))
		}
	}
	return p, r.End() == nil && len(p.editions) > 0
}

func readEdition(r *plain.Reader) (e edition) {
	for i := range r.List() {
		switch i {
		case 0:
			e.slip = r.Bytes()
		case 1:
			e.ink = uint32(r.Int())
		default:
			var l sheet.Lie
			for k := range r.List() {
				if k == 0 {
					l.ID = r.Text()
				} else if n := int(r.Int()); k <= 3 {
					*[]*int{&l.Turn, &l.X, &l.Y}[k-1] = n
				}
			}
			e.lies = append(e.lies, l)
		}
	}
	return e
}

// Change is what Changed tells.
type Change struct {
	Pages []string // the places of the sheets that are to be printed, row/column
	Void  []string // and of those that hold nothing any more
	Saves bool     // over printing the whole
}

func (c Change) encode() []byte {
	w := &plain.Writer{}
	w.Open('[')
	for _, all := range [][]string{c.Pages, c.Void} {
		w.Next().Open('[')
		for _, s := range all {
			w.Next().Text(s)
		}
		w.Shut(']')
	}
	w.Next().Truth(c.Saves)
	w.Shut(']')
	data, err := w.Done()
	if err != nil {
		panic("engine: a change that cannot be written: " + err.Error())
	}
	return data
}

// ReadChange reads what a Changed has told; false when it is none.
func ReadChange(data []byte) (c Change, ok bool) {
	r := plain.Read(data)
	for i := range r.List() {
		switch i {
		case 0, 1:
			for range r.List() {
				s := r.Text()
				if i == 0 {
					c.Pages = append(c.Pages, s)
				} else {
					c.Void = append(c.Void, s)
				}
			}
		case 2:
			c.Saves = r.Truth()
		}
	}
	return c, r.End() == nil
}

// Why no sheet of a print can be told to stay good.
var (
	errNoPrint  = say.Errorf("what was printed cannot be read; print the whole pattern anew")
	errOtherInk = say.Errorf("the program drafts otherwise than when it was printed; print the whole pattern anew")
)

// since works out what has changed since a print.
func (r *run) since(made *draft.Result, o Order) (Print, sheet.Reprint, error) {
	p, ok := ReadPrint(o.Since)
	paper, there := sheet.PaperNamed(p.paper)
	if !ok || !there {
		return p, sheet.Reprint{}, errNoPrint
	}
	on := draft.Paper{Paper: paper, Printer: p.correction(), Without: drafted(made, p.out()), Work: o.Work, Step: r.goOn}
	var before []draft.Printed
	for _, e := range p.editions {
		j, err := slip.Decode(e.slip)
		if err != nil {
			return p, sheet.Reprint{}, errNoPrint
		}
		old, err := r.bench.maker.Make(j)
		if err != nil || on.Ink(old) != e.ink {
			return p, sheet.Reprint{}, errOtherInk
		}
		before = append(before, draft.Printed{Result: old, Lies: e.lies})
		if !r.goOn() {
			return p, sheet.Reprint{}, errStopped
		}
	}
	out, err := draft.SheetsSince(made, before, on)
	return p, out, err
}

// drafted are those of the pieces that there are.
func drafted(made *draft.Result, ids []string) []string {
	var out []string
	for _, p := range made.Pieces {
		if slices.Contains(ids, p.ID) {
			out = append(out, p.ID)
		}
	}
	return out
}

func (r *run) changed(made *draft.Result, o Order) ([]byte, error) {
	_, again, err := r.since(made, o)
	if err != nil {
		return nil, err
	}
	return Change{again.Places(), again.Void, again.Saves()}.encode(), nil
}

// reprint prints the sheets that have changed since a print.
func (r *run) reprint(made *draft.Result, o Order) ([]byte, error) {
	p, again, err := r.since(made, o)
	if err != nil {
		return nil, err
	}
	if err := r.tellPrint(p, made, again.All); err != nil {
		return nil, err
	}
	return r.pages(made, again.Drawings())
}

// tellPrint tells of a print with one edition more, unless that was the last.
func (r *run) tellPrint(p Print, made *draft.Result, now sheet.Tiled) error {
	data, err := slip.Encode(slip.Give(made.Job, slip.What{Measurements: true, Name: true})) // a cloth changes no piece
	if err != nil {
		return err
	}
	e := edition{data, draft.Paper{Without: p.out()}.Ink(made), now.Lies}
	p.Plan = now.Plan
	if n := len(p.editions); n > 0 && bytes.Equal(p.editions[n-1].slip, data) {
		p.editions = p.editions[:n-1]
	}
	p.editions = append(slices.Clone(p.editions), e)
	if len(p.editions) > mostEditions {
		return nil
	}
	r.tell(Answer{ID: r.id, Is: Part, Now: r.now, Of: r.of, Data: p.Encode()})
	return nil
}
