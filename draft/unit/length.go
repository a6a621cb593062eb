package unit

// Length is a length in millimetres. The zero value is a real length, nothing
// at all, and not "not measured": whoever can lack a length says so beside it.
type Length float64

// The units that makers write.
const (
	Millimetre Length = 1
	Centimetre Length = 10
	Inch       Length = 25.4
	Yard       Length = 36 * Inch
	Metre      Length = 1000
)

// MM returns l in millimetres.
func (l Length) MM() float64 { return float64(l) }

// In returns l in inches.
func (l Length) In() float64 { return float64(l / Inch) }

// CM returns l in centimetres.
func (l Length) CM() float64 { return float64(l / Centimetre) }
