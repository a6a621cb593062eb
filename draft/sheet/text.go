package sheet

import "chalkfold/draft/unit"

// The reach of the typeface above and below the baseline, as shares of the em:
// capitals and the descenders, not the whole line.
const (
	ascent  = 0.72
	descent = 0.24
	leading = 1.35 // from baseline to baseline
)

// MinText is the smallest text on paper: 7 point, 1 point being 1/72 in.
const MinText = 7 * unit.Inch / 72

// TextWidth returns the width of s set at size in Noto Sans, the typeface that
// sheet/pdf embeds. Letters outside ASCII count at their base letter's width
// or a little more, so that what is fitted into a width does fit.
func TextWidth(s string, size unit.Length) unit.Length {
	sum := 0
	for _, r := range s {
		sum += advance(r)
	}
	return size * unit.Length(sum) / 1000
}

// advance returns the advance width of r in thousandths of the em.
func advance(r rune) int {
	switch {
	case r >= ' ' && r <= '~':
		return int(asciiAdvance()[r-' '])
	case r >= 0x300 && r <= 0x36f: // combining marks stand on what came before
		return 0
	case r >= '¼' && r <= '¾', r >= '⅛' && r <= '⅞', r == '©' || r == '®' || r == 'Ɗ':
		return 832
	case r == 'Æ' || r == 'Œ' || r == 'œ' || r == 'æ' || r == '—' || r == '…' || r == 'Ḿ' || r == 'ḿ':
		return 1000
	case r == '·' || r == '’' || r == '‘':
		return 268
	}
	return 781
}

// asciiAdvance holds the advance widths of U+0020 to U+007E in Noto Sans
// Regular (font table hmtx); a test of sheet/pdf compares them with the font.
func asciiAdvance() *[95]uint16 {
	return &[95]uint16{
		260, 269, 408, 646, 572, 831, 732, 225, 300, 300, 551, 572, 268, 322, 268, 372,
		572, 572, 572, 572, 572, 572, 572, 572, 572, 572, 268, 268, 572, 572, 572, 434,
		899, 639, 650, 632, 730, 556, 519, 728, 741, 339, 273, 619, 524, 907, 760, 781,
		605, 781, 622, 549, 556, 731, 600, 930, 586, 566, 572, 329, 372, 329, 572, 444,
		281, 561, 615, 480, 615, 564, 344, 615, 618, 258, 258, 534, 258, 935, 618, 605,
		615, 615, 413, 479, 361, 618, 508, 786, 529, 510, 470, 380, 551, 380, 572,
	}
}
