package construct

import "chalkfold/draft/geom"

// Way is a direction with its words.
type Way struct {
	Words string
	dir   func(b *Builder, from geom.Pt) geom.Vec
}

// Fixed is a direction on the cloth.
func Fixed(words string, v geom.Vec) Way {
	return Way{words, func(*Builder, geom.Pt) geom.Vec { return v.Unit() }}
}

// Towards is the direction from the mark measured from to another mark.
func Towards(words, point string) Way {
	return Way{words, func(b *Builder, from geom.Pt) geom.Vec { return b.Point(point).Sub(from).Unit() }}
}

// Down is along the grain to the hem.
func Down(words string) Way { return Fixed(words, geom.Vec{Y: 1}) }

// Up is along the grain away from the hem.
func Up(words string) Way { return Fixed(words, geom.Vec{Y: -1}) }

// ToSide is square to the grain, away from the centre.
func ToSide(words string) Way { return Fixed(words, geom.Vec{X: 1}) }

// ToCentre is square to the grain, towards the centre and beyond.
func ToCentre(words string) Way { return Fixed(words, geom.Vec{X: -1}) }
