package bench

import (
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Machine is what raw edges can be neatened with.
type Machine string

// The machines; the zero Machine is Straight.
const (
	Straight Machine = "straight"
	Zigzag   Machine = "zigzag"
	Overlock Machine = "overlock"
)

// Weight is how heavy the cloth is.
type Weight string

// The weights; the zero Weight is Medium.
const (
	Light  Weight = "light"  // lawn, lining, voile: under 140 g to the square metre
	Medium Weight = "medium" // poplin, chambray, suiting
	Heavy  Weight = "heavy"  // drill, denim, coating: over 280 g
)

// Setting is what a garment is sewn with.
type Setting struct {
	Machine Machine
	Weight  Weight
}

// How a machine is set for a weight of cloth: common practice in workshops and
// sewing handbooks. Needles are named by the thickness of their blade in
// hundredths of a millimetre, and by the older number beside it.
type threaded struct {
	needle string
	seam   unit.Length
}

func (s Setting) threaded() threaded {
	switch s.Weight {
	case Light:
		return threaded{"70/10", 2}
	case Heavy:
		return threaded{"100/16", 3}
	case Medium:
	}
	return threaded{"80/12", 2.5}
}

// Needle is the needle for the cloth.
func (s Setting) Needle() string { return s.threaded().needle }

// Length is how long a stitch is; 0 for what is not sewn by machine.
func (s Setting) Length(st Stitch) unit.Length {
	seam := s.threaded().seam
	switch st {
	case Seam, Neaten:
		return seam
	case Fine:
		return seam - 0.5
	case Top:
		return seam + 0.5
	case Baste:
		return 5
	case Unsewn, ByHand:
	}
	return 0
}

// Needled says how the machine is set for a task; empty when it is not used.
func (s Setting) Needled(w *say.Words, st Stitch) string {
	mm := s.Length(st).MM()
	switch {
	case mm == 0:
		return ""
	case st == Baste:
		return w.F("Stitch %.1f mm, to be taken out; needle %s", mm, s.Needle())
	case st == Neaten && s.Machine == Overlock:
		return w.F("Three-thread overlock; needle %s", s.Needle())
	case st == Neaten && s.Machine == Zigzag:
		return w.F("Zigzag %.1f mm, 3 mm wide; needle %s", mm, s.Needle())
	}
	return w.F("Stitch %.1f mm; needle %s", mm, s.Needle())
}

// Thread is how much thread a row of stitches takes, as a multiple of its
// length, upper and lower together, with what is lost at the ends. The classes
// are those of ISO 4915; the multiples are those that makers of thread commonly
// give (common practice, from memory).
func (s Setting) Thread(st Stitch) float64 {
	switch {
	case st == Unsewn:
		return 0
	case st == Neaten && s.Machine == Overlock:
		return 14 // class 504
	case st == Neaten && s.Machine == Zigzag:
		return 7 // class 304
	}
	return 3 // class 301, and by hand
}
