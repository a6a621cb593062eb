package construct

import "strconv"

func fixed3(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }
