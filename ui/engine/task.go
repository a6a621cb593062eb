package engine

import "encoding/json"

// Do is what is to be done.
type Do string

// The things that can be done.
const (
	Lay     Do = "lay"
	Count   Do = "count"
	Sheets  Do = "sheets"
	Pieces  Do = "pieces"
	Diagram Do = "diagram"
	Stop    Do = "stop" // the task of that id
)

// Task is one thing to do.
type Task struct {
	ID   uint32
	Do   Do
	Data []byte // an Order
}

// Order says what a task works on.
type Order struct {
	Job   json.RawMessage `json:"job"`             // the job file
	Cloth int             `json:"cloth,omitempty"` // of the job, from nought
	Seed  uint64          `json:"seed,omitempty"`
	Work  int             `json:"work,omitempty"`  // budget in steps; nought is the quick lay
	Laid  []byte          `json:"laid,omitempty"`  // of the diagram; see lay.Decode
	Paper string          `json:"paper,omitempty"` // none is SVG
	Lang  string          `json:"lang,omitempty"`  // of whoever reads, as say.Find knows it; none is English
}

// encode writes an order. It can always be written.
func (o Order) encode() []byte {
	data, err := json.Marshal(o)
	if err != nil {
		panic("engine: an order without a job file: " + err.Error())
	}
	return data
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

// over reports whether nothing more comes of the task.
func (a Answer) over() bool { return a.Is == Done || a.Is == Fault }
