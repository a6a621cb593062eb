package body

import "chalkfold/draft/unit"

// Def defines one measurement. Min and Max are hard limits: outside them the
// figure is a slip of the tape or the keys, whoever is measured. They are
// common practice, set wide of every adult surveyed and of most children.
type Def struct {
	ID         ID
	Name       string // as shown: "waist girth"
	Definition string // what it is
	HowTo      string // how to take it, in two short sentences
	Min, Max   unit.Length
}

// Defs are all measurements, in the order in which they are best taken: round
// the body from the waist down, then lengths, then the upper body.
func Defs() []Def { return append(lower(), upper()...) }

// Find is the definition of one measurement.
func Find(id ID) (Def, bool) {
	for _, part := range [...][]Def{lower(), upper()} {
		for i := range part {
			if part[i].ID == id {
				return part[i], true
			}
		}
	}
	return Def{}, false
}

// name is how id is shown; an unknown one is shown as it is.
func (id ID) name() string {
	if d, ok := Find(id); ok {
		return d.Name
	}
	return string(id)
}

func in(low, high float64) (minimum, maximum unit.Length) {
	return unit.Length(low) * unit.Inch, unit.Length(high) * unit.Inch
}

func lower() []Def {
	return []Def{
		{
			WaistGirth, "waist girth",
			"Round the body at the natural waist, between the lowest rib and the top of the hip bone, level.",
			"Tie a cord where the body bends sideways and measure along it. Let her breathe out, and keep one finger under the tape.",
			12 * unit.Inch, 90 * unit.Inch,
		},
		{
			TopHipGirth, "top hip girth",
			"Round the body over the top of the hip bones, level.",
			"Feel for the top of the hip bone at the side. Keep the tape level there, without pulling.",
			14 * unit.Inch, 90 * unit.Inch,
		},
		{
			HipGirth, "hip girth",
			"Round the fullest part of the seat, level.",
			"Look from the side for the fullest part of the seat. Feet together, tape level and touching, not pulled.",
			15 * unit.Inch, 95 * unit.Inch,
		},
		{
			ThighGirth, "thigh girth",
			"Round the fullest part of the thigh, just below the fold of the seat, level.",
			"Slide the tape up to the fork, then let it settle. Weight on both feet.",
			7 * unit.Inch, 50 * unit.Inch,
		},
		{
			KneeGirth, "knee girth",
			"Round the knee at its widest, leg straight.",
			"Tape over the middle of the kneecap. For a close knee, measure again with the knee bent.",
			6 * unit.Inch, 36 * unit.Inch,
		},
		{
			CalfGirth, "calf girth",
			"Round the fullest part of the calf, level.",
			"Slide the tape up and down to find the fullest part. Weight on both feet.",
			5 * unit.Inch, 34 * unit.Inch,
		},
		{
			AnkleGirth, "ankle girth",
			"Round the narrowest part of the leg above the ankle bone, level.",
			"Tape just above the ankle bone. Keep one finger under it.",
			4 * unit.Inch, 22 * unit.Inch,
		},
		{
			HeelGirth, "heel girth",
			"Round the foot over the point of the heel and the top of the instep.",
			"Foot pointed, tape under the heel and over the instep. A closed hem must pass over this.",
			6 * unit.Inch, 26 * unit.Inch,
		},
		{
			WaistToHips, "waist to hips",
			"From the natural waist down the side to the level of the hip girth, along the body.",
			"Leave the cord on the waist and the tape on the hips. Measure between them at the side.",
			2 * unit.Inch, 18 * unit.Inch,
		},
		{
			BodyRise, "body rise",
			"From the natural waist down to the level of the fork; seated, from the waist to the chair.",
			"Sit her on a flat hard chair, upright. Measure at the side from the cord to the chair.",
			4 * unit.Inch, 24 * unit.Inch,
		},
		{
			TotalCrotchLength, "total crotch length",
			"From the front of the natural waist between the legs to the back of it.",
			"Tape from the cord in front, between the legs, to the cord behind. Let it touch, not pull.",
			10 * unit.Inch, 60 * unit.Inch,
		},
		{
			FrontCrotchLength, "front crotch length",
			"The front part of the total crotch length, to the inside-leg seam.",
			"Take it with the total, with a pin where the inside-leg seam would be. Read the tape at the pin.",
			4 * unit.Inch, 32 * unit.Inch,
		},
		{
			BackCrotchLength, "back crotch length",
			"The back part of the total crotch length, from the inside-leg seam.",
			"Take it with the total, with a pin where the inside-leg seam would be. What is left behind the pin is the back.",
			5 * unit.Inch, 36 * unit.Inch,
		},
		{
			InsideLegLength, "inside leg length",
			"From the fork straight down to the floor, without shoes.",
			"Feet slightly apart. Measure inside the leg from the fork to the floor.",
			6 * unit.Inch, 48 * unit.Inch,
		},
		{
			OutsideLegLength, "outside leg length",
			"From the natural waist down the side, over the hip, to the floor, without shoes.",
			"From the cord at the side, over the hip, straight down to the floor. Keep her standing, not looking down.",
			10 * unit.Inch, 64 * unit.Inch,
		},
		{
			LeftSideLength, "left side length",
			"From the natural waist down her left side, over the hip, to the floor. Wanted with the right one, where one hip is higher.",
			"Tie the cord level all round, and stand her on both feet alike. Take both sides one after the other.",
			10 * unit.Inch, 64 * unit.Inch,
		},
		{
			RightSideLength, "right side length",
			"From the natural waist down her right side, over the hip, to the floor. Wanted with the left one, where one hip is higher.",
			"Tie the cord level all round, and stand her on both feet alike. Take both sides one after the other.",
			10 * unit.Inch, 64 * unit.Inch,
		},
		{
			KneeHeight, "knee height",
			"From the middle of the kneecap down to the floor.",
			"Mark the middle of the kneecap. Measure straight down to the floor.",
			3 * unit.Inch, 30 * unit.Inch,
		},
		{
			WaistToKnee, "waist to knee",
			"From the natural waist down the side, over the hip, to the level of the middle of the kneecap.",
			"From the cord at the side, over the hip, straight down. Read the tape level with the middle of the kneecap.",
			6 * unit.Inch, 36 * unit.Inch,
		},
		{
			Stature, "stature",
			"From the top of the head to the floor, standing, without shoes.",
			"Back against a wall, a book flat on the head. Mark the wall under the book and measure to the floor.",
			24 * unit.Inch, 96 * unit.Inch,
		},
	}
}

func upper() []Def {
	return []Def{
		{
			NeckGirth, "neck girth",
			"Round the neck just below the larynx.",
			"Tape round the middle of the neck. Keep one finger under it.",
			6 * unit.Inch, 30 * unit.Inch,
		},
		{
			ChestGirth, "chest girth",
			"Round the fullest part of the chest or bust, under the arms, level.",
			"Tape over the fullest part and level across the back. Arms down, breathing easily.",
			14 * unit.Inch, 90 * unit.Inch,
		},
		{
			UnderBustGirth, "under-bust girth",
			"Round the body just below the bust, level.",
			"Tape close under the bust. Let her breathe out.",
			13 * unit.Inch, 80 * unit.Inch,
		},
		{
			ShoulderLength, "shoulder length",
			"From the side of the neck along the shoulder to its end.",
			"Start where a chain would lie. End at the bone over the arm.",
			1.5 * unit.Inch, 12 * unit.Inch,
		},
		{
			BackWaistLength, "back waist length",
			"From the bone at the base of the neck down the middle of the back to the natural waist.",
			"Bend her head to find the bone, then let her look ahead. Measure down to the cord.",
			5 * unit.Inch, 30 * unit.Inch,
		},
		{
			NeckBaseGirth, "neck-base girth",
			"Round the base of the neck, where a chain would lie, over the bone at the back.",
			"Stand the tape on its edge round the base of the neck. Let it touch, not pull.",
			7 * unit.Inch, 34 * unit.Inch,
		},
		{
			BackWidth, "back width",
			"Across the back from armhole to armhole, half way between the shoulder and the armpit.",
			"Arms down. Measure from crease to crease of the arms across the shoulder blades.",
			6 * unit.Inch, 34 * unit.Inch,
		},
		{
			ScyeDepth, "scye depth",
			"From the bone at the base of the neck down the middle of the back to the level of the armpits.",
			"Hold a rule under both arms, level. Measure from the bone at the neck down to it.",
			3 * unit.Inch, 16 * unit.Inch,
		},
		{
			NeckToBust, "neck point to bust point",
			"From the side of the neck, where the shoulder begins, down to the bust point.",
			"Start where a chain would lie on the shoulder. Measure straight down to the fullest point of the bust.",
			4 * unit.Inch, 22 * unit.Inch,
		},
		{
			BustPoints, "bust point distance",
			"From one bust point to the other, level.",
			"Measure straight across from point to point. Do not follow the hollow between.",
			3 * unit.Inch, 18 * unit.Inch,
		},
		{
			FrontWaist, "front waist length",
			"From the side of the neck over the bust point to the natural waist.",
			"Start where a chain would lie on the shoulder. Go over the bust point, straight down to the cord.",
			6 * unit.Inch, 32 * unit.Inch,
		},
		{
			ArmLength, "arm length",
			"From the end of the shoulder, over the slightly bent elbow, to the wrist bone.",
			"Arm a little bent. Shoulder bone, over the elbow, to the wrist bone.",
			6 * unit.Inch, 42 * unit.Inch,
		},
		{
			UpperArmGirth, "upper arm girth",
			"Round the fullest part of the upper arm.",
			"Arm down and at rest. Tape round the fullest part.",
			4 * unit.Inch, 32 * unit.Inch,
		},
		{
			WristGirth, "wrist girth",
			"Round the wrist over the bone.",
			"Tape over the wrist bone. Keep one finger under it.",
			3 * unit.Inch, 16 * unit.Inch,
		},
	}
}
