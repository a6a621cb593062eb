package fitting

import (
	"slices"

	"chalkfold/draft/piece"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Girths are the finished girths as told.
func Girths(all []proof.Girth, f unit.Format) []Girth {
	var out []Girth
	for _, g := range all {
		name := kit.Sentence(f.Words.T(g.Name))
		if g.Estimated {
			name += " *"
		}
		out = append(out, Girth{
			Name: name, Body: f.Bare(g.Body), Garment: f.Bare(g.Draft), Has: f.Bare(g.Ease), Less: g.Ease < 0,
		})
	}
	return out
}

// Rooms are the seams of the whole panels with the cloth that lies beyond them.
func Rooms(panels []piece.Panel, pieces []piece.Piece, f unit.Format) []Room {
	var out []Room
	for _, p := range pieces {
		at := slices.IndexFunc(panels, func(on piece.Panel) bool { return on.Name == p.On && p.On == p.ID })
		if at < 0 {
			continue // cut out of a panel, or beside it
		}
		for _, e := range p.Edges {
			if _, whole := panels[at].Edge(e.Name); !whole || e.Fold || e.AllowStart <= 0 && e.AllowEnd <= 0 {
				continue
			}
			r := Room{Seam: kit.Sentence(piece.Ref{Panel: p.On, Edge: e.Name}.In(f.Words)), By: f.Text(e.AllowStart)}
			if f.Round(e.AllowStart) != f.Round(e.AllowEnd) {
				r.By = f.Words.F("%s to %s", f.Text(min(e.AllowStart, e.AllowEnd)), f.Text(max(e.AllowStart, e.AllowEnd)))
			}
			out = append(out, r)
		}
	}
	return out
}
