package engine

import "chalkfold/draft/plain"

// Do is what is to be done.
type Do string

// The things that can be done.
const (
	Lay     Do = "lay"
	Count   Do = "count"
	Sheets  Do = "sheets"
	Changed Do = "changed" // which sheets have changed since a print
	Pieces  Do = "pieces"
	Diagram Do = "diagram"
	Form    Do = "form"
	Advise  Do = "advise"
	Buy     Do = "buy"
	Charge  Do = "charge"
	Sketch  Do = "sketch" // the pictures of a style
	Stop    Do = "stop"   // the task of that id
)

// Task is one thing to do.
type Task struct {
	ID   uint32
	Do   Do
	Data []byte // an Order
}

// Order says what a task works on.
type Order struct {
	Job   []byte    // the job file
	Parts []Garment // the garments that are laid together on its cloths; none for the job's own
	Cloth int       // of the job, from nought
	Cut   string    // what other cloths of its kind cut, as lay.Want writes it
	Kind  string    // of the cloth to buy
	Seed  uint64
	Work  int    // budget in steps; nought is the quick one
	Laid  []byte // of the diagram, that a search goes on from, or that does not fit; see lay.Encode
	Paper string // none is SVG
	// Printer is what the printer is sent more than it shall print, across and
	// along the sheet, in millionths; nought is as it is.
	Printer   [2]int
	Form      string // of the forms of a draft, for Form and Count
	Without   string // ids of pieces that are not printed, blanks between them
	Since     []byte // a Print, of which only the sheets that have changed are made
	Bill      []byte // for the forms of one; see quote.Bill
	Sitting   []byte // for the marks of one; see lesson.Decode
	Questions string // of the style, blanks between, for Sketch; see flat.Board
	// Machine and Weight are what the garment is sewn with: see bench.Setting.
	Machine, Weight string
	Lang            string // of whoever reads, as say.Find knows it; none is English
}

// Garment is one of several that are laid together; see draft.Part.
type Garment struct {
	Key string
	Job []byte // the job file
	Cut string // ids of pieces that are cut already, blanks between them
}

// writeParts writes garments, unless there are none.
func writeParts(w *plain.Writer, all []Garment) {
	if len(all) == 0 {
		return
	}
	w.Key("parts").Open('{')
	for _, p := range all {
		w.Key(p.Key).Open('{')
		w.Key("job").Raw(p.Job)
		w.TextIf("cut", p.Cut)
		w.Shut('}')
	}
	w.Shut('}')
}

func readParts(r *plain.Reader) []Garment {
	var all []Garment
	for key := range r.Object() {
		g := Garment{Key: key}
		for key := range r.Object() {
			switch key {
			case "job":
				g.Job = r.Raw()
			case "cut":
				g.Cut = r.Text()
			}
		}
		all = append(all, g)
	}
	return all
}

// encode writes an order. It can always be written.
func (o Order) encode() []byte {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("job").Raw(o.Job)
	writeParts(w, o.Parts)
	w.IntIf("cloth", int64(o.Cloth))
	w.TextIf("cut", o.Cut)
	w.TextIf("kind", o.Kind)
	w.IntIf("seed", int64(o.Seed))
	w.IntIf("work", int64(o.Work))
	if len(o.Laid) > 0 {
		w.Key("laid").Bytes(o.Laid)
	}
	w.TextIf("paper", o.Paper)
	w.IntIf("across", int64(o.Printer[0]))
	w.IntIf("along", int64(o.Printer[1]))
	w.TextIf("form", o.Form)
	w.TextIf("without", o.Without)
	if len(o.Since) > 0 {
		w.Key("since").Raw(o.Since)
	}
	if len(o.Bill) > 0 {
		w.Key("bill").Bytes(o.Bill)
	}
	if len(o.Sitting) > 0 {
		w.Key("sitting").Raw(o.Sitting)
	}
	w.TextIf("questions", o.Questions)
	w.TextIf("machine", o.Machine)
	w.TextIf("weight", o.Weight)
	w.TextIf("lang", o.Lang)
	w.Shut('}')
	data, err := w.Done()
	if err != nil {
		panic("engine: an order without a job file: " + err.Error())
	}
	return data
}

func decodeOrder(data []byte) (o Order, err error) {
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "job":
			o.Job = r.Raw()
		case "parts":
			o.Parts = readParts(r)
		case "cloth":
			o.Cloth = int(r.Int())
		case "cut":
			o.Cut = r.Text()
		case "kind":
			o.Kind = r.Text()
		case "seed":
			o.Seed = uint64(r.Int())
		case "work":
			o.Work = int(r.Int())
		case "laid":
			o.Laid = r.Bytes()
		case "paper":
			o.Paper = r.Text()
		case "across":
			o.Printer[0] = int(r.Int())
		case "along":
			o.Printer[1] = int(r.Int())
		case "form":
			o.Form = r.Text()
		case "without":
			o.Without = r.Text()
		case "since":
			o.Since = r.Raw()
		case "bill":
			o.Bill = r.Bytes()
		case "sitting":
			o.Sitting = r.Raw()
		case "questions":
			o.Questions = r.Text()
		case "machine":
			o.Machine = r.Text()
		case "weight":
			o.Weight = r.Text()
		case "lang":
			o.Lang = r.Text()
		}
	}
	return o, r.End()
}

// Is says what an answer is.
type Is string

// The kinds of answer.
const (
	Up       Is = "up"
	Progress Is = "progress"
	Part     Is = "part"
	Done     Is = "done"
	Fault    Is = "fault"
	Ended    Is = "ended"
)

// Answer is what is heard of a task.
type Answer struct {
	ID      uint32
	Is      Is
	Now, Of int // steps done and in all
	Data    []byte
}

// Over reports whether nothing more comes of the task.
func (a Answer) Over() bool { return a.Is == Done || a.Is == Fault }
