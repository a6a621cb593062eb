package unit

import "math"

// Angle is an angle in radians.
type Angle float64

// Degree is one degree.
const Degree Angle = math.Pi / 180

// Degrees returns a in degrees.
func (a Angle) Degrees() float64 { return float64(a / Degree) }

// Radians returns a in radians.
func (a Angle) Radians() float64 { return float64(a) }
