package lay

import "slices"

// LetGo is a lock that could not be kept.
type LetGo struct {
	Item int
	// Over is the locked item that it would lie on; −1 when it would lie off the
	// cloth, on a flaw, or where no piece can be locked.
	Over int
}

// Hold unlocks those items whose lock contradicts the cloth or an earlier lock,
// and says which. What stays locked goes together.
func Hold(c Cloth, items []Item) []LetGo {
	c.Length = 0
	var kept []int
	var gone []LetGo
	for i, it := range items {
		switch {
		case it.Locked == nil:
		case together(c, items, append(slices.Clip(kept), i)):
			kept = append(kept, i)
		default:
			over := slices.IndexFunc(kept, func(j int) bool { return !together(c, items, []int{j, i}) })
			if over >= 0 && together(c, items, []int{i}) {
				over = kept[over]
			} else {
				over = -1
			}
			gone = append(gone, LetGo{i, over})
			items[i].Locked = nil
		}
	}
	return gone
}

// together reports whether some locked items alone are a sound lay.
func together(c Cloth, items []Item, some []int) bool {
	only := make([]Item, len(some))
	for k, i := range some {
		only[k] = items[i]
	}
	_, err := NewSearch(c, only, 0)
	return err == nil
}
