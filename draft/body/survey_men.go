package body

// men is the survey's answer for men. Columns of ANSUR II are named beside
// each measurement; figures are in mm, computed from its public files (survey:
// Gordon et al., NATICK/TR-15/007, 2014). The tests hold them to the tables in
// testdata/body.
func men(id ID) (trait, bool) {
	switch id {
	case WaistGirth: // waistcircumference
		return trait{
			mean: 940.6, sd: 111.7,
			hip:     line{at: -360.1, hip: 1.2758, sd: 53.9},
			stature: line{at: 345.64, stature: 0.3388, sd: 109.3},
		}, true
	case HipGirth: // buttockcircumference
		return trait{
			mean: 1019.5, sd: 76.7,
			stature: line{at: 352.33, stature: 0.3799, sd: 72.1},
		}, true
	case ThighGirth: // thighcircumference
		return trait{
			mean: 625.1, sd: 58.5,
			full:    line{at: -19.19, waist: -0.0167, hip: 0.7601, stature: -0.0654, sd: 19},
			hip:     line{at: -107.74, hip: 0.7189, sd: 19.4},
			stature: line{at: 242.81, stature: 0.2177, sd: 56.5},
		}, true
	case KneeGirth: // lowerthighcircumference
		return trait{
			mean: 409.3, sd: 31.9,
			full:    line{at: 38.64, waist: 0.0128, hip: 0.3434, stature: 0.0048, sd: 15.8},
			hip:     line{at: 41.02, hip: 0.3612, sd: 15.8},
			stature: line{at: 164.06, stature: 0.1396, sd: 30.4},
		}, true
	case CalfGirth: // calfcircumference
		return trait{
			mean: 392.3, sd: 29.7,
			full:    line{at: 83.09, waist: 0.0132, hip: 0.2901, stature: 0.0006, sd: 18.1},
			hip:     line{at: 79.14, hip: 0.3071, sd: 18.1},
			stature: line{at: 189.86, stature: 0.1152, sd: 28.6},
		}, true
	case AnkleGirth: // anklecircumference
		return trait{
			mean: 229.3, sd: 14.6,
			full:    line{at: 47.28, waist: -0.013, hip: 0.1365, stature: 0.0314, sd: 10.5},
			hip:     line{at: 97.34, hip: 0.1295, sd: 10.8},
			stature: line{at: 90.89, stature: 0.0788, sd: 13.6},
		}, true
	case HeelGirth: // heelanklecircumference
		return trait{
			mean: 343.5, sd: 16.6,
			full:    line{at: 35.68, waist: -0.0054, hip: 0.102, stature: 0.1189, sd: 10.7},
			hip:     line{at: 209.66, hip: 0.1313, sd: 13.2},
			stature: line{at: 69.77, stature: 0.1558, sd: 12.7},
		}, true
	case WaistToHips: // waist_to_hip_vertical
		return trait{
			mean: 168.6, sd: 26.4,
			full:    line{at: 5.09, waist: -0.1572, hip: 0.1713, stature: 0.0779, sd: 24.1},
			hip:     line{at: 174.35, hip: -0.0056, sd: 26.4},
			stature: line{at: 11.1, stature: 0.0897, sd: 25.6},
		}, true
	case BodyRise: // bodyrise_vertical
		return trait{
			mean: 210.6, sd: 21.3,
			full:    line{at: 14.38, waist: -0.0855, hip: 0.0968, stature: 0.1013, sd: 19.4},
			hip:     line{at: 191.66, hip: 0.0185, sd: 21.2},
			stature: line{at: 18.95, stature: 0.1091, sd: 19.9},
		}, true
	case TotalCrotchLength: // crotchlengthomphalion
		return trait{
			mean: 622.3, sd: 46.7,
			full:    line{at: -10.61, waist: -0.0296, hip: 0.434, stature: 0.1243, sd: 31.6},
			hip:     line{at: 179.88, hip: 0.434, sd: 32.7},
			stature: line{at: 132.07, stature: 0.2792, sd: 42.6},
			rise:    line{at: 7.12, waist: 0.0499, hip: 0.3518, rise: 0.9952, sd: 25.5},
		}, true
	case FrontCrotchLength: // crotchlengthanterior
		return trait{
			mean: 266.4, sd: 35,
			full:    line{at: -25.52, waist: 0.0675, hip: 0.2036, stature: 0.0119, sd: 26.6},
			hip:     line{at: -32.6, hip: 0.2933, sd: 26.8},
			stature: line{at: 69.53, stature: 0.1121, sd: 34.1},
			rise:    line{at: -61.85, waist: 0.1024, hip: 0.1562, rise: 0.3451, sd: 25.6},
		}, true
	case BackCrotchLength: // crotchlengthposterioromphalion
		return trait{
			mean: 355.9, sd: 29.5,
			full:    line{at: 14.91, waist: -0.0971, hip: 0.2304, stature: 0.1124, sd: 25.7},
			hip:     line{at: 212.47, hip: 0.1407, sd: 27.5},
			stature: line{at: 62.54, stature: 0.167, sd: 27.2},
			rise:    line{at: 68.97, waist: -0.0525, hip: 0.1956, rise: 0.6501, sd: 23.1},
		}, true
	case InsideLegLength: // crotchheight
		return trait{
			mean: 845.9, sd: 46.5,
			full:    line{at: -155.65, waist: -0.0463, hip: -0.0133, stature: 0.6028, sd: 23.1},
			hip:     line{at: 733.05, hip: 0.1107, sd: 45.7},
			stature: line{at: -176.32, stature: 0.5821, sd: 23.9},
		}, true
	case OutsideLegLength: // waistheightomphalion
		return trait{
			mean: 1056.5, sd: 52.2,
			full:    line{at: -141.27, waist: -0.1317, hip: 0.0835, stature: 0.7041, sd: 19.6},
			hip:     line{at: 924.72, hip: 0.1292, sd: 51.2},
			stature: line{at: -157.37, stature: 0.6912, sd: 21.8},
		}, true
	case KneeHeight: // kneeheightmidpatella
		return trait{
			mean: 488.4, sd: 28.1,
			full:    line{at: -107.89, waist: 0.0099, hip: -0.0217, stature: 0.3468, sd: 15.5},
			hip:     line{at: 390.32, hip: 0.0962, sd: 27.1},
			stature: line{at: -112.13, stature: 0.3419, sd: 15.5},
		}, true
	case Stature: // stature
		return trait{
			mean: 1756.2, sd: 68.6,
		}, true
	case NeckGirth: // neckcircumference
		return trait{
			mean: 397.6, sd: 25.8,
			full:    line{at: 197.73, waist: 0.1229, hip: 0.0811, stature: 0.0009, sd: 16.9},
			hip:     line{at: 154.81, hip: 0.2382, sd: 18.2},
			stature: line{at: 268.79, stature: 0.0734, sd: 25.3},
		}, true
	case ChestGirth: // chestcircumference
		return trait{
			mean: 1058.7, sd: 87.4,
			full:    line{at: 226.53, waist: 0.5237, hip: 0.2754, stature: 0.0335, sd: 39},
			hip:     line{at: 86.48, hip: 0.9536, sd: 47.9},
			stature: line{at: 504.54, stature: 0.3155, sd: 84.7},
		}, true
	case ShoulderLength: // shoulderlength
		return trait{
			mean: 149.8, sd: 10.5,
		}, true
	case BackWaistLength: // waistbacklength
		return trait{
			mean: 477.6, sd: 27.7,
			full:    line{at: 68.28, waist: 0.165, hip: -0.0791, stature: 0.1906, sd: 19.3},
			hip:     line{at: 284.6, hip: 0.1893, sd: 23.6},
			stature: line{at: 97.46, stature: 0.2165, sd: 23.4},
		}, true
	case ArmLength: // sleeveoutseam
		return trait{
			mean: 593.1, sd: 30.8,
			full:    line{at: -38.8, waist: -0.0081, hip: 0.0013, stature: 0.3634, sd: 18.3},
			hip:     line{at: 489.81, hip: 0.1013, sd: 29.8},
			stature: line{at: -41.13, stature: 0.3611, sd: 18.4},
		}, true
	case UpperArmGirth: // bicepscircumferenceflexed
		return trait{
			mean: 358.1, sd: 34.6,
		}, true
	case WristGirth: // wristcircumference
		return trait{
			mean: 175.9, sd: 9,
		}, true
	default: // not surveyed
		return trait{}, false
	}
}
