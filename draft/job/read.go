package job

import (
	"errors"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// length reads a length that names its unit; why is none when it could.
func length(text string) (q unit.Quantity, why say.Msg) {
	if strings.TrimSpace(text) == "" {
		return q, say.Of("empty; write a length such as 42 in, or take the key out")
	}
	if err := q.UnmarshalText([]byte(text)); err != nil {
		var bad *unit.ParseError
		if errors.As(err, &bad) {
			return unit.Quantity{}, bad.Why
		}
		return unit.Quantity{}, say.Of("%v", err)
	}
	if q.Length() < 0 {
		return unit.Quantity{}, say.Of("a length here cannot be below nought; leave the minus away")
	}
	return q, say.Msg{}
}

// shownOr is shown, or nothing for a node that was reported already.
func (n *node) shownOr() string {
	if n == nil {
		return ""
	}
	return n.shown()
}

// nearest names the measurements that share a word with key, or all of them.
func nearest(key string) string {
	words := strings.Split(key, "_")
	var like, all []string
	for _, d := range body.Defs() {
		all = append(all, string(d.ID))
		for _, w := range words {
			if w != "" && strings.Contains("_"+string(d.ID)+"_", "_"+w+"_") {
				like = append(like, string(d.ID))
				break
			}
		}
	}
	if len(like) == 0 {
		like = all
	}
	return strings.Join(like, ", ")
}
