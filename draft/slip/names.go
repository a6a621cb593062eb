package slip

import "strings"

// known are the names that have a number: the first is 0. They are only ever
// added to at the end, since links out there hold their numbers. The first
// sixteen take one byte where they are a value, the first 126 where they are a
// key.
const known = `
trousers quarter trued in cm women men main lining none on off garment lengthwise open pressed chalkfold name
figure units system fraction measurements method drafting style rules house job client untrued cloth
waist_girth top_hip_girth hip_girth thigh_girth knee_girth calf_girth ankle_girth heel_girth waist_to_hips
body_rise total_crotch_length front_crotch_length back_crotch_length inside_leg_length outside_leg_length
knee_height stature neck_girth chest_girth under_bust_girth shoulder_length back_waist_length arm_length
upper_arm_girth wrist_girth closure front_dart back_dart pocket leg crease seam_allowance waist_allowance
hem_allowance centre_back_inlay waistband_width band_lap belt_loops loop_strip_width waist_ease hip_ease
thigh_ease knee_ease rise_ease hip_drop rise thigh_drop knee_lift floor_clearance front_fork_part
back_fork_part fork_fullness centre_back_raise seat_tilt inseam_stretch front_dart_width front_dart_length
front_dart_from back_dart_width back_dart_length back_dart_from fly_length fly_width pocket_along_waist
pocket_down_side pocket_hollow pocket_depth pocket_width pocket_facing back_leg_extra thigh_taper hem_girth
taper crease_tuck hidden_lining band_join band_across back_piecing values value of kind width length fold
one_way margin gap kept piece copy across along turn over spoken crosswise interfacing fly_left fly_right sewn
slant straight tapered free tuck level ease dart reach thigh tilt hip waist side inseam fork repeat_across
repeat_along shrinks_along shrinks_across sold_by flaws outline from_selvedge from_edge
front back waistband fly-facing fly-shield pocket-mouth-facing side-facing pocket-bag-front
pocket-bag-back loop-strip band-interfacing fly-interfacing remnant 90 180 270
balanced fork_ease centre_front_raise
waist_to_knee skirt hem shape a_line pencil knee above calf ankle zip_back zip_side opening vent
slit side_slits one two full skirt_hem_allowance flared_hem_allowance skirt_band_width
skirt_band_lap skirt_waist_ease skirt_hip_ease front_wider front_waist_wider front_side_part
back_side_part most_side side_raise back_hollow skirt_front_dart skirt_front_dart_length
skirt_back_dart skirt_back_dart_length second_dart_shorter skirt_length above_knee calf_below
ankle_below flare peg walking_room zip_length vent_height vent_width slit_height slit_allowance
lining_shorter
side_zip back_zip elastic pleat pleats straight_slant seam back_pocket flared wide shorts plain
turn_up band shaped band_shape pleat_width pleat_length back_pocket_down back_pocket_width
pocket_seam_top wide_leg ankle_lift shorts_leg
neck_base_girth back_width scye_depth neck_shoulder_to_breast_point bust_point_distance
neck_shoulder_to_waist bodice bust shoulder bust_dart from_side from_shoulder neck high round low
waist_darts finish faced lined curve_allowance bodice_foot_allowance bust_ease bodice_waist_ease
back_width_ease scye_ease bust_wider bodice_waist_wider neck_part nape_rise neck_deeper
shoulder_drop shoulder_in chest_narrower front_scye_higher least_bust_dart most_bust_dart
bust_dart_short bust_dart_lower bodice_waist_dart back_dart_below bodice_side_part bodice_most_side
bodice_zip facing_depth
alterations by for
back_longer back_shorter seat_slanted seat_straighter back_fork_out back_fork_in front_fork_out
front_fork_in fork_lower fork_higher front_longer front_shorter leg_inwards leg_outwards leg_longer
leg_shorter back_waist_out back_waist_in waist_out waist_in front_waist_out front_waist_in hip_out
hip_in thigh_out thigh_in leg_out leg_in front_fork_more back_fork_more leg_set hem_lower hem_higher
bust_out bust_in back_above_longer back_above_shorter shoulder_lower shoulder_higher armhole_lower
armhole_higher back_wider back_narrower
seat abdomen lower_back average flat sway left_side_length right_side_length
band_lining
side_longer side_shorter left right
`

// names are the known names in their order.
func names() []string { return strings.Fields(known) }

// numbers are those of the names.
func numbers() map[string]uint64 {
	out := map[string]uint64{}
	for i, name := range names() {
		out[name] = uint64(i)
	}
	return out
}
