package lay_test

import (
	"encoding/json"
	"fmt"
	"io"

	"chalkfold/draft/geom"
	"chalkfold/draft/lay"
	"chalkfold/draft/unit"
)

// problem is a published packing problem: a strip of fixed width and the
// shapes to lay on it. Lengths are taken as millimetres.
type problem struct {
	Name  string
	Cloth lay.Cloth
	Items []lay.Item
}

// readProblem reads a published packing problem in JSON: name, strip_height,
// and items of id, demand, allowed_orientations (degrees) and shape ([x, y]
// corners, x along the strip). The strip is laid with its length along y.
func readProblem(r io.Reader) (problem, error) {
	var file struct {
		Name   string  `json:"name"`
		Height float64 `json:"strip_height"`
		Items  []struct {
			ID     int           `json:"id"`
			Demand int           `json:"demand"`
			Turns  []lay.Degrees `json:"allowed_orientations"`
			Shape  [][2]float64  `json:"shape"`
		} `json:"items"`
	}
	if err := json.NewDecoder(r).Decode(&file); err != nil {
		return problem{}, fmt.Errorf("packing instance: %w", err)
	}
	in := problem{Name: file.Name, Cloth: lay.Cloth{Name: file.Name, Width: unit.Length(file.Height)}}
	for _, f := range file.Items {
		it := lay.Item{Piece: fmt.Sprintf("shape-%d", f.ID), Name: fmt.Sprintf("Shape %d", f.ID), Turns: f.Turns}
		if len(it.Turns) == 0 {
			it.Turns = []lay.Degrees{0}
		}
		for _, p := range f.Shape {
			it.Ring = append(it.Ring, geom.Pt{X: p[1], Y: p[0]})
		}
		for n := range f.Demand {
			it.Copy = n + 1
			in.Items = append(in.Items, it)
		}
	}
	if len(in.Items) == 0 {
		return problem{}, fmt.Errorf("packing instance %q: items is empty; give at least one with a demand", in.Name)
	}
	return in, in.Cloth.Check()
}
