package body

import "chalkfold/draft/say"

// ID names a measurement in files and formulas, after ISO 8559-1 in snake_case.
type ID string

// The measurements of the lower body.
const (
	WaistGirth        ID = "waist_girth"
	TopHipGirth       ID = "top_hip_girth"
	HipGirth          ID = "hip_girth"
	ThighGirth        ID = "thigh_girth"
	KneeGirth         ID = "knee_girth"
	CalfGirth         ID = "calf_girth"
	AnkleGirth        ID = "ankle_girth"
	HeelGirth         ID = "heel_girth"
	WaistToHips       ID = "waist_to_hips"
	BodyRise          ID = "body_rise"
	TotalCrotchLength ID = "total_crotch_length"
	FrontCrotchLength ID = "front_crotch_length"
	BackCrotchLength  ID = "back_crotch_length"
	InsideLegLength   ID = "inside_leg_length"
	OutsideLegLength  ID = "outside_leg_length"
	LeftSideLength    ID = "left_side_length"
	RightSideLength   ID = "right_side_length"
	KneeHeight        ID = "knee_height"
	WaistToKnee       ID = "waist_to_knee"
	Stature           ID = "stature"
)

// The measurements of the upper body.
const (
	NeckGirth       ID = "neck_girth"
	ChestGirth      ID = "chest_girth"
	UnderBustGirth  ID = "under_bust_girth"
	ShoulderLength  ID = "shoulder_length"
	BackWaistLength ID = "back_waist_length"
	ArmLength       ID = "arm_length"
	NeckBaseGirth   ID = "neck_base_girth"
	BackWidth       ID = "back_width"
	ScyeDepth       ID = "scye_depth"
	NeckToBust      ID = "neck_shoulder_to_breast_point"
	BustPoints      ID = "bust_point_distance"
	FrontWaist      ID = "neck_shoulder_to_waist"
	UpperArmGirth   ID = "upper_arm_girth"
	WristGirth      ID = "wrist_girth"
)

// Figure picks the half of the survey that bands and estimates are taken from.
// The zero value takes both.
type Figure string

// The figures of the survey.
const (
	Unknown Figure = ""
	Women   Figure = "women"
	Men     Figure = "men"
)

// Valid tells whether f is one of the figures.
func (f Figure) Valid() bool { return f == Unknown || f == Women || f == Men }

// halves are the halves of the survey that f draws on.
func (f Figure) halves() []Figure {
	if f == Women || f == Men {
		return []Figure{f}
	}
	return []Figure{Women, Men}
}

// surveyed names those whom the survey measured for f.
func (f Figure) surveyed() string {
	switch f {
	case Women:
		return say.Word("women")
	case Men:
		return say.Word("men")
	case Unknown:
	}
	return say.Word("adults")
}
