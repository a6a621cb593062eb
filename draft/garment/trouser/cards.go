package trouser

import (
	"chalkfold/draft/construct"
	"chalkfold/draft/say"
)

// cards are the curves that a tape cannot draw. Below the hip the side bows by
// less than the hand strays, and so does the inseam.
func cards() []construct.Card {
	return []construct.Card{
		{Name: say.Word("front fork"), Line: "front.fork"},
		{Name: say.Word("back fork"), Line: "back.fork"},
		{Name: say.Word("front hip side"), Line: "front.side", From: "front.waist_side", To: "front.hip_side"},
		{Name: say.Word("back hip side"), Line: "back.side", From: "back.waist_side", To: "back.hip_side"},
		{Name: say.Word("front waist"), Line: "front.waist"},
		{Name: say.Word("back waist"), Line: "back.waist"},
		{Name: say.Word("pocket mouth"), Line: "front.pocket_mouth"},
		{Name: say.Word("fly stitching"), Line: flyStitching},
	}
}
