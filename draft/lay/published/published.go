// Package published reads the packing problems that lays are compared by.
package published

import (
	"fmt"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/plain"
	"chalkfold/draft/unit"
)

// Problem is a published packing problem: a strip of fixed width and the
// shapes to lay on it. Lengths are taken as millimetres.
type Problem struct {
	Name  string
	Cloth lay.Cloth
	Items []lay.Item
}

// Read reads a published packing problem in JSON: name, strip_height, and items
// of id, demand, allowed_orientations (degrees) and shape ([x, y] corners, x
// along the strip). The strip is laid with its length along y.
func Read(data []byte) (Problem, error) {
	var p Problem
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "name":
			p.Name = r.Text()
		case "strip_height":
			p.Cloth.Width = unit.Length(r.Float())
		case "items":
			for range r.List() {
				p.Items = append(p.Items, readItem(r)...)
			}
		}
	}
	p.Cloth.Name = p.Name
	if err := r.End(); err != nil {
		return p, fmt.Errorf("packing instance: %w", err)
	}
	if len(p.Items) == 0 {
		return p, fmt.Errorf("packing instance %q: items is empty; give at least one with a demand", p.Name)
	}
	return p, p.Cloth.Check()
}

// readItem reads one shape, and returns it as often as it is wanted.
func readItem(r *plain.Reader) []lay.Item {
	var it lay.Item
	demand := 0
	for key := range r.Object() {
		switch key {
		case "id":
			id := r.Int()
			it.Piece, it.Name = fmt.Sprintf("shape-%d", id), fmt.Sprintf("Shape %d", id)
		case "demand":
			demand = int(r.Int())
		case "allowed_orientations":
			for range r.List() {
				it.Turns = append(it.Turns, lay.Degrees(r.Float()))
			}
		case "shape":
			for range r.List() {
				var at [2]float64
				for k := range r.List() {
					at[min(k, 1)] = r.Float()
				}
				it.Ring = append(it.Ring, geom.Pt{X: at[1], Y: at[0]})
			}
		}
	}
	if len(it.Turns) == 0 {
		it.Turns = []lay.Degrees{0}
	}
	var all []lay.Item
	for n := range demand {
		it.Copy = n + 1
		all = append(all, it)
	}
	return all
}
