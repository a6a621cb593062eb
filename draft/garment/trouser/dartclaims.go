package trouser

import (
	"chalkfold/draft/geom"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
)

// dartMarks are how the marks of the darts or pleats of a part are called,
// from the centre to the side.
func (s *shape) dartMarks(part string) []string {
	var out []string
	for _, mark := range []string{"dart", "dart2"} {
		if s.rec.Has(part + "." + mark + "_point") {
			out = append(out, mark)
		}
	}
	return out
}

func (s *shape) pleated() bool { return s.has("front_dart", "pleat") || s.has("front_dart", "pleats") }

// dartName is the dart or pleat of a part, as it is claimed.
func (s *shape) dartName(part, mark string) string {
	switch {
	case part == "front" && s.pleated() && mark == "dart2":
		return say.Word("second pleat")
	case part == "front" && s.pleated():
		return say.Word("pleat")
	case part == "front":
		return say.Word("front dart")
	case mark == "dart2":
		return say.Word("second back dart")
	}
	return say.Word("back dart")
}

// dartLabels are what is written at the legs and at the point.
func (s *shape) dartLabels(part string) (line, point string) {
	switch {
	case part == "front" && s.pleated():
		return say.Word("pleat: fold to the centre"), say.Word("pleat opens")
	case part == "front" && s.has("front_dart", "pressed"):
		return say.Word("pressed dart: fold, do not sew"), say.Word("pressed dart point")
	}
	return say.Word("dart"), say.Word("dart point")
}

func (s *shape) darts() []piece.Dart {
	var out []piece.Dart
	for _, part := range []string{"front", "back"} {
		for _, mark := range s.dartMarks(part) {
			at := part + "." + mark
			out = append(out, piece.Dart{
				Name: s.dartName(part, mark), Panel: part, Edge: "waist", Point: s.rec.Point(at + "_point"),
				Legs: [2]geom.Pt{s.rec.Point(at + "_leg_in"), s.rec.Point(at + "_leg_out")},
				Sewn: part == "back" || s.has("front_dart", "sewn"),
			})
		}
	}
	return out
}
