package quote

import "strings"

// oldNotion began the ids of notions when those went by their names.
const oldNotion = "notion "

// newID is the id of a line that was kept under an older one.
func newID(id string) string {
	name, old := strings.CutPrefix(id, oldNotion)
	if !old {
		return id
	}
	switch name {
	case "zip, closed at its lower end":
		return "zip"
	case "button, or hook and bar, for the band":
		return "fastening"
	case "hook and eye, small":
		return "hook"
	case "elastic for the band, or a drawstring twice as long":
		return "elastic"
	case "narrow tape for the pocket mouths":
		return "tape"
	}
	return name
}

// byLength reports whether a notion was once charged as one piece, and goes by
// its length now.
func byLength(id string) bool { return id == "tape" || id == "elastic" }

// renew gives a line of an older quote its id of today. A price for a piece of
// what goes by its length now stays one for the piece.
func (l *Line) renew() {
	if id := newID(l.ID); id != l.ID {
		l.ID = id
		l.Fixed = l.Fixed || byLength(id) && l.Price != 0
	}
}

// Recall puts a price that was kept under key among prices: under what it is
// remembered by today (see Line.PriceKey), which is more than one key where it was
// kept without what it is for. One that is there already under a key of today
// stays, and what is no price is left out.
func Recall(prices map[string]Money, key string, price Money) {
	if price <= 0 || price > most {
		return
	}
	if per := Per(key[strings.LastIndexByte(key, ' ')+1:]); !strings.HasPrefix(key, oldNotion) && (per == Piece || per == Yard || per == Metre || per == Hour) {
		prices[key] = price
		return
	}
	pers := []Per{Piece}
	switch key {
	case Labour:
		pers = []Per{Hour}
	case "lining", "interfacing":
		pers = []Per{Yard, Metre}
	}
	for _, per := range pers {
		k := Line{ID: newID(key), Per: per}.PriceKey()
		if _, there := prices[k]; !there {
			prices[k] = price
		}
	}
}
