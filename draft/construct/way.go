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
