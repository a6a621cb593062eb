package body

// women is the survey's answer for women. Columns of ANSUR II are named beside
// each measurement; figures are in mm, computed from its public files (survey:
// Gordon et al., NATICK/TR-15/007, 2014). The tests hold them to the tables in
// testdata/body.
func women(id ID) (trait, bool) {
	switch id {
	case WaistGirth: // waistcircumference
		return trait{
			mean: 860.9, sd: 99.9,
			hip:     line{at: -218.24, hip: 1.0567, sd: 59.6},
			stature: line{at: 280.02, stature: 0.3567, sd: 97.3},
		}, true
	case HipGirth: // buttockcircumference
		return trait{
			mean: 1021.2, sd: 75.9,
			stature: line{at: 291.94, stature: 0.4478, sd: 70.3},
		}, true
	case ThighGirth: // thighcircumference
		return trait{
			mean: 616.1, sd: 55.8,
			full:    line{at: -37.27, waist: 0.0025, hip: 0.701, stature: -0.0397, sd: 19},
			hip:     line{at: -89.45, hip: 0.6909, sd: 19.1},
			stature: line{at: 168.07, stature: 0.2752, sd: 53},
		}, true
	case KneeGirth: // lowerthighcircumference
		return trait{
			mean: 400.7, sd: 35.2,
			full:    line{at: 3.29, waist: -0.027, hip: 0.4007, stature: 0.0071, sd: 20.7},
			hip:     line{at: 18.38, hip: 0.3744, sd: 20.7},
			stature: line{at: 112.7, stature: 0.1769, sd: 33.3},
		}, true
	case CalfGirth: // calfcircumference
		return trait{
			mean: 373.3, sd: 28.5,
			full:    line{at: 47, waist: -0.0172, hip: 0.2852, stature: 0.0306, sd: 19.2},
			hip:     line{at: 90.57, hip: 0.2768, sd: 19.3},
			stature: line{at: 125.44, stature: 0.1522, sd: 26.8},
		}, true
	case AnkleGirth: // anklecircumference
		return trait{
			mean: 215.7, sd: 14.9,
			full:    line{at: 50.04, waist: -0.0078, hip: 0.0986, stature: 0.044, sd: 12.3},
			hip:     line{at: 109.01, hip: 0.1045, sd: 12.6},
			stature: line{at: 76.65, stature: 0.0854, sd: 13.8},
		}, true
	case HeelGirth: // heelanklecircumference
		return trait{
			mean: 310.3, sd: 15.3,
			full:    line{at: 36.59, waist: 0.0051, hip: 0.0654, stature: 0.1244, sd: 10.5},
			hip:     line{at: 197.38, hip: 0.1106, sd: 12.8},
			stature: line{at: 57.09, stature: 0.1555, sd: 11.6},
		}, true
	case WaistToHips: // waist_to_hip_vertical
		return trait{
			mean: 146.4, sd: 24.9,
			full:    line{at: -19.18, waist: -0.2174, hip: 0.1639, stature: 0.1138, sd: 19.4},
			hip:     line{at: 176.35, hip: -0.0293, sd: 24.8},
			stature: line{at: -32.2, stature: 0.1097, sd: 23.9},
		}, true
	case BodyRise: // bodyrise_vertical
		return trait{
			mean: 197.8, sd: 21,
			full:    line{at: 4.63, waist: -0.1339, hip: 0.1332, stature: 0.1059, sd: 18},
			hip:     line{at: 171.68, hip: 0.0256, sd: 21},
			stature: line{at: 6.01, stature: 0.1178, sd: 19.6},
		}, true
	case TotalCrotchLength: // crotchlengthomphalion
		return trait{
			mean: 620.8, sd: 42.4,
			full:    line{at: 43.57, waist: -0.2042, hip: 0.5315, stature: 0.1292, sd: 28.9},
			hip:     line{at: 256.23, hip: 0.357, sd: 32.7},
			stature: line{at: 141.54, stature: 0.2943, sd: 38},
			rise:    line{at: 72.37, waist: -0.0776, hip: 0.4141, rise: 0.9723, sd: 23.5},
		}, true
	case FrontCrotchLength: // crotchlengthanterior
		return trait{
			mean: 279, sd: 29.5,
			full:    line{at: 17.82, waist: -0.0196, hip: 0.2155, stature: 0.0356, sd: 25},
			hip:     line{at: 68.45, hip: 0.2062, sd: 25.1},
			stature: line{at: 75.24, stature: 0.1251, sd: 28.4},
			rise:    line{at: 16.26, waist: 0.0254, hip: 0.1707, rise: 0.3362, sd: 24.2},
		}, true
	case BackCrotchLength: // crotchlengthposterioromphalion
		return trait{
			mean: 341.9, sd: 28.6,
			full:    line{at: 25.75, waist: -0.1846, hip: 0.316, stature: 0.0936, sd: 22.8},
			hip:     line{at: 187.78, hip: 0.1509, sd: 26.2},
			stature: line{at: 66.3, stature: 0.1692, sd: 26.5},
			rise:    line{at: 56.11, waist: -0.103, hip: 0.2434, rise: 0.636, sd: 20.1},
		}, true
	case InsideLegLength: // crotchheight
		return trait{
			mean: 782.3, sd: 44.6,
			full:    line{at: -163.58, waist: -0.0113, hip: -0.0423, stature: 0.6133, sd: 23.3},
			hip:     line{at: 636.98, hip: 0.1423, sd: 43.3},
			stature: line{at: -179.1, stature: 0.5904, sd: 23.6},
		}, true
	case OutsideLegLength: // waistheightomphalion
		return trait{
			mean: 980.1, sd: 50,
			full:    line{at: -158.96, waist: -0.1452, hip: 0.0909, stature: 0.7193, sd: 18.4},
			hip:     line{at: 808.66, hip: 0.1679, sd: 48.4},
			stature: line{at: -173.09, stature: 0.7082, sd: 20.9},
		}, true
	case KneeHeight: // kneeheightmidpatella
		return trait{
			mean: 449, sd: 26,
			full:    line{at: -106.29, waist: 0.016, hip: -0.0176, stature: 0.3436, sd: 13.9},
			hip:     line{at: 337.28, hip: 0.1094, sd: 24.6},
			stature: line{at: -106.94, stature: 0.3414, sd: 14},
		}, true
	case Stature: // stature
		return trait{
			mean: 1628.5, sd: 64.2,
		}, true
	case NeckGirth: // neckcircumference
		return trait{
			mean: 329.8, sd: 19.2,
			full:    line{at: 144.75, waist: 0.1057, hip: 0.0403, stature: 0.0325, sd: 13.3},
			hip:     line{at: 163.96, hip: 0.1624, sd: 14.8},
			stature: line{at: 186.11, stature: 0.0882, sd: 18.4},
		}, true
	case ChestGirth: // chestcircumference
		return trait{
			mean: 946.9, sd: 82.7,
			full:    line{at: 186.97, waist: 0.5826, hip: 0.179, stature: 0.0464, sd: 43.4},
			hip:     line{at: 120.18, hip: 0.8095, sd: 55.4},
			stature: line{at: 402.37, stature: 0.3344, sd: 79.9},
		}, true
	case ShoulderLength: // shoulderlength
		return trait{
			mean: 135.4, sd: 10.3,
		}, true
	case BackWaistLength: // waistbacklength
		return trait{
			mean: 425.4, sd: 26.4,
			full:    line{at: 63.35, waist: 0.1918, hip: -0.0988, stature: 0.1829, sd: 18.2},
			hip:     line{at: 259.44, hip: 0.1625, sd: 23.3},
			stature: line{at: 88.23, stature: 0.207, sd: 22.8},
		}, true
	case ArmLength: // sleeveoutseam
		return trait{
			mean: 543.6, sd: 29.4,
			full:    line{at: -54.11, waist: 0.0053, hip: 0.0105, stature: 0.3576, sd: 17.9},
			hip:     line{at: 410.04, hip: 0.1307, sd: 27.7},
			stature: line{at: -49.55, stature: 0.3642, sd: 17.9},
		}, true
	case UpperArmGirth: // bicepscircumferenceflexed
		return trait{
			mean: 305.6, sd: 30.8,
		}, true
	case WristGirth: // wristcircumference
		return trait{
			mean: 154.8, sd: 7.8,
		}, true
	default: // not surveyed
		return trait{}, false
	}
}
